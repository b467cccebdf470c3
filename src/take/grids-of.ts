import { gridOf } from '../exercises/grid';
import type { Grid } from '../exercises/types';
import type { Take } from '../sessions/types';
import type { Settings } from '../settings';
import type { Ms } from '../units';

/** A take's grid of so many bars. */
export type Grids = (bars: number) => Grid;

/**
 * A take's grids, each of as many bars as it is asked for; one that is asked for again right after is the same one, for
 * that of an hour has 30,000 slots.
 */
export function gridsOf(
  { phrase, tempo, downbeatMs }: Pick<Take, 'phrase' | 'tempo'> & { readonly downbeatMs: Ms },
  settings: Settings,
): Grids {
  let last: Grid | undefined;
  return (bars) => {
    if (last?.bars.length !== bars) last = gridOf(phrase, tempo, downbeatMs, bars, settings['hand.restMs']);
    return last;
  };
}
