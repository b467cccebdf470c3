import type { Pace } from '../../state/pace';
import { beatMs, type Bpm } from '../../units';
import { fixed } from '../shared/numbers';
import { counted, listed } from '../../text';

const SECONDS_A_MINUTE = 60;

/**
 * How much there is to play: bars, cycles and time, without the count-in.
 * Four bars of four, eight cycles: "4 bars, 8 times round: 1 min 31 s at 84 bpm".
 */
export function lengthWords(
  bars: readonly { readonly beats: number }[],
  cycles: number,
  bpm: Bpm,
  pace?: Pace,
): string {
  if (bars.length === 0) return '';
  const beats = bars.reduce((sum, bar) => sum + bar.beats, 0) * cycles;
  // A ramp is straight in ms a beat: on average a beat is half-way between its ends.
  const endMs = beatMs(pace === undefined || pace.shape === 'steady' ? bpm : pace.toBpm);
  const seconds = Math.round((beats * (beatMs(bpm) + endMs)) / 2 / 1000);
  const minutes = Math.floor(seconds / SECONDS_A_MINUTE);
  const rest = seconds % SECONDS_A_MINUTE;
  const time = [minutes === 0 ? '' : `${minutes} min`, rest === 0 ? '' : `${rest} s`]
    .filter(Boolean)
    .join(' ');
  const round = cycles === 1 ? 'once' : `${cycles} times`;
  const length = `${counted(bars.length, 'bar')}, ${round} round: ${time}`;
  const isSteady = pace === undefined || pace.shape === 'steady';
  return isSteady ? `${length} at ${tempoWords(bpm)}` : `${length}, ${tempoWords(bpm, pace)}`;
}

/**
 * What to do about surfaces that the rig lacks; empty where it lacks none.
 * @example missingWords(['floor tom', 'high tom'])
 * // => Your rig has no floor tom and no high tom: give surfaces these names on Rig, or what you play there goes uncounted.
 */
export function missingWords(missing: readonly string[]): string {
  if (missing.length === 0) return '';
  const list = listed(missing.map((name) => `no ${name}`));
  const these = missing.length === 1 ? 'a surface this name' : 'surfaces these names';
  return `Your rig has ${list}: give ${these} on Rig, or what you play there goes uncounted.`;
}

/**
 * A tempo as it is said: "84 bpm", "84 to 120 bpm", "84 to 120 bpm and back".
 * @example tempoWords(84, { shape: 'there and back', toBpm: 120 }) // => 84 to 120 bpm and back
 */
export function tempoWords(bpm: Bpm, pace?: Pace): string {
  const from = bpmText(bpm);
  if (pace === undefined || pace.shape === 'steady') return `${from} bpm`;
  return `${from} to ${bpmText(pace.toBpm)} bpm${pace.shape === 'there and back' ? ' and back' : ''}`;
}

const bpmText = (bpm: Bpm): string => fixed(bpm, Number.isInteger(bpm) ? 0 : 1);
