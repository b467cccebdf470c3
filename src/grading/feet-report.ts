import type { Foot } from '../exercises/types';
import { who } from './evidence/codes';
import type { Evidence } from './evidence/evidence';
import type { FeetPlayed } from './graded';
import { meanEstimate, medianEstimate, pooledSd, welchDifference, type Estimate } from './numbers/intervals';
import { distributionOf } from './numbers/statistics';
import type { FeetReport, Figure, FootReport } from './types';
import { plainIfEnough, unjudged } from './verdict';
import { mean } from '../ordered';

/**
 * The feet of a take, apart from the hands, and what the feet do to the hands. No verdicts: how good an ostinato is
 * shows in the hands above it.
 * @returns undefined where the phrase has no feet
 */
export function feetReport(evidence: Evidence): FeetReport | undefined {
  const { grid, feet } = evidence.graded;
  if (feet === undefined || grid.feet.length === 0) return undefined;
  const status = { matched: 0, missed: 0, notMeasured: 0 };
  for (const outcome of feet.alignment.outcomes) status[outcome.status] += 1;
  const ofFoot = (foot: Foot): Readonly<Partial<Record<Foot, FootReport>>> =>
    grid.feet.some((slot) => slot.foot === foot) ? { [foot]: footReport(evidence, feet, foot) } : {};
  return {
    counts: { slots: grid.feet.length, ...status, extra: feet.alignment.extras.length },
    ...ofFoot('K'),
    ...ofFoot('H'),
    hands: {
      deviationMs: withMinusWithout(evidence, feet, evidence.deviationMs),
      levelDb: withMinusWithout(evidence, feet, evidence.levelDb),
    },
  };
}

/**
 * One foot. `scatter`: standard deviation of its deviations about the mean of their place (bar of the cycle and partial),
 * pooled, ms; under 8 strokes too few. `asynchrony`: mean deviation, ms, negative early, the hands' offset in it.
 * `softness`: median level of what is due loud, and `softStrokes` of what is due soft, dB; absent where none is due.
 * Under 4 strokes too few.
 */
function footReport(evidence: Evidence, { strokes, alignment }: FeetPlayed, foot: Foot): FootReport {
  const { grid, settings } = evidence.graded;
  const places = new Map<string, number[]>();
  const deviations: number[] = [];
  const levels: Record<'loud' | 'soft', number[]> = { loud: [], soft: [] };
  const due = { loud: 0, soft: 0 };
  for (const slot of grid.feet) {
    if (slot.foot !== foot) continue;
    const strength = slot.soft ? 'soft' : 'loud';
    due[strength] += 1;
    const outcome = alignment.outcomes[slot.index];
    if (outcome.status !== 'matched') continue;
    const place = `${grid.bars[slot.bar].barInCycle}/${slot.partial}`;
    places.set(place, [...(places.get(place) ?? []), outcome.deviationMs]);
    deviations.push(outcome.deviationMs);
    levels[strength].push(strokes[outcome.stroke].levelDb);
  }
  const few = settings['few.group'];
  const levelOf = (strength: 'loud' | 'soft'): Figure =>
    plainIfEnough(() => medianEstimate(distributionOf(levels[strength])), [levels[strength].length], few);
  return {
    slots: due.loud + due.soft,
    matched: deviations.length,
    scatter: plainIfEnough(() => pooledSd([...places.values()]), [deviations.length], settings['few.spread']),
    asynchrony: plainIfEnough(() => meanEstimate(deviations), [deviations.length], few),
    ...(due.loud > 0 ? { softness: levelOf('loud') } : {}),
    ...(due.soft > 0 ? { softStrokes: levelOf('soft') } : {}),
  };
}

/**
 * Hand strokes that fall with a foot's stroke minus those that don't, ms or dB: positive is later or louder with the
 * feet. Only within a hand and a kind that have both (feet under the accents would else pass for louder hands): each
 * group is centred on the middle of its two means. Interval: Welch. Wrong hands, and strokes whose foot was missed, are
 * left out; under 4 of either: too few; where no group has both: not measured.
 */
function withMinusWithout(evidence: Evidence, feet: FeetPlayed, values: Float64Array): Figure {
  const footed = struckTimes(evidence, feet);
  const groups = new Map<number, { with: number[]; without: number[] }>();
  evidence.graded.grid.slots.forEach(({ atMs }, i) => {
    const by = evidence.who[i];
    const isStruck = footed.get(atMs);
    if ((by !== who.R && by !== who.L) || isStruck === false) return;
    const key = by * KINDS + evidence.kind[i];
    const group = groups.get(key) ?? { with: [], without: [] };
    groups.set(key, group);
    group[isStruck === true ? 'with' : 'without'].push(values[i]);
  });
  const both = [...groups.values()].filter((group) => group.with.length > 0 && group.without.length > 0);
  if (both.length === 0) return unjudged('not measured', [0, 0]);
  const centred: { with: number[]; without: number[] } = { with: [], without: [] };
  for (const group of both) {
    const middle = ((mean(group.with) ?? 0) + (mean(group.without) ?? 0)) / 2;
    centred.with.push(...group.with.map((value) => value - middle));
    centred.without.push(...group.without.map((value) => value - middle));
  }
  const estimate = (): Estimate | undefined => welchDifference(centred.with, centred.without);
  return plainIfEnough(
    estimate,
    [centred.with.length, centred.without.length],
    evidence.graded.settings['few.group'],
  );
}

const KINDS = 3;

/** By time of a foot's slot: whether every foot due there was struck. Slots of hands and feet share their times. */
function struckTimes({ graded: { grid } }: Evidence, { alignment }: FeetPlayed): Map<number, boolean> {
  const struck = new Map<number, boolean>();
  for (const { atMs, index } of grid.feet) {
    const isMatched = alignment.outcomes[index].status === 'matched';
    struck.set(atMs, isMatched && struck.get(atMs) !== false);
  }
  return struck;
}
