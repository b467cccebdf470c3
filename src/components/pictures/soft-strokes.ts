import type { Figure, Report } from '../../grading/types';
import type { Hand } from '../../stroke';
import { fixed } from '../shared/numbers';
import { hands, type ChartPoint, type ChartRow, type RowsPicture } from './picture';

const terms = [
  ['leakAfter', 'tap after its accent', 'after its accent'],
  ['leakBefore', 'tap before its accent', 'before its accent'],
  ['spill', 'beside the other hand’s accent', 'beside the other hand’s accent'],
  ['fade', 'second note of a double', 'as second note of a double'],
] as const;

/**
 * What each hand's soft strokes owe to their surroundings: the terms of the soft-stroke model over the resting level,
 * with 90 % intervals, whole take. The band is where a term holds. Null where no term could be told.
 */
export function softStrokes(report: Report): RowsPicture | null {
  const { settings, perHand } = report;
  const rows = terms
    .map(([key, label]): ChartRow => {
      const limit = settings[`${key}.holds`];
      const point = (hand: Hand) => pointOfFigure(perHand[hand].measures[key]);
      return { label, R: point('R'), L: point('L'), band: [key === 'fade' ? -limit : null, limit] };
    })
    .filter(({ R, L }) => R !== null || L !== null);
  if (rows.length === 0) return null;
  return {
    kind: 'rows',
    name: 'soft strokes',
    title: title(report, rows),
    of: 'whole take',
    drawn: 'dB over the hand’s resting level, with 90 % interval and the band in which it holds',
    unit: 'dB',
    byPlace: false,
    rows,
  };
}

function pointOfFigure(figure: Figure | undefined): ChartPoint | null {
  if (figure === undefined || figure.value === null || figure.interval === null) return null;
  const [low, high] = figure.interval;
  return {
    median: figure.value,
    spread: (high - low) / 2,
    n: figure.n[0],
    out: figure.band === 'not yet' || figure.band === 'close',
  };
}

function title(report: Report, rows: readonly ChartRow[]): string {
  const all = rows.flatMap((row) =>
    hands.flatMap((hand) => {
      const point = row[hand];
      return point === null ? [] : [{ label: row.label, hand, db: point.median, out: point.out }];
    }),
  );
  const worst = all.reduce((most, next) => (Math.abs(next.db) > Math.abs(most.db) ? next : most));
  const name = worst.hand === 'R' ? 'right' : 'left';
  const where = terms.find(([, label]) => label === worst.label)?.[2] ?? '';
  const way = worst.db < 0 ? 'softer' : 'louder';
  const found = `The ${name} hand’s soft strokes are ${fixed(Math.abs(worst.db), 1)} dB ${way} ${where}`;
  const restDb = report.softModel[worst.hand]?.rest ?? null;
  const than = restDb === null ? '' : ` than at rest (${fixed(restDb, 1)} dB)`;
  const others = all.filter(({ out }) => out).length - Number(worst.out);
  return `${found}${than}${others > 0 ? '' : worst.out ? '; every other term holds' : '; every term holds'}`;
}
