import type { Settings } from '../../settings';
import type { Scope } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import type { Limit } from '../figures/limit';
import { CP, A_STEP_DOWN } from '../remedy/rules';
import { allTimed, ifStruck, sideOf } from '../figures/stroke-groups';
import { figureOf } from '../figures/time-figures';
import type { JudgedMeasure, LimitAt } from './measure';

/**
 * How late a variation comes as a whole against the others, ms; negative: early. What its bars lie off their cycle's
 * mean, hands, feel, doubles and first strokes taken off, less the median of the same of the other variations
 * (`time-model/arrival.ts`). Of a variation only; without a click there is none. Under two variations or two cycles:
 * absent. Holds within 10 ms or 5 % of the gap, not yet beyond twice that.
 * @example accents on the e: its bars 60 ms behind the other bars
 * Source: common practice.
 */
export const arrival: JudgedMeasure<'arrival', null> = {
  key: 'arrival',
  of: 'take and variations',
  verdict: 'names',
  about: 'take',
  remedy: {
    rule: 'in turn',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: a bar that comes late is joined to another that doesn't, said aloud`,
  },
  live: 'early or late',
  column: { rank: 15, on: 'terminal' },
  figures: [
    {
      part: null,
      unit: 'ms',
      madeOf: 'times',
      limit,
      limitGoesBy: 'the gap',
      estimate,
      groups: allTimed,
      badness: (evidence, figure) => {
        const side = sideOf(figure);
        return ifStruck(evidence, (i) => side * evidence.deviationMs[i]);
      },
      picture: 'arrival',
      mirrored: 'same',
      reversed: 'flips',
    },
  ],
};

function limit(settings: Settings, { gapMs }: Pick<LimitAt, 'gapMs'>): Limit {
  const holds = Math.max(settings['arrival.holds'], (settings['arrival.holdsPercent'] / 100) * gapMs);
  return { ideal: 0, holds, notYet: holds * settings['arrival.notYetFactor'], twoSided: true };
}

function estimate({ graded: { settings }, time }: Evidence, { variation }: Scope): Figure | undefined {
  if (variation === undefined || time.arrivals.length < 2) return undefined;
  const found = time.arrivals[variation];
  if (found === undefined) return undefined;
  return figureOf(
    found,
    [time.strokes[variation]],
    'few.group',
    () => limit(settings, { gapMs: time.gapMs ?? 0 }),
    settings,
  );
}
