import { barSticking, partialsOfBeats } from '../exercises/phrase';
import { shareOfBeat } from '../exercises/share-of-beat';
import { beatLengthMs } from '../exercises/tempo';
import type { Phrase, Tempo } from '../exercises/types';
import type { Ms } from '../units';

/** How far a take is graded. */
export interface Extent {
  /** Bars from the first; 0 where nothing was struck in any bar. */
  readonly bars: number;
  /** Strokes from here on are no part of it; Infinity where nothing was broken off. */
  readonly untilMs: Ms;
}

/**
 * How much of the phrase a take is graded over: to the last bar that has a stroke in it, at most the cycles due;
 * past them as far as the player went on without an empty bar. What is struck after that is no part of the take.
 * A bar broken off (the player stopped in it, before or after the cycles due, and nothing answers its last slot) isn't
 * graded either: to stop is no fault. The first bar always is.
 * @param strokesMs times of the strokes, in order
 * @param earlyMs how far ahead of a bar's start a stroke still belongs to it (offset and half a gap)
 */
export function extentOf(
  phrase: Phrase,
  tempo: Tempo,
  downbeatMs: Ms,
  strokesMs: ArrayLike<Ms>,
  earlyMs: Ms,
): Extent {
  const due = phrase.cycles * phrase.bars.length;
  const plans = phrase.bars.map((_, index) => beatsOf(phrase, index));
  let next = 0;
  while (next < strokesMs.length && strokesMs[next] < downbeatMs - earlyMs) next += 1;
  let played = 0;
  let brokenOff = false;
  let [startMs, endMs] = [downbeatMs, downbeatMs];
  let lastBarMs = downbeatMs;
  for (let bar = 0; next < strokesMs.length; bar += 1) {
    const { beats, lastDue, isDue } = plans[bar % plans.length];
    startMs = endMs;
    let lastDueMs = endMs;
    for (let beat = 0; beat < beats; beat += 1) {
      const beatMs = beatLengthMs(tempo, bar + beat / beats);
      if (beat === lastDue.beat) lastDueMs = endMs + lastDue.share * beatMs;
      endMs += beatMs;
    }
    const before = next;
    while (next < strokesMs.length && strokesMs[next] < endMs - earlyMs) next += 1;
    if (next > before) {
      played = bar + 1;
      lastBarMs = startMs;
      brokenOff = isDue && strokesMs[next - 1] < lastDueMs - earlyMs;
    } else if (bar >= due && isDue) break;
  }
  const last = played;
  // Bars in which nothing is due end a cycle without a stroke.
  while (played > 0 && played % plans.length !== 0 && !plans[played % plans.length].isDue) played += 1;
  if (brokenOff && last > 1 && played !== due) return { bars: last - 1, untilMs: lastBarMs - earlyMs };
  return { bars: played, untilMs: Infinity };
}

interface BarBeats {
  readonly beats: number;
  /** Its last slot: the beat, and where in it. */
  readonly lastDue: { readonly beat: number; readonly share: number };
  /** False where nothing is due: bars to listen to or to count aloud. */
  readonly isDue: boolean;
}

function beatsOf(phrase: Phrase, index: number): BarBeats {
  const partials = partialsOfBeats(phrase, phrase.bars[index]);
  const sticking = barSticking(phrase, index);
  let lastDue = { beat: 0, share: 0 };
  let from = 0;
  partials.forEach((count, beat) => {
    const inBeat = sticking.slice(from, from + count).findLastIndex((partial) => partial.notes.length > 0);
    if (inBeat >= 0) lastDue = { beat, share: shareOfBeat(inBeat, count, phrase.swing ?? 0.5) };
    from += count;
  });
  return { beats: partials.length, lastDue, isDue: (phrase.bars[index].role ?? 'play') === 'play' };
}
