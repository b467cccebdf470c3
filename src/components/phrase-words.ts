import { beatMs, type Bpm } from '../units';
import { fixed } from './numbers';

const SECONDS_A_MINUTE = 60;

/**
 * How much there is to play: bars, cycles and time, without the count-in.
 * Four bars of four, eight cycles: "4 bars, 8 times round: 1 min 31 s at 84 bpm".
 */
export function lengthWords(bars: readonly { readonly beats: number }[], cycles: number, bpm: Bpm): string {
  if (bars.length === 0) return '';
  const beats = bars.reduce((sum, bar) => sum + bar.beats, 0) * cycles;
  const seconds = Math.round((beats * beatMs(bpm)) / 1000);
  const minutes = Math.floor(seconds / SECONDS_A_MINUTE);
  const rest = seconds % SECONDS_A_MINUTE;
  const time = [minutes === 0 ? '' : `${minutes} min`, rest === 0 ? '' : `${rest} s`]
    .filter(Boolean)
    .join(' ');
  const round = cycles === 1 ? 'once' : `${cycles} times`;
  const tempo = fixed(bpm, Number.isInteger(bpm) ? 0 : 1);
  return `${bars.length} ${bars.length === 1 ? 'bar' : 'bars'}, ${round} round: ${time} at ${tempo} bpm`;
}
