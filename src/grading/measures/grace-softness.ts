import type { Settings } from '../../settings';
import type { Scope } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { gracesBySlot, gracesIn, levelledStrokes } from '../figures/grace-gaps';
import { meanEstimate } from '../numbers/intervals';
import { oneSided, type Limit } from '../figures/limit';
import { CP, TWO_STEPS_DOWN } from '../remedy/rules';
import { judgedIfEnough, unjudged } from '../verdict';
import type { Badness, JudgedMeasure, LimitAt } from './measure';

const limit = (settings: Settings, { beforeSoft }: Pick<LimitAt, 'beforeSoft'>): Limit =>
  beforeSoft === true ? limitBeforeSoft(settings) : oneSided(settings, 'graceSoftness');

/**
 * Softness of grace notes: mean level of a grace less that of the stroke it leads to, dB, before accents; in a phrase
 * whose flams have no accent, before soft strokes, which leave it less space. Holds at −12 or less (−4), not yet over −6
 * (+1). Under 4 graces: too few. A grace on another surface than its stroke, where the phrase is voiced, has no level to
 * compare unless the two are trimmed: not measured.
 * Source: common practice.
 */
export const graceSoftness: JudgedMeasure<'graceSoftness', null> = {
  key: 'graceSoftness',
  of: 'hands too',
  verdict: 'names',
  about: 'kind',
  remedy: { rule: 'slower', tempoShare: TWO_STEPS_DOWN, source: CP },
  live: 'soft level',
  column: { rank: 16, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'dB',
      madeOf: 'levels',
      limit,
      estimate,
      groups: levelledStrokes,
      badness: overTheStroke,
      picture: 'levels by kind',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

/** @returns undefined where no grace is due */
function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  const graces = gracesIn(evidence, scope);
  if (graces === undefined) return undefined;
  const { settings } = evidence.graded;
  if (graces.merged) return unjudged('not measured', [graces.n]);
  const at = graces.beforeAccentDb.length > 0 ? {} : ({ beforeSoft: true } as const);
  const levels = at.beforeSoft === true ? graces.beforeSoftDb : graces.beforeAccentDb;
  if (levels.length === 0 && graces.n > 0) return unjudged('not measured', [0]);
  const figure = judgedIfEnough(
    () => meanEstimate(levels),
    [levels.length],
    'few.group',
    () => limit(settings, at),
    settings,
  );
  // those before soft strokes are left out beside those before accents
  const both = graces.beforeAccentDb.length > 0 && graces.beforeSoftDb.length > 0;
  return both ? { ...figure, kind: 'accent' } : { ...figure, ...at };
}

function limitBeforeSoft(settings: Settings): Limit {
  return {
    ideal: settings['heights.low'] - settings['softness.holds'] + settings['graceSoftness.softHolds'],
    holds: settings['graceSoftness.softHolds'],
    notYet: settings['graceSoftness.softNotYet'],
    twoSided: false,
  };
}

/** Level of the last grace less that of its stroke, dB. */
function overTheStroke(evidence: Evidence): Badness {
  const { strokes, alignment } = evidence.graded;
  const found = gracesBySlot(evidence);
  return (i) => {
    const outcome = alignment.outcomes[i];
    const last = found.get(i)?.at(-1);
    if (outcome.status !== 'matched' || last === undefined) return undefined;
    return strokes[last].levelDb - strokes[outcome.stroke].levelDb;
  };
}
