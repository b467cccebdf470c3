import { knownEvent } from '../../sessions/take-events';
import { eventWords } from '../../take/event-words';
import type { Take } from '../../sessions/types';
import { fixed } from '../shared/numbers';

/**
 * A line an event that has words, with its time since the downbeat in minutes and seconds; of marks, the bar's name too.
 * A port that went half a minute into a take: { when: "0:30", words: "Pad is not connected. …" }.
 */
export function happeningLines({ events = [], downbeatMs, hits, phrase }: Take): {
  readonly when: string;
  readonly words: string;
}[] {
  const fromMs = downbeatMs ?? hits[0]?.atMs ?? 0;
  return events.flatMap((stored) => {
    const event = knownEvent(stored);
    const words = event && eventWords(event);
    if (event === undefined || words === undefined) return [];
    const bar = event.kind === 'mark' ? phrase.bars[event.barInCycle] : undefined;
    return [
      {
        when: clock(event.atMs - fromMs),
        words: bar === undefined ? words : `${words.slice(0, -1)}: ${bar.variation}.`,
      },
    ];
  });
}

/** Minutes and seconds; nought during the count-in. */
function clock(ms: number): string {
  const seconds = Math.max(0, Math.floor(ms / 1000));
  return `${fixed(Math.floor(seconds / 60), 0)}:${String(seconds % 60).padStart(2, '0')}`;
}
