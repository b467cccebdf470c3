import type { Grid, Slot } from '../exercises/types';
import type { Settings } from '../settings';
import type { Ms } from '../units';
import type { AlignStroke, SlotOutcome } from './types';

/** How far apart the two strokes of a unison may come, ms. */
export function unisonReachMs(grid: Grid, settings: Settings): Ms {
  return Math.min(settings['unison.mostMs'], settings['unison.mostGaps'] * grid.smallestGapMs);
}

/**
 * The two outcomes of a unison, of its first slot (R) and its second, from that of their onset.
 *
 * Two strokes on two surfaces are one each: that of a known hand is its hand's, else the earlier is R's. One stroke, or
 * two on one surface, where one surface is played: nobody can tell the hands' levels, so both are *not measured*; it is
 * one stroke that was due, so without any only the first is missed. Where two surfaces are due (`apart`) a stroke that
 * isn't there is missed.
 * @param onset outcome of the onset
 * @param other index of the other stroke, or −1
 */
export function unisonOutcomes(
  onset: SlotOutcome,
  [first, second]: readonly [Slot, Slot],
  other: number,
  strokes: readonly Pick<AlignStroke, 'atMs' | 'hand' | 'surface'>[],
  apart: boolean,
): readonly [SlotOutcome, SlotOutcome] {
  switch (onset.status) {
    case 'missed':
    case 'tooSoft':
      return [onset, apart ? onset : { status: 'notMeasured' }];
    case 'notMeasured':
    case 'notPlayed':
      return [onset, onset];
    case 'otherBar':
      return [onset, { status: 'otherBar', stroke: null, deviationMs: null }];
    case 'slipped':
      return [onset, { status: 'slipped', stroke: null, deviationMs: null }];
    case 'matched':
  }
  const { stroke } = onset;
  const answer = (slot: Slot, index: number): SlotOutcome => ({
    status: 'matched',
    stroke: index,
    deviationMs: strokes[index].atMs - slot.atMs,
    wrongHand: strokes[index].hand !== null && strokes[index].hand !== slot.hand,
  });
  if (other >= 0 && strokes[other].surface !== strokes[stroke].surface) {
    const [early, late] = strokes[other].atMs < strokes[stroke].atMs ? [other, stroke] : [stroke, other];
    const swapped = strokes[early].hand === second.hand || strokes[late].hand === first.hand;
    return swapped
      ? [answer(first, late), answer(second, early)]
      : [answer(first, early), answer(second, late)];
  }
  if (!apart) return [{ status: 'notMeasured' }, { status: 'notMeasured' }];
  const missed: SlotOutcome = { status: 'missed' };
  return strokes[stroke].hand === second.hand
    ? [missed, answer(second, stroke)]
    : [answer(first, stroke), missed];
}
