import type { Report, SlotReport } from '../grading/types';

const COLUMNS = [
  'bar',
  'variation',
  'slot',
  'hand',
  'kind',
  'status',
  'level dB',
  'deviation ms',
  'wrong hand',
];

/**
 * A report as comma-separated values (RFC 4180): a row a slot, in grid order; bars and slots counted from 1 as a player
 * counts. `deviation ms` has the offset still in it, as the report has. Cells that a spreadsheet would run as a formula
 * are defused with an apostrophe in front.
 */
export function takeCsv(report: Report): string {
  const rows = report.slots.map((slot) => [
    slot.bar + 1,
    report.bars[slot.bar]?.variation ?? '',
    slot.slot + 1,
    slot.hand,
    slot.kind,
    slot.status,
    figure(slot, 'level'),
    figure(slot, 'deviationMs'),
    slot.wrongHand === true ? 'yes' : '',
  ]);
  return [COLUMNS, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

function figure(slot: SlotReport, key: 'level' | 'deviationMs'): number | '' {
  return slot[key] ?? '';
}

/**
 * One cell: quoted where it must be, defused where it is text that begins like a formula.
 * @example cell('=1+1') // => '\'=1+1'
 * @example cell(-3.5) // => '-3.5'
 */
export function cell(value: string | number): string {
  if (typeof value === 'number') return String(value);
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
