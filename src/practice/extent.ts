import { beatLengthMs } from '../exercises/tempo';
import { partialsOfBeats } from '../exercises/phrase';
import type { Phrase, Tempo } from '../exercises/types';
import type { Ms } from '../units';

/**
 * How many bars of the phrase a take is graded over: to the last bar that has a stroke in it, at most the cycles due;
 * past them as far as the player went on without an empty bar. What is struck after that is no part of the take.
 * @param strokesMs times of the strokes, in order
 * @param earlyMs how far ahead of a bar's start a stroke still belongs to it (offset and half a gap)
 * @returns 0 where nothing was struck in any bar
 */
export function barsPlayed(
  phrase: Phrase,
  tempo: Tempo,
  downbeatMs: Ms,
  strokesMs: ArrayLike<Ms>,
  earlyMs: Ms,
): number {
  const due = phrase.cycles * phrase.bars.length;
  const beats = phrase.bars.map((bar) => partialsOfBeats(phrase, bar).length);
  let next = 0;
  while (next < strokesMs.length && strokesMs[next] < downbeatMs - earlyMs) next += 1;
  let played = 0;
  let endMs = downbeatMs;
  for (let bar = 0; next < strokesMs.length; bar += 1) {
    const beatsInBar = beats[bar % beats.length];
    for (let beat = 0; beat < beatsInBar; beat += 1) endMs += beatLengthMs(tempo, bar + beat / beatsInBar);
    const before = next;
    while (next < strokesMs.length && strokesMs[next] < endMs - earlyMs) next += 1;
    if (next > before) played = bar + 1;
    else if (bar >= due) break;
  }
  return played;
}
