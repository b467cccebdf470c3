import type { Kind } from '../../exercises/types';
import { slotsAsDue } from '../../grading/facts/facts';
import type { JudgedKey, Report } from '../../grading/types';
import type { Hand } from '../../stroke';
import { bandsOfReport, slotBand } from '../../grading/facts/level-bands';
import { fixed } from '../shared/numbers';
import { hands, pointOf, type ChartRow, type RowsPicture } from './picture';
import { capital } from '../../text';

const kinds = [
  ['accent', 'accents'],
  ['tap', 'taps'],
  ['ghost', 'ghost notes'],
] as const satisfies readonly (readonly [Kind, string])[];

/**
 * Accents and soft strokes of each hand, with the bands they should land in.
 * @param variation the variation it is of; null for the whole take
 */
export function accentsAndSoft(report: Report, variation: string | null): RowsPicture | null {
  const due = slotsAsDue(report, variation);
  // Of both hands at once: each resting at the median of both.
  const own = bandsOfReport(report);
  const limits = { ...own, restDb: { R: own.softDb, L: own.softDb } };
  const rows = kinds
    .map(([kind, label]): ChartRow => {
      const { fromDb, toDb } = slotBand({ kind, hand: 'R', shiftDb: 0 }, limits);
      const point = (hand: Hand) =>
        pointOf(
          due
            .filter((slot) => slot.hand === hand && slot.kind === kind)
            .flatMap(({ judgedLevel }) => judgedLevel ?? []),
        );
      return { label, R: point('R'), L: point('L'), band: [fromDb, toDb] };
    })
    .filter((row) => row.R !== null || row.L !== null);
  if (rows.length === 0) return null;
  return {
    kind: 'rows',
    name: 'accents and soft',
    title: title(rows, report.weakest?.measure ?? null),
    of: variation ?? 'whole take',
    drawn: 'median and spread, dB, with the band each should land in',
    unit: 'dB',
    byPlace: false,
    rows,
  };
}

function title(rows: readonly ChartRow[], reason: JudgedKey | null): string {
  const [first] = rows;
  const balanced = reason === 'balanceSoft' ? rows.findLast(({ R, L }) => R && L) : first;
  if ((reason === 'balanceSoft' || reason === 'balanceAccent') && balanced?.R && balanced.L) {
    const louderDb = balanced.R.median - balanced.L.median;
    const louder = louderDb < 0 ? 'left' : 'right';
    const than = louderDb < 0 ? 'right' : 'left';
    return `The ${louder} hand’s ${balanced.label} are ${fixed(Math.abs(louderDb), 1)} dB louder than the ${than} hand’s`;
  }
  const accents = rows.find(({ label }) => label === 'accents');
  const soft = rows.findLast(({ label }) => label !== 'accents');
  const contrast = (hand: Hand): string | null => {
    const [loud, low] = [accents?.[hand], soft?.[hand]];
    return loud && low ? fixed(loud.median - low.median, 1) : null;
  };
  const [R, L] = [contrast('R'), contrast('L')];
  if (soft !== undefined && R !== null && L !== null) {
    return `Accents stand ${R} dB over the ${soft.label} with the right hand, ${L} dB with the left`;
  }
  const row = first;
  const middles = hands.flatMap((hand) => {
    const point = row[hand];
    return point === null ? [] : [`${fixed(point.median, 1)} dB ${hand}`];
  });
  const name = capital(row.label);
  return `${name} have their middle at ${middles.join(', ')}`;
}
