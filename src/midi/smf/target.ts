import { barSticking, partialsOfBeats } from '../../exercises/phrase';
import { stickingText } from '../../exercises/sticking';
import { beatLengthMs } from '../../exercises/tempo';
import type { Phrase, Sticking, Tempo } from '../../exercises/types';
import type { Ms } from '../../units';

/** Ticks a quarter in the files written here. */
export const TICKS_A_BEAT = 960;
const STRAIGHT = 0.5;

/** A partial with something in it. */
interface TargetPartial {
  /** From the downbeat. */
  readonly tick: number;
  /** Its number among all partials, rests counted: the feet line goes by it. */
  readonly partial: number;
  readonly content: Sticking[number];
  /** Its token of sticking text. */
  readonly text: string;
}

/** A phrase in ticks from its downbeat; a beat is a quarter. */
export interface Target {
  readonly bars: readonly { readonly tick: number; readonly beats: number }[];
  readonly beats: readonly { readonly tick: number; readonly lengthMs: Ms }[];
  readonly partials: readonly TargetPartial[];
  readonly endTick: number;
}

/**
 * What is to be played, in ticks. Bars to say hold the click alone: nothing sounds in them, nor in rests.
 * @throws InputError for a bar that does not parse
 */
export function targetOf(phrase: Phrase, tempo: Tempo): Target {
  const cycle = phrase.bars.map((bar, index) => ({
    said: bar.role === 'say',
    sticking: barSticking(phrase, index),
    partialsPerBeat: partialsOfBeats(phrase, bar),
  }));
  const bars: { tick: number; beats: number }[] = [];
  const beats: { tick: number; lengthMs: Ms }[] = [];
  const partials: TargetPartial[] = [];
  let tick = 0;
  let partial = 0;
  for (let index = 0; index < cycle.length * phrase.cycles; index += 1) {
    const { said, sticking, partialsPerBeat } = cycle[index % cycle.length];
    bars.push({ tick, beats: partialsPerBeat.length });
    let inBar = 0;
    partialsPerBeat.forEach((count, beat) => {
      beats.push({ tick, lengthMs: beatLengthMs(tempo, index + beat / partialsPerBeat.length) });
      for (let inBeat = 0; inBeat < count; inBeat += 1, inBar += 1, partial += 1) {
        if (said) continue;
        const at = tick + Math.round(TICKS_A_BEAT * shareOfBeat(inBeat, count, phrase.swing ?? STRAIGHT));
        const content = sticking[inBar];
        partials.push({ tick: at, partial, content, text: stickingText([content], [1]) });
      }
      tick += TICKS_A_BEAT;
    });
  }
  return { bars, beats, partials, endTick: tick };
}

/** With swing every second partial of a beat moves: of two, the second falls at `swing` of their time. */
function shareOfBeat(partial: number, partials: number, swing: number): number {
  const swung = partials % 2 === 0 && partial % 2 === 1;
  return (swung ? partial - 1 + 2 * swing : partial) / partials;
}
