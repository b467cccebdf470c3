import type { Settings } from '../../settings';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import type { Estimate } from '../numbers/intervals';
import { shareOfGap, type Limit } from '../figures/limit';
import { CP, AS_IT_WAS } from '../remedy/rules';
import { ifStruck, sideOf } from '../figures/stroke-groups';
import { figureOf } from '../figures/time-figures';
import type { JudgedMeasure, LimitAt } from './measure';

/**
 * How far off-beats lie from where the phrase has them, in % of a pair of partials: positive is late, as in a swing; the
 * third of a triplet in a straight phrase is 16.7. The time model's term (`time-model.ts`) in halves of the gap without
 * swing. It is of the take, and never why a variation is the weakest. Under 4 strokes on or off the beat: too few. Off by
 * the larger of 5 % of the gap and 8 ms it still holds, not yet beyond 12 % and 16 ms. Where the second of a pair was
 * played, 50 being straight, stands in the report's time model.
 * @example sixteenths 125 ms apart, every second one 30 ms late: 12 %
 * Source: common practice.
 */
export const feel: JudgedMeasure<'feel', null> = {
  key: 'feel',
  of: 'take only',
  verdict: 'never names',
  about: 'take',
  remedy: { rule: 'accents off', tempoShare: AS_IT_WAS, source: `${CP}: the click on the off-beats` },
  live: 'early or late',
  figures: [
    {
      part: null,
      unit: '%',
      madeOf: 'times',
      limit,
      limitGoesBy: 'the gap',
      estimate,
      groups: (evidence) => [
        { name: 'off-beat', has: (i) => evidence.time.isRow[i] === 1 && isOffBeat(evidence, i) },
        { name: 'on-beat', has: (i) => evidence.time.isRow[i] === 1 },
      ],
      badness: (evidence, figure) => {
        const side = sideOf(figure);
        return ifStruck(
          evidence,
          (i) => side * evidence.deviationMs[i],
          (i) => isOffBeat(evidence, i),
        );
      },
      picture: 'timing by place',
      mirrored: 'same',
      reversed: 'flips',
    },
  ],
};

/**
 * In percent about where the phrase has its off-beats, a pair of partials being 100: half of what a double may be off.
 * Of gaps of 100 ms: 4 %.
 */
function limit(settings: Settings, { gapMs }: Pick<LimitAt, 'gapMs'>): Limit {
  const { holds, notYet, ...rest } = shareOfGap(settings, gapMs);
  return { ...rest, holds: holds / 2, notYet: notYet / 2 };
}

/** @returns undefined where no feel is looked for: beats of an odd number of partials, or what may as well be a hand */
function estimate({ graded: { settings }, time }: Evidence): Figure | undefined {
  const { model, n, straightGapMs: gapMs = 0 } = time;
  if (model === undefined || model.feel === null) return undefined;
  const inPercent = (ms: number): number => (50 * ms) / gapMs;
  const { value, interval } = model.feel;
  const off: Estimate = {
    value: inPercent(value),
    interval: [inPercent(interval[0]), inPercent(interval[1])],
  };
  return figureOf(off, n.feel, 'few.group', () => limit(settings, { gapMs }), settings);
}

function isOffBeat({ graded: { grid } }: Evidence, i: number): boolean {
  return grid.slots[i].partialInBeat % 2 === 1;
}
