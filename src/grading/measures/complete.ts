import type { Settings } from '../../settings';
import { proportionEstimate } from '../intervals';
import { limitOf } from '../limits';
import type { Tally } from '../tally';
import type { Figure } from '../types';
import { judgedIfEnough } from '../verdict';

/**
 * Share of what was due or made that was right: (matched - wrong hand) / (matched + missed + extras + slips), 0 to 1.
 * Take and variations only. Under 4: too few. Interval: Clopper & Pearson.
 * @example 253 matched, 3 missed, 1 extra: 253/257 = 0.984, close (0.99 holds)
 * Source: common practice.
 */
export function complete({ right, of }: Tally, settings: Settings): Figure {
  return judgedIfEnough(
    () => proportionEstimate(right, of),
    [of],
    settings['few.group'],
    () => limitOf('complete', settings, 0),
  );
}
