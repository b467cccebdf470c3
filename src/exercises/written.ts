import { parseFeet } from './feet';
import { feetSlots } from './feet-grid';
import { gridOf } from './grid';
import type { FootSlot, Grid, Phrase, Slot } from './types';

/** What stands in the bars of a phrase, whether or not it is due. */
interface Written {
  /** Of one cycle. The numbers (`index`) of those that aren't due mean nothing. */
  readonly slots: readonly Slot[];
  /** The feet cycle by cycle, until they come round to the same place of the phrase; `bar` is the bar of the cycle. */
  readonly feet: readonly (readonly FootSlot[])[];
}

/** Places in a bar don't depend on the tempo. */
const ANY_BPM = 60;
/** A feet line that takes longer than this to come round is shown as if it did. */
const MOST_CYCLES = 64;

/**
 * The strokes as they are written: those due, as the grid has them, and those of bars to listen to or to count aloud,
 * which a picture shows and nobody is asked for.
 * @param cycle one cycle of the phrase, its downbeat at 0
 */
export function writtenIn(phrase: Phrase, cycle: Grid): Written {
  const played: Phrase = { ...phrase, cycles: 1, bars: phrase.bars.map((bar) => ({ ...bar, role: 'play' })) };
  const isDue = (bar: number): boolean => cycle.bars[bar].role === 'play';
  const all = cycle.bars.every(({ index }) => isDue(index)) ? cycle : gridOf(played, { bpm: ANY_BPM }, 0);
  return {
    slots: [...cycle.slots, ...all.slots.filter(({ bar }) => !isDue(bar))],
    feet: feetByCycle(played, cycle.barsPerCycle),
  };
}

function feetByCycle(phrase: Phrase, barsPerCycle: number): readonly (readonly FootSlot[])[] {
  if (phrase.feet === undefined) return [[]];
  const { bars } = gridOf(
    phrase,
    { bpm: ANY_BPM },
    0,
    barsPerCycle * roundsOf(phrase, parseFeet(phrase.feet)),
  );
  const cycles: FootSlot[][] = Array.from({ length: bars.length / barsPerCycle }, () => []);
  for (const slot of feetSlots(phrase, bars)) {
    cycles[Math.floor(slot.bar / barsPerCycle)].push({ ...slot, bar: slot.bar % barsPerCycle });
  }
  return cycles;
}

/** Cycles until the line begins with the phrase again. */
function roundsOf(phrase: Phrase, line: readonly unknown[]): number {
  const { bars } = gridOf(phrase, { bpm: ANY_BPM }, 0, phrase.bars.length);
  const partials = bars.reduce(
    (sum, bar) => sum + bar.partialsPerBeat.reduce((beat, one) => beat + one, 0),
    0,
  );
  let rounds = 1;
  while (rounds < MOST_CYCLES && (rounds * partials) % line.length !== 0) rounds += 1;
  return rounds;
}
