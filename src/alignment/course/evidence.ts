import { columnOf } from '../../column';
import type { Grid } from '../../exercises/types';
import type { Settings } from '../../settings';
import { accentEvidence, areApart, levelsFromLoudest } from '../accent-levels';
import { handSign } from '../targets';
import type { AlignStroke } from '../types';
import { mod, type Lattice, type OnLattice } from './lattice';
import { placeIn, type Segment } from './segments';

/** What is due at each place of one cycle: accent +1, soft −1, no slot 0; hand R +1, L −1, nobody knows 0. */
export interface DueCycle {
  readonly kind: Int8Array;
  readonly hand: Int8Array;
  /** 1 where a bar begins. */
  readonly barStart: Uint8Array;
  /** Places of the phrase as far as it goes: what is played beyond is outside. */
  readonly places: number;
  /** Steps in which it may be shifted. */
  readonly period: number;
}

/** What the strokes say, stroke by stroke. */
export interface Evidence {
  /** Place on the click's lattice. */
  readonly place: Int32Array;
  /** Accent (+) or soft (−), 0 where nobody can say. */
  readonly kind: Float64Array;
  /** Known hand: R +1, L −1, else 0. */
  readonly hand: Int8Array;
}

/** What the phrase asks at each place of its cycle. @param dueBars bars that the click led */
export function dueCycleOf(grid: Grid, lattice: Lattice, dueBars: number): DueCycle {
  const { perCycle, slot, inBar } = lattice;
  const slotAt = (place: number): (typeof grid.slots)[number] | undefined =>
    slot[place] < 0 ? undefined : grid.slots[slot[place]];
  const cycles = Math.ceil(dueBars / grid.barsPerCycle);
  return {
    kind: Int8Array.from({ length: perCycle }, (_, place) => {
      const kind = slotAt(place)?.kind;
      return kind === undefined ? 0 : kind === 'accent' ? 1 : -1;
    }),
    hand: Int8Array.from({ length: perCycle }, (_, place) => {
      const here = slotAt(place);
      return here === undefined || here.together === 2 ? 0 : here.hand === 'R' ? 1 : -1;
    }),
    barStart: Uint8Array.from({ length: perCycle }, (_, place) => Number(inBar[place] === 0)),
    places: cycles * perCycle,
    period: lattice.period ?? 1,
  };
}

/**
 * What each stroke says of which place it is for: its place by its time, accent or soft by its level where the two stand
 * apart (none in a phrase round the kit: drums differ), its hand where it is known.
 * @param segments cover all strokes
 */
export function evidenceOf(
  grid: Grid,
  strokes: readonly AlignStroke[],
  onLattice: OnLattice,
  segments: readonly Segment[],
  settings: Settings,
): Evidence {
  const place = new Int32Array(strokes.length);
  for (const segment of segments) {
    for (let i = segment.from; i < segment.to; i += 1) place[i] = placeIn(segment, onLattice, i);
  }
  const hand = new Int8Array(strokes.length);
  for (let i = 0; i < hand.length; i += 1) hand[i] = handSign(strokes[i].hand);
  return { place, hand, kind: kindsOf(grid, onLattice.lattice, strokes, place, settings) };
}

function kindsOf(
  grid: Grid,
  lattice: Lattice,
  strokes: readonly AlignStroke[],
  place: Int32Array,
  settings: Settings,
): Float64Array {
  const kind = new Float64Array(strokes.length);
  if (grid.slots.some(({ surface }) => surface !== null)) return kind;
  const accents = grid.slots.filter((slot) => slot.kind === 'accent').length / grid.slots.length;
  const level = columnOf(strokes.length, (i) => {
    const slot = lattice.slot[mod(place[i], lattice.perCycle)];
    return strokes[i].levelDb - (slot < 0 ? 0 : grid.slots[slot].shiftDb);
  });
  const levels = levelsFromLoudest(level, Math.round(accents * level.length), settings);
  if (levels === undefined || !areApart(levels, settings)) return kind;
  return level.map(accentEvidence(levels, settings));
}

/** Of some strokes only. */
export const evidenceIn = (
  { place, kind, hand }: Evidence,
  { from, to }: { readonly from: number; readonly to: number },
): Evidence => ({
  place: place.subarray(from, to),
  kind: kind.subarray(from, to),
  hand: hand.subarray(from, to),
});
