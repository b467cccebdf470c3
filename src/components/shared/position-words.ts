import type { GridBar } from '../../exercises/types';
import type { LiveTime, Position } from '../../take/types';
import { fixed } from './numbers';

/** Which bar, cycle and beat a picture shows. */
export interface Shown {
  readonly barInCycle: number;
  readonly cycle: number;
  /** The beat that is on, or null. */
  readonly beat: number | null;
}

/**
 * What to show at a position. After the take the last shown bar would do; the first is shown, with its newest passes.
 * @param newestCycle newest cycle that has a pass, for pictures of a take that is over
 */
export function shownAt(position: Position | null, newestCycle: number): Shown {
  switch (position?.phase) {
    case 'playing':
      return { barInCycle: position.barInCycle, cycle: position.cycle, beat: position.beat };
    case 'count-in':
    case 'say':
      return { barInCycle: 0, cycle: 0, beat: position.beat };
    default:
      return { barInCycle: 0, cycle: newestCycle, beat: null };
  }
}

/**
 * Where the player is, in words.
 * In the fourth bar of an accent walk: "bar 4 of 4, cycle 6 of 8 · next: accent on 1"; in a bar to listen to, "next: play
 * accent on 1".
 */
export function positionWords(shown: Shown, bars: readonly GridBar[], cycles: number): string {
  const next = bars[(shown.barInCycle + 1) % bars.length];
  const bar = bars[shown.barInCycle];
  const then = nextWords(bar, next);
  const cycle = shown.cycle + 1;
  const of = cycle > cycles ? '' : ` of ${cycles}`;
  return `bar ${shown.barInCycle + 1} of ${bars.length}, cycle ${cycle}${of}${then}`;
}

/**
 * The tempo a player keeps without a click, and how far it has moved.
 * @example timeWords({ line: null, bpm: 91.8, fasterPercent: 2.1 }) // => '92 bpm, 2.1 % faster than at first'
 */
export function timeWords(time: LiveTime | null): string {
  if (time === null || time.bpm === null) return 'Your own tempo shows here.';
  const bpm = `${fixed(time.bpm, 0)} bpm`;
  const { fasterPercent } = time;
  if (fasterPercent === null) return bpm;
  const size = Math.abs(fasterPercent);
  if (size < SAME_PERCENT) return `${bpm}, as at first`;
  return `${bpm}, ${fixed(size, 1)} % ${fasterPercent > 0 ? 'faster' : 'slower'} than at first`;
}

/** A change of tempo that nobody hears. Common practice, no source. */
const SAME_PERCENT = 1;

/** What comes next, where it differs: another variation, or to play after listening. */
function nextWords(bar: GridBar, next: GridBar | undefined): string {
  if (next === undefined || (next.variation === bar.variation && next.role === bar.role)) return '';
  if (next.role === bar.role) return ` · next: ${next.variation}`;
  const asks: Readonly<Record<GridBar['role'], string>> = {
    play: 'play',
    listen: 'listen to',
    say: 'count aloud,',
  };
  return ` · next: ${asks[next.role]} ${next.variation}`;
}
