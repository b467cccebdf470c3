import type { Report } from '../../grading/types';
import { capital, fixed } from '../shared/numbers';
import type { ChartRow, RowsPicture } from './picture';

/**
 * Where each variation stands between *not yet* (−1), *holds* (0) and *ideal* (+1): its supported margin.
 * Null where fewer than two could be judged: there is nothing to hold against each other.
 */
export function variationsByMargin(report: Report): RowsPicture | null {
  const rows = report.variations.flatMap(({ name, supported, band, slots }): ChartRow[] => {
    if (supported === null) return [];
    const both = { median: supported, spread: 0, n: slots, out: band === 'not yet' };
    return [{ label: capital(name), R: null, L: null, both, band: [0, 1] }];
  });
  if (rows.length < 2) return null;
  return {
    kind: 'rows',
    name: 'variations',
    title: title(report),
    of: 'whole take',
    drawn: 'supported margin of its worst measure: −1 not yet, 0 holds, +1 ideal',
    unit: 'margin',
    byPlace: false,
    rows,
  };
}

function title({ variations }: Report): string {
  const judged = variations.flatMap(({ name, supported }) =>
    supported === null ? [] : [{ name, supported }],
  );
  const holding = judged.filter(({ supported }) => supported >= 0).length;
  const lowest = judged.reduce((least, next) => (next.supported < least.supported ? next : least));
  return `${holding} of ${judged.length} variations hold; ${lowest.name} stands lowest, at margin ${fixed(lowest.supported, 2)}`;
}
