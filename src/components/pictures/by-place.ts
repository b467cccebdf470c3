import { gridOf } from '../../exercises/grid';
import type { GridBar, Slot } from '../../exercises/types';
import { slotsAsDue } from '../../grading/facts/facts';
import { judgedFigureOf, worstFigureOf } from '../../grading/figures/named-figures';
import type { Report, SlotReport } from '../../grading/types';
import type { Take } from '../../sessions/types';
import { bandsOfReport, outsideDb, slotBand, type LevelBand } from '../../grading/facts/level-bands';
import { countOf } from '../../sessions/paper/strip/columns';
import { fixed } from '../shared/numbers';
import { pointOf, pointsOf, type ChartRow, type RowsPicture } from './picture';
import { termTitle, timeTerms } from './time-terms';

/** Levels that another take has set as bands, by the slot of a bar; undefined where it has none. */
export type BandsOf = (variation: string, slot: number) => LevelBand | undefined;

/**
 * A row a stroke of the bar with the level it had, over the passes, and the band it should land in.
 * @param bands another take's levels, in place of the limits
 */
export function levelsByPlace(
  take: Take,
  report: Report,
  variation: string,
  bands?: BandsOf,
): RowsPicture | null {
  const bar = barOf(take, variation);
  if (bar === null) return null;
  const limits = bandsOfReport(report);
  const whose = bands === undefined ? 'its band' : 'the other take’s band';
  const rows = rowsOf(bar, report, variation, (slot, own) => {
    const band = bands?.(variation, slot.slot) ?? slotBand(slot, limits);
    const point = pointOf(own.flatMap(({ level }) => level ?? []));
    return {
      band: [band.fromDb, band.toDb],
      point: point === null ? null : { ...point, out: outsideDb(point.median, band) !== 0 },
    };
  });
  if (rows.every((row) => pointsOf(row).length === 0)) return null;
  return {
    kind: 'rows',
    name: 'levels by place',
    title: levelTitle(rows, whose),
    of: variation,
    drawn: `median and spread over the passes, dB, with ${bands === undefined ? 'the band each should land in' : 'the other take’s levels as bands'}`,
    unit: 'dB',
    byPlace: true,
    rows,
  };
}

/**
 * A row a stroke of the bar with its deviation, the take's offset taken off (negative is early): where its median stands
 * is the shape, how far it spreads the scatter.
 */
export function timingByPlace(take: Take, report: Report, variation: string): RowsPicture | null {
  const bar = barOf(take, variation);
  if (bar === null) return null;
  const named = slotNamed(report, variation);
  const rows = rowsOf(bar, report, variation, (slot, own) => ({
    point: pointOf(
      own.flatMap(({ deviationMs }) => (deviationMs === null ? [] : deviationMs - report.offsetMs)),
      named === slot.slot,
    ),
  }));
  if (rows.every((row) => pointsOf(row).length === 0)) return null;
  const terms = timeTerms(report, variation);
  return {
    kind: 'rows',
    name: 'timing by place',
    title:
      lagTitle(report, variation) ?? termTitle(report) ?? timingTitle(rows, scatterOf(report, variation)),
    of: variation,
    drawn: `median and spread over the passes, ms, early to the left${terms.length === 0 ? '' : `; in it: ${terms.join(', ')}`}`,
    unit: 'ms',
    byPlace: true,
    rows,
  };
}

/** The slot that a fault of time names, in its variation. */
function slotNamed({ weakest, variations }: Report, variation: string): number | null {
  if (weakest?.variation !== variation) return null;
  const measures = variations.find(({ name }) => name === variation)?.measures ?? {};
  const part = worstFigureOf(measures, weakest.measure)?.part;
  return judgedFigureOf(weakest.measure, part).madeOf === 'times' ? weakest.slot : null;
}

interface BarWithSlots {
  readonly bar: GridBar;
  readonly slots: readonly Slot[];
}

/** A bar of a variation, with its slots; null where the take has none. */
export function barOf({ phrase, tempo }: Take, variation: string): BarWithSlots | null {
  const grid = gridOf(phrase, tempo, 0, phrase.bars.length);
  const bar = grid.bars.find((one) => one.variation === variation && one.role === 'play');
  return bar === undefined ? null : { bar, slots: grid.slots.filter((slot) => slot.bar === bar.index) };
}

function rowsOf(
  { bar, slots }: BarWithSlots,
  report: Report,
  variation: string,
  of: (slot: Slot, own: readonly SlotReport[]) => Pick<ChartRow, 'band'> & { readonly point: ChartRow['R'] },
): ChartRow[] {
  const played = slotsAsDue(report, variation);
  return slots.map((slot): ChartRow => {
    const { point, ...rest } = of(
      slot,
      played.filter((one) => one.slot === slot.slot),
    );
    return {
      label: placeLabel(slot, bar),
      R: slot.hand === 'R' ? point : null,
      L: slot.hand === 'L' ? point : null,
      ...rest,
    };
  });
}

/** Count, hand and accent of a slot: `1  R >`, `e  L`. */
export function placeLabel(slot: Slot, bar: GridBar): string {
  const count = countOf(slot.beat, slot.partialInBeat, bar.partialsPerBeat[slot.beat]);
  return `${count === '' ? '·' : count}  ${slot.hand}${slot.kind === 'accent' ? ' >' : ''}`;
}

function scatterOf(report: Report, variation: string): number | null {
  return report.variations.find(({ name }) => name === variation)?.measures.scatter?.value ?? null;
}

function levelTitle(rows: readonly ChartRow[], whose: string): string {
  const off = rows.map((row, index) => ({ index, outDb: outOf(row) }));
  const worst = off.reduce((most, next) => (Math.abs(next.outDb) > Math.abs(most.outDb) ? next : most));
  const outside = off.filter(({ outDb }) => outDb !== 0).length;
  if (outside === 0) return `Every stroke of the bar has its middle in ${whose}`;
  const way = worst.outDb > 0 ? 'above' : 'under';
  const first = `Stroke ${worst.index + 1} (${handOf(rows[worst.index])}) has its middle ${fixed(Math.abs(worst.outDb), 1)} dB ${way} ${whose}`;
  return outside === 1 ? `${first}; the others lie in theirs` : `${first}, farthest of ${outside} outside`;
}

function outOf(row: ChartRow): number {
  const point = row.R ?? row.L;
  if (point === null || row.band === undefined) return 0;
  return outsideDb(point.median, { fromDb: row.band[0], toDb: row.band[1] });
}

/** Where the hands lie apart and that is the reason. */
function lagTitle({ weakest, variations }: Report, variation: string): string | undefined {
  const lagMs = variations.find(({ name }) => name === variation)?.measures.lag?.value ?? null;
  if (weakest?.measure !== 'lag' || lagMs === null) return undefined;
  const [early, late] = lagMs < 0 ? ['right', 'left'] : ['left', 'right'];
  return `The ${early} hand comes ${fixed(Math.abs(lagMs), 0)} ms before the ${late}, place by place`;
}

function timingTitle(rows: readonly ChartRow[], scatterMs: number | null): string {
  const at = rows.map((row) => (row.R ?? row.L)?.median ?? 0);
  const index = at.reduce((most, ms, i) => (Math.abs(ms) > Math.abs(at[most]) ? i : most), 0);
  const scatter = scatterMs === null ? '' : `; scatter about the places’ own means ${fixed(scatterMs, 1)} ms`;
  const ms = fixed(Math.abs(at[index]), 0);
  if (ms === '0') return `Every stroke of the bar has its middle on its slot${scatter}`;
  const way = at[index] < 0 ? 'early' : 'late';
  return `Stroke ${index + 1} (${handOf(rows[index])}) lies farthest from its slot, ${ms} ms ${way}${scatter}`;
}

const handOf = (row: ChartRow): string => (row.R === null ? 'L' : 'R');
