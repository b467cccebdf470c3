import type { Grid } from '../exercises/types';
import type { Report, SlotReport } from '../grading/types';
import type { Hand } from '../stroke';
import type { Db, Ms } from '../units';

/** A stroke that no slot was due for. */
interface ExtraStroke {
  /** Bar of the take, from 0. */
  readonly bar: number;
  /** When it fell, on the clock of the grid. */
  readonly atMs: Ms;
  readonly levelDb: Db;
  /** The hand that plays its surface, or null where either may. */
  readonly hand: Hand | null;
}

const COLUMNS = [
  'bar',
  'variation',
  'slot',
  'beat',
  'hand',
  'kind',
  'status',
  'level dB',
  'deviation ms',
  'wrong hand',
  'wrong drum',
  'judged dB',
  'terms',
  'counts for',
];

/** A row and the time it is sorted by. */
interface Row {
  readonly atMs: Ms;
  readonly cells: readonly (string | number)[];
}

/**
 * A report as comma-separated values (RFC 4180): a row a slot and a row an extra, in time order; bars, slots and beats
 * counted from 1 as a player counts. `beat` is where in its bar the slot is due or the extra fell: 2.5 is half-way
 * through the second beat. `judged dB` has the bar's dynamics taken off, `terms` is what the phrase says of a soft stroke,
 * `counts for` the figures it is behind. `deviation ms` has the offset still in it, as the report has. Cells that a spreadsheet would
 * run as a formula are defused with an apostrophe in front.
 */
export function takeCsv(report: Report, grid: Grid, extras: readonly ExtraStroke[]): string {
  const rows = [
    ...report.slots.map((slot, index) => slotRow(slot, grid.slots[index].atMs, grid, report)),
    ...extras.map((extra) => extraRow(extra, grid)),
  ].sort((a, b) => a.atMs - b.atMs);
  return [COLUMNS, ...rows.map(({ cells }) => cells)].map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

function slotRow(slot: SlotReport, atMs: Ms, grid: Grid, { counting }: Report): Row {
  const cells = [
    slot.bar + 1,
    grid.bars[slot.bar].variation,
    slot.slot + 1,
    beatAt(atMs, slot.bar, grid),
    slot.hand,
    slot.kind,
    slot.status,
    slot.level ?? '',
    slot.deviationMs ?? '',
    slot.wrongHand === true ? 'yes' : '',
    slot.wrongSurface === true ? 'yes' : '',
    slot.judgedLevel ?? '',
    (slot.terms ?? []).join(' '),
    slot.counts === undefined ? '' : Object.keys(counting[slot.counts]).join(' '),
  ];
  return { atMs, cells };
}

function extraRow({ bar, atMs, levelDb, hand }: ExtraStroke, grid: Grid): Row {
  const { variation } = grid.bars[bar];
  return {
    atMs,
    cells: [
      bar + 1,
      variation,
      '',
      beatAt(atMs, bar, grid),
      hand ?? '',
      '',
      'extra',
      levelDb,
      '',
      '',
      '',
      '',
      '',
      '',
    ],
  };
}

/** Thousandths of a beat: 3 ms at 20 bpm. */
const PARTS = 1000;

/** Where in a bar a time lies, in beats from 1; just before 1 for an extra that comes ahead of its bar. */
function beatAt(atMs: Ms, bar: number, { bars }: Grid): number {
  const { beatsMs, endMs } = bars[bar];
  const beat = Math.max(
    0,
    beatsMs.findLastIndex((startMs) => startMs <= atMs),
  );
  const lengthMs = (beatsMs[beat + 1] ?? endMs) - beatsMs[beat];
  return Math.round((1 + beat + (atMs - beatsMs[beat]) / lengthMs) * PARTS) / PARTS;
}

/**
 * One cell: quoted where it must be, defused where it is text that begins like a formula.
 * @example cell('=1+1') // => '\'=1+1'
 * @example cell(-3.5) // => '-3.5'
 */
export function cell(value: string | number): string {
  if (typeof value === 'number') return String(value);
  const safe = /^\s*[=+\-@\t\r\n＝＋－＠]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
