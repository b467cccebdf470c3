import { InputError } from '../errors';
import type { RawHit } from '../stroke';
import type { Ms } from '../units';

/**
 * More hits than this within {@link CROWD_MS} are no playing: two hands and two feet make a dozen with all that echoes and
 * bleeds, and a MIDI cable carries a hundred. Common practice, no source; the cable: MIDI 1.0, 31,250 bit/s.
 */
const MOST_TOGETHER = 100;
const CROWD_MS: Ms = 100;

/**
 * Refuses what no hands can have played, before any time is spent on it.
 * @param hits in time order
 * @throws InputError at the hit that is one too many
 */
export function refuseCrowd(hits: readonly RawHit[]): void {
  for (let index = MOST_TOGETHER; index < hits.length; index += 1) {
    const first = index - MOST_TOGETHER;
    if (hits[index].atMs - hits[first].atMs >= CROWD_MS) continue;
    throw new InputError(
      `hits[${index}].atMs`,
      `is one stroke more than hands can play: ${MOST_TOGETHER + 1} within ${CROWD_MS} ms, from hits[${first}] on`,
    );
  }
}
