import type { Settings } from '../../settings';
import type { Scope } from '../codes';
import { gracesInBar } from '../bar-values';
import type { Evidence } from '../evidence';
import type { Figure } from '../figure';
import { graceGapMs, gracedStrokes, gracesBySlot, gracesIn } from '../grace-gaps';
import { medianEstimate } from '../intervals';
import type { Limit } from '../limit';
import { CP, TWO_STEPS_DOWN } from '../remedy/rules';
import { distributionOf } from '../statistics';
import { judgedIfEnough, unjudged } from '../verdict';
import type { Badness, JudgedMeasure, LimitAt } from './measure';

/**
 * Width of flams and drags: median gap from a grace to the next stroke of its group, ms. Ideal 30; holds 15–55, not yet
 * outside 8–80. Under 4 graces: too few.
 * Source: common practice.
 */
export const flamGap: JudgedMeasure<'flamGap', null> = {
  key: 'flamGap',
  of: 'hands too',
  verdict: 'names',
  remedy: { rule: 'slower', tempoShare: TWO_STEPS_DOWN, source: CP },
  live: 'early or late',
  column: { rank: 12, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'ms',
      madeOf: 'times',
      limit,
      limitGoesBy: 'the side',
      estimate,
      groups: gracedStrokes,
      badness: fromTheIdeal,
      inBar: gracesInBar((graces) => graces > 0),
      picture: 'levels by kind',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

/** On the side of the ideal (30 ms) that the value is on: a grace may be too close or too far. */
function limit(settings: Settings, { value = Infinity }: Pick<LimitAt, 'value'>): Limit {
  const side = value < settings['flamGap.ideal'] ? 'Least' : 'Most';
  return {
    ideal: settings['flamGap.ideal'],
    holds: settings[`flamGap.holds${side}`],
    notYet: settings[`flamGap.notYet${side}`],
    twoSided: false,
  };
}

/** @returns undefined where no grace is due */
function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  const graces = gracesIn(evidence, scope);
  if (graces === undefined) return undefined;
  const { settings } = evidence.graded;
  if (graces.merged) return unjudged('not measured', [graces.gapsMs.length]);
  const width = medianEstimate(distributionOf(graces.gapsMs));
  return judgedIfEnough(
    () => width,
    [graces.gapsMs.length],
    settings['few.group'],
    () => limit(settings, { value: width?.value ?? 0 }),
  );
}

/** The farther out on the figure's side of the ideal, the worse. */
function fromTheIdeal(evidence: Evidence, { value }: Figure): Badness {
  const found = gracesBySlot(evidence);
  const side = (value ?? 0) < evidence.graded.settings['flamGap.ideal'] ? -1 : 1;
  return (i) => {
    const gap = graceGapMs(evidence, found, i);
    return gap === undefined ? undefined : side * gap;
  };
}
