import type { Phrase, Tempo } from '../exercises/types';
import { heard } from './hear';
import type { HearPlayer } from './hear-player';
import type { Click } from './types';

/**
 * A click that also sounds the phrase's bars to listen to, each in its place on the grid: the call of a call and
 * response. Without such bars it is the click alone.
 * @param caller sounds them; by the same means as the click, or another
 * @throws InputError for a phrase that does not parse
 */
export function calledClick(click: Click, caller: HearPlayer, phrase: Phrase, tempo: Tempo): Click {
  const calls = heard(phrase, tempo, { hand: 'both', speed: 'full', only: 'listen' });
  if (calls.notes.length === 0) return click;
  return {
    start(grid, downbeatMs, order) {
      click.start(grid, downbeatMs, order);
      caller.start(calls, downbeatMs);
    },
    stop() {
      click.stop();
      caller.stop();
    },
  };
}
