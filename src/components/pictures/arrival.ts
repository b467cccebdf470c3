import { gridOf } from '../../exercises/grid';
import { limitOf } from '../../grading/figures/limits';
import type { Report } from '../../grading/types';
import type { Take } from '../../sessions/types';
import { capital, fixed } from '../shared/numbers';
import type { ChartRow, RowsPicture } from './picture';

/**
 * How late each variation's bars come as a whole against the others', ms, with 90 % interval, all on one axis and the band
 * in which it holds. Null where fewer than two could be told.
 */
export function arrivalPicture(take: Take, report: Report): RowsPicture | null {
  const { phrase, tempo } = take;
  const gapMs = gridOf(phrase, tempo, 0, phrase.bars.length).smallestGapMs;
  const { holds } = limitOf('arrival', report.settings, { gapMs });
  const rows = report.variations.flatMap(({ name, measures }): ChartRow[] => {
    const { value = null, interval = null, n = [], band } = measures.arrival ?? {};
    if (value === null || interval === null) return [];
    const out = band === 'close' || band === 'not yet';
    const both = { median: value, spread: (interval[1] - interval[0]) / 2, n: n[0] ?? 0, out };
    return [{ label: capital(name), R: null, L: null, both, band: [-holds, holds] }];
  });
  if (rows.length < 2) return null;
  return {
    kind: 'rows',
    name: 'arrival',
    title: title(rows),
    of: 'whole take',
    drawn:
      'how late its bars come as a whole against the others’, ms, with 90 % interval and the band in which it holds',
    unit: 'ms',
    byPlace: false,
    rows,
  };
}

function title(rows: readonly ChartRow[]): string {
  const offsets = rows.map(({ label, both }) => ({ label, ms: both?.median ?? 0 }));
  const [first, second] = offsets.slice().sort((one, other) => Math.abs(other.ms) - Math.abs(one.ms));
  if (fixed(Math.abs(first.ms), 0) === '0') return 'Every variation comes with the others';
  const way = first.ms < 0 ? 'before' : 'behind';
  const farthest = `${first.label} comes ${fixed(Math.abs(first.ms), 0)} ms ${way} the others`;
  return rows.length === 2
    ? farthest
    : `${farthest}; the next farthest lies ${fixed(Math.abs(second.ms), 0)} ms off`;
}
