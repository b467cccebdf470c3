import type { Db } from '../units';

/** The columns that tell a stroke too soft for the pad from a miss. */
interface SoftColumns {
  readonly accent: Uint8Array;
  readonly hand: Int8Array;
}

/** All slots at once: 1 for each that was too soft for the pad. Linear: the neighbours are carried along. */
export function tooSoftSlots(
  columns: SoftColumns & { readonly count: number },
  levelAt: (slot: number) => number,
  thresholdDb: Db,
  windowDb: Db,
): Uint8Array {
  const { count, accent, hand } = columns;
  const most = thresholdDb + windowDb;
  const soft = new Uint8Array(count);
  for (const step of [1, -1]) {
    const last = { R: NaN, L: NaN };
    for (let n = 0; n < count; n++) {
      const slot = step === 1 ? n : count - 1 - n;
      const side = hand[slot] > 0 ? 'R' : 'L';
      const level = levelAt(slot);
      if (!Number.isNaN(level)) last[side] = level;
      else if (accent[slot] === 0) soft[slot] += Number.isNaN(last[side]) ? 1 : last[side] <= most ? 4 : 16;
    }
  }
  // Two absent neighbours make 2, one near and one absent 5, two near 8; any far one 16 or more.
  for (let slot = 0; slot < count; slot++) soft[slot] = soft[slot] === 5 || soft[slot] === 8 ? 1 : 0;
  return soft;
}

/**
 * **Too soft for this pad**: a soft slot without a stroke, whose neighbours of the same hand (the previous and the next
 * slot of that hand that has a stroke; at an end of the take the one there is) lie within 4 dB of the level the pad
 * still reports, or under it.
 * @param count slots that may have a stroke: none behind is looked at
 * @param levelAt level of the stroke that answers a slot, NaN where there is none
 */
export function isTooSoft(
  slot: number,
  count: number,
  columns: SoftColumns,
  levelAt: (slot: number) => number,
  thresholdDb: Db,
  windowDb: Db,
): boolean {
  if (columns.accent[slot] === 1) return false;
  const most = thresholdDb + windowDb;
  const before = neighbourLevel(slot, -1, count, columns, levelAt);
  const after = neighbourLevel(slot, 1, count, columns, levelAt);
  if (before === undefined && after === undefined) return false;
  return (before ?? -Infinity) <= most && (after ?? -Infinity) <= most;
}

function neighbourLevel(
  slot: number,
  step: 1 | -1,
  count: number,
  columns: SoftColumns,
  levelAt: (slot: number) => number,
): number | undefined {
  for (let other = slot + step; other >= 0 && (step < 0 || other < count); other += step) {
    if (columns.hand[other] !== columns.hand[slot]) continue;
    const level = levelAt(other);
    if (!Number.isNaN(level)) return level;
  }
  return undefined;
}
