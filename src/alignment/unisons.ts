import type { Grid, Slot } from '../exercises/types';
import type { Settings } from '../settings';
import type { Ms } from '../units';
import type { AlignStroke, SlotOutcome } from './types';

/** How far apart the two strokes of a unison may come, ms. */
export function twinReachMs(grid: Grid, settings: Settings): Ms {
  return Math.min(settings['unison.mostMs'], settings['unison.mostGaps'] * grid.smallestGapMs);
}

/**
 * The two outcomes of a unison, of its first slot (R) and its second, from that of their moment.
 *
 * Two strokes on two surfaces are one each: that of a known hand is its hand's, else the earlier is R's. One stroke, or
 * two on one surface, where one surface is played: nobody can tell the hands' levels, so both are *not measured*; it is
 * one stroke that was due, so without any only the first is missed. Where two surfaces are due (`apart`) a stroke that
 * isn't there is missed.
 * @param moment outcome of the moment
 * @param twin index of the other stroke, or −1
 */
export function unisonOutcomes(
  moment: SlotOutcome,
  [first, second]: readonly [Slot, Slot],
  twin: number,
  strokes: readonly Pick<AlignStroke, 'atMs' | 'hand' | 'surface'>[],
  apart: boolean,
): readonly [SlotOutcome, SlotOutcome] {
  switch (moment.status) {
    case 'missed':
    case 'tooSoft':
      return [moment, apart ? moment : { status: 'notMeasured' }];
    case 'notMeasured':
      return [moment, moment];
    case 'slipped':
      return [moment, { status: 'slipped', stroke: null, deviationMs: null }];
    case 'matched':
  }
  const { stroke } = moment;
  const answer = (slot: Slot, index: number): SlotOutcome => ({
    status: 'matched',
    stroke: index,
    deviationMs: strokes[index].atMs - slot.atMs,
    wrongHand: strokes[index].hand !== null && strokes[index].hand !== slot.hand,
  });
  if (twin >= 0 && strokes[twin].surface !== strokes[stroke].surface) {
    const [early, late] = strokes[twin].atMs < strokes[stroke].atMs ? [twin, stroke] : [stroke, twin];
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
