import { limitOf } from '../../grading/figures/limits';
import { slotsAsDue } from '../../grading/facts/facts';
import type { Report } from '../../grading/types';
import type { Take } from '../../sessions/types';
import { fixed } from '../shared/numbers';
import { barOf, placeLabel } from './by-place';
import { pointOf, pointsOf, type ChartRow, type RowsPicture } from './picture';

/**
 * How far ahead of their next stroke the grace notes of a bar fall, ms: median and spread over the passes, by place and by
 * the hand they lead to, with the band in which flams, or drags, hold. Null where none was found.
 */
export function graceNotes(take: Take, report: Report, variation: string): RowsPicture | null {
  const bar = barOf(take, variation);
  if (bar === null) return null;
  const played = slotsAsDue(report, variation);
  const gapMs = Math.min(...bar.slots.map((slot) => slot.gapMs));
  const rows = bar.slots.flatMap((slot): ChartRow[] => {
    if (slot.graces.length === 0) return [];
    const own = played.filter((one) => one.slot === slot.slot);
    const point = pointOf(own.flatMap(({ graceGapsMs = [] }) => graceGapsMs));
    const key = slot.graces.length === 1 ? 'flamGap' : 'dragGap';
    const holds = (value: number): number => limitOf(key, report.settings, { gapMs, value }).holds;
    return [
      {
        label: placeLabel(slot, bar.bar),
        R: slot.hand === 'R' ? point : null,
        L: slot.hand === 'L' ? point : null,
        band: [holds(0), holds(Infinity)],
      },
    ];
  });
  if (rows.every((row) => pointsOf(row).length === 0)) return null;
  return {
    kind: 'rows',
    name: 'grace notes',
    title: title(rows),
    of: variation,
    drawn:
      'from grace note to next stroke, ms: median and spread over the passes, with the band in which it holds',
    unit: 'ms',
    byPlace: true,
    rows,
  };
}

function title(rows: readonly ChartRow[]): string {
  const points = rows.flatMap(pointsOf);
  const at = points.map(({ median }) => median);
  const widest = Math.max(...points.map(({ spread }) => spread));
  const [low, high] = [Math.min(...at), Math.max(...at)].map((ms) => fixed(ms, 0));
  const gaps = low === high ? `${low} ms` : `${low} to ${high} ms`;
  return `Grace notes fall ${gaps} ahead of their strokes; at one place they vary by ${fixed(widest, 0)} ms`;
}
