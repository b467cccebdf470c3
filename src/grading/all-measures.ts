import type { Alignment } from '../alignment/types';
import type { Hand } from '../stroke';
import type { Scope } from './evidence/codes';
import type { Evidence } from './evidence/evidence';
import type { Figure } from './figures/figure';
import { measures, type Measure, type MeasureFigure } from './measures';
import type { Measures } from './types';
import { unjudged } from './verdict';

/** Every measure of the take, or of a variation by its number, that applies to it. */
export function measuresOf(evidence: Evidence, variation?: number): Measures {
  if (variation === undefined) return figured(evidence, {}, measures);
  return figured(evidence, { variation }, ofVariations);
}

/** The measures that a hand has by itself. Strokes in the wrong hand are in neither row. */
export function handMeasures(evidence: Evidence, hand: Hand): Measures {
  return figured(evidence, { hand }, ofHands);
}

const ofVariations = measures.filter(({ of }) => of !== 'take only');
const ofHands = measures.filter(({ of }) => of === 'hands too');

/** Only the keys that apply: an absent key is not a nought. */
function figured(evidence: Evidence, scope: Scope, of: readonly Measure[]): Measures {
  return Object.fromEntries(
    of.flatMap(({ key, figures }) => {
      const found = figures.flatMap((one) => {
        const figure = figureOf(key, one, evidence, scope);
        return figure === undefined ? [] : [[one.part, figure] as const];
      });
      if (found.length < figures.length) return [];
      const [[part, figure]] = found;
      return [[key, part === null ? figure : Object.fromEntries(found)]];
    }),
  ) as Measures;
}

/** A pad of one loudness tells no levels; one of few tells accents from the rest. */
function levelsMeasured({ course }: Alignment, key: string): boolean {
  if (course.some(({ kind }) => kind === 'one loudness')) return false;
  return OF_FEW.has(key) || !course.some(({ kind }) => kind === 'few loudnesses');
}

const OF_FEW: ReadonlySet<string> = new Set(['contrast', 'clarity']);

/** Of clumped time stamps nothing that is made of times is measured. */
function figureOf(
  key: string,
  { estimate, madeOf }: MeasureFigure,
  evidence: Evidence,
  scope: Scope,
): Figure | undefined {
  const figure = estimate(evidence, scope);
  const { clumped, alignment } = evidence.graded;
  const isMeasured =
    madeOf === 'times' ? clumped !== true : madeOf !== 'levels' || levelsMeasured(alignment, key);
  return figure === undefined || isMeasured ? figure : unjudged('not measured', figure.n);
}
