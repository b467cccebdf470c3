import { InputError } from '../errors';
import type { Ms } from '../units';
import { parseFeet, type FootStroke } from './feet';
import { shareOfBeat } from './share-of-beat';
import type { FootSlot, GridBar, Phrase } from './types';

const STRAIGHT = 0.5;

/**
 * The feet of a phrase under its bars: one token a partial, over and over, as long as the line is. Bars to count aloud
 * or to listen to use up their partials, so that the feet stay where they are against the bars, but nothing is due.
 * @param bars of the grid, with the times of their beats
 * @throws InputError at `phrase.feet`
 */
export function feetSlots(phrase: Phrase, bars: readonly GridBar[]): FootSlot[] {
  if (phrase.feet === undefined) return [];
  const line = parsed(phrase.feet);
  const slots: FootSlot[] = [];
  let at = 0;
  for (const bar of bars) {
    let partial = 0;
    bar.partialsPerBeat.forEach((partials, beat) => {
      const startMs = bar.beatsMs[beat];
      const lengthMs = (bar.beatsMs[beat + 1] ?? bar.endMs) - startMs;
      for (let inBeat = 0; inBeat < partials; inBeat += 1, partial += 1, at += 1) {
        if (bar.role !== 'play') continue;
        const atMs = startMs + shareOfBeat(inBeat, partials, phrase.swing ?? STRAIGHT) * lengthMs;
        for (const { foot, soft } of line[at % line.length]) {
          slots.push({
            index: slots.length,
            bar: bar.index,
            partial,
            beat,
            atMs,
            gapMs: lengthMs,
            foot,
            soft,
          });
        }
      }
    });
  }
  return withGaps(slots);
}

function parsed(feet: string): readonly (readonly FootStroke[])[] {
  try {
    return parseFeet(feet);
  } catch (error) {
    throw error instanceof InputError ? error.within('phrase.feet') : error;
  }
}

/** The gap of a slot: to the nearer neighbour of the same foot, a beat at most. */
function withGaps(slots: readonly FootSlot[]): FootSlot[] {
  const gaps: Ms[] = slots.map(({ gapMs }) => gapMs);
  const last: { K?: FootSlot; H?: FootSlot } = {};
  for (const slot of slots) {
    const before = last[slot.foot];
    if (before !== undefined) {
      const apartMs = slot.atMs - before.atMs;
      gaps[slot.index] = Math.min(gaps[slot.index], apartMs);
      gaps[before.index] = Math.min(gaps[before.index], apartMs);
    }
    last[slot.foot] = slot;
  }
  return slots.map((slot, index) => ({ ...slot, gapMs: gaps[index] }));
}
