import type { Grid, Slot } from '../../exercises/types';
import { otherHand } from '../../stroke';
import type { Ms } from '../../units';
import { latticeOf, timeOfPlace, type Lattice } from './lattice';

/** A stretch of the phrase as it was played: its places, and when each came. */
export interface Laying {
  /** Places of the phrase's lattice, first and last. */
  readonly first: number;
  readonly last: number;
  /** Places of the click that it was played behind. */
  readonly shift: number;
  /** ms later per ms, from `fromMs` on, and by how much all of it. */
  readonly slope: number;
  readonly fromMs: Ms;
  readonly addMs: Ms;
}

/** Where the click was silent and the time ran: ms later per ms from its beginning on. */
export interface Bend {
  readonly fromMs: Ms;
  readonly toMs: Ms;
  readonly slope: number;
}

interface Laid {
  readonly grid: Grid;
  /** 1 for each slot that was not played, by its index. */
  readonly notPlayed: Uint8Array;
}

interface LayOptions {
  readonly layings: readonly Laying[];
  readonly bends: readonly Bend[];
  readonly mirror: boolean;
  /** Whether what lies before the first stroke, and behind the last, was not played rather than missed. */
  readonly open: { readonly start: boolean; readonly end: boolean };
}

/**
 * The grid as it was played: each stretch at its own time, what lies between two of them not played, hands as led.
 * @param phrase the grid as far as it was played, at the click's time; @param click its lattice, as far as the strokes go
 */
export function laidGrid(phrase: Grid, click: Lattice, options: LayOptions): Laid {
  const { layings, mirror, open } = options;
  const lattice = latticeOf(phrase);
  const count = lattice.at.length;
  const at = new Float64Array(count);
  const isOut = new Uint8Array(count);
  const lastLaying = layings[layings.length - 1];
  let next = 0;
  for (let place = 0; place < count; place += 1) {
    while (next < layings.length && layings[next].last < place) next += 1;
    const here = layings[next] ?? lastLaying;
    const before = next === 0 ? undefined : layings[next - 1];
    const isInside = place >= here.first && place <= here.last;
    isOut[place] = Number(isInside ? false : next === 0 ? open.start : next < layings.length || open.end);
    at[place] =
      isInside || before === undefined || isSame(here, before)
        ? timeIn(here, place, click, options)
        : between(before, here, place, click, options);
  }
  const endMs = timeIn(lastLaying, count, click, options);
  return { grid: moved(phrase, lattice, at, endMs, mirror), notPlayed: slotsOut(phrase, lattice, isOut) };
}

const isSame = (one: Laying, other: Laying): boolean =>
  one === other ||
  (one.shift === other.shift && one.addMs === other.addMs && one.slope === 0 && other.slope === 0);

function timeIn(
  { shift, slope, fromMs, addMs }: Laying,
  place: number,
  click: Lattice,
  { bends }: LayOptions,
): Ms {
  const ms = timeOfPlace(click, place + shift);
  const bend = bends.find((one) => ms >= one.fromMs && ms < one.toMs);
  return ms + addMs + slope * (ms - fromMs) + (bend === undefined ? 0 : bend.slope * (ms - bend.fromMs));
}

/** Nothing was struck there: the places lie evenly in what time there was, a partial clear of the strokes either side. */
function between(before: Laying, after: Laying, place: number, click: Lattice, options: LayOptions): Ms {
  const startMs = timeIn(before, before.last, click, options);
  const endMs = timeIn(after, after.first, click, options);
  const clear = Math.min(click.stepMs, (endMs - startMs) / 3);
  const share = (place - before.last - 1) / Math.max(1, after.first - before.last - 2);
  return startMs + clear + Math.min(1, share) * (endMs - startMs - 2 * clear);
}

function moved(phrase: Grid, lattice: Lattice, at: Float64Array, endMs: Ms, mirror: boolean): Grid {
  const placeOf = new Int32Array(phrase.slots.length);
  const firstOf: number[] = [];
  for (let place = 0; place < at.length; place += 1) {
    if (lattice.inBar[place] === 0) firstOf[lattice.bar[place]] = place;
  }
  const slots = phrase.slots.map((slot): Slot => {
    const place = firstOf[slot.bar] + slot.partial;
    placeOf[slot.index] = place;
    const atMs = at[place];
    if (!mirror) return { ...slot, atMs };
    return { ...slot, atMs, hand: otherHand(slot.hand), graces: slot.graces.map(otherHand) };
  });
  return {
    ...phrase,
    slots: slots.map((slot) => ({ ...slot, gapMs: gapOf(phrase, slots, slot) })),
    bars: phrase.bars.map((bar) => {
      const beatsMs: Ms[] = [];
      let place = firstOf[bar.index];
      for (const partials of bar.partialsPerBeat) {
        beatsMs.push(at[place]);
        place += partials;
      }
      return { ...bar, startMs: beatsMs[0], beatsMs, endMs: at[place] ?? endMs };
    }),
    regular: phrase.regular && isRegular(slots),
  };
}

/** As the grid has it, where the neighbours aren't nearer now. */
function gapOf(phrase: Grid, slots: readonly Slot[], { index, atMs }: Slot): Ms {
  const plain = phrase.slots[index].gapMs;
  let gap = Infinity;
  for (const step of [-1, 1]) {
    let other = index + step;
    while (slots[other]?.atMs === atMs) other += step;
    if (slots[other] !== undefined) gap = Math.min(gap, Math.abs(slots[other].atMs - atMs));
  }
  return gap === Infinity ? plain : gap < plain / 2 ? gap : Math.min(gap, 1.1 * plain);
}

function isRegular(slots: readonly Slot[]): boolean {
  const stepMs = (slots[slots.length - 1].atMs - slots[0].atMs) / (slots.length - 1);
  return slots.every(({ atMs }, i) => Math.abs(atMs - slots[0].atMs - i * stepMs) < 1e-6);
}

function slotsOut(phrase: Grid, lattice: Lattice, isOut: Uint8Array): Uint8Array {
  const out = new Uint8Array(phrase.slots.length);
  for (let place = 0; place < isOut.length; place += 1) {
    const first = lattice.slot[place];
    if (first < 0 || isOut[place] === 0) continue;
    out.fill(1, first, first + phrase.slots[first].together);
  }
  return out;
}
