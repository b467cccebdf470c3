import type { Scope } from './codes';
import type { Evidence } from './evidence';
import { complete } from './measures/complete';
import * as graces from './measures/graces';
import * as levels from './measures/levels';
import { seam } from './measures/seam';
import { softRange } from './measures/soft-range';
import { termFigure } from './measures/soft-strokes';
import { accentStretch, asynchrony, doubleGap, lag, scatter, shape } from './measures/timing';
import type { Tally } from './tally';
import type { Figure, Measures } from './types';
import { unjudged } from './verdict';

/** Every measure of the take or of a variation that applies to it. */
export function measuresOf(evidence: Evidence, scope: Scope, tally: Tally): Measures {
  const terms = termFigures(evidence, scope);
  const seams = seam(evidence, scope);
  const all: Measures = {
    complete: complete(tally, evidence.graded.settings),
    scatter: scatter(evidence, scope),
    ...terms,
    ...present({
      softness: levels.softness(evidence, scope),
      ghostContrast: levels.ghostContrast(evidence, scope),
      contrast: levels.contrast(evidence, scope),
      clarity: levels.clarity(evidence, scope),
      doubleGap: doubleGap(evidence, scope),
      balanceSoft: levels.balanceSoft(evidence, scope),
      balanceAccent: levels.balanceAccent(evidence, scope),
      lag: lag(evidence, scope),
    }),
    ...(seams ? { seam: seams } : {}),
    ...present({
      flamEvenness: graces.flamEvenness(evidence, scope),
      flamGap: graces.flamGap(evidence, scope),
      graceSoftness: graces.graceSoftness(evidence, scope),
      softSpread: levels.softSpread(evidence, scope),
      accentSpread: levels.accentSpread(evidence, scope),
      asynchrony: asynchrony(evidence, scope),
      shape: shape(evidence, scope),
      accentStretch: accentStretch(evidence, scope),
    }),
  };
  return evidence.graded.clumped === true ? withoutTiming(all) : all;
}

/** The measures that a hand has by itself. Strokes in the wrong hand are in neither row. */
export function handMeasures(evidence: Evidence, scope: Scope): Measures {
  const all: Measures = {
    scatter: scatter(evidence, scope),
    ...termFigures(evidence, scope),
    ...present({
      softness: levels.softness(evidence, scope),
      contrast: levels.contrast(evidence, scope),
      clarity: levels.clarity(evidence, scope),
      doubleGap: doubleGap(evidence, scope),
      flamEvenness: graces.flamEvenness(evidence, scope),
      flamGap: graces.flamGap(evidence, scope),
      graceSoftness: graces.graceSoftness(evidence, scope),
      softSpread: levels.softSpread(evidence, scope),
      accentSpread: levels.accentSpread(evidence, scope),
      asynchrony: asynchrony(evidence, scope),
      shape: shape(evidence, scope),
    }),
  };
  return evidence.graded.clumped === true ? withoutTiming(all) : all;
}

const timingKeys = [
  'scatter',
  'doubleGap',
  'lag',
  'flamEvenness',
  'flamGap',
  'asynchrony',
  'shape',
  'accentStretch',
] as const;

/** Of clumped time stamps nothing that is made of times is measured. */
function withoutTiming(measures: Measures): Measures {
  const untold = timingKeys.flatMap((key) => {
    const figure = measures[key];
    return figure === undefined ? [] : [[key, unjudged('not measured', figure.n)] as const];
  });
  const { seam: seams } = measures;
  return {
    ...measures,
    ...Object.fromEntries(untold),
    ...(seams ? { seam: { ...seams, ms: unjudged('not measured', seams.ms.n) } } : {}),
  };
}

/**
 * The four terms and, beside them, the range of soft places: judged where a term can't be told, or where the scope has
 * no accent for a soft stroke to lie near.
 */
function termFigures(evidence: Evidence, scope: Scope): Partial<Measures> {
  const terms = present({
    leakBefore: termFigure(evidence, scope, 'leakBefore'),
    leakAfter: termFigure(evidence, scope, 'leakAfter'),
    spill: termFigure(evidence, scope, 'spill'),
    fade: termFigure(evidence, scope, 'fade'),
  });
  const { fade, ...leaks } = terms;
  const untold = Object.values(terms).some((figure) => figure.band === 'not measured');
  const isJudged = untold || Object.keys(leaks).length === 0;
  const range = present({ softRange: softRange(evidence, scope, isJudged) });
  return { ...leaks, ...range, ...(fade ? { fade } : {}) };
}

type Found<Key extends string> = Readonly<Partial<Record<Key, Figure>>>;

/** Only the keys that apply: an absent key is not a nought. */
function present<Key extends string>(figures: Readonly<Record<Key, Figure | undefined>>): Found<Key> {
  return Object.fromEntries(
    Object.entries(figures).filter(([, figure]) => figure !== undefined),
  ) as Found<Key>;
}
