import { cell } from '../sessions/csv';
import { shownName } from './shown';

/** What a cell holds: text, or a number with as many decimals as its unit is worth. Undefined: nothing. */
export type Cell = string | Rounded | undefined;

interface Rounded {
  readonly value: number;
  readonly decimals: number;
}

export type Decimal = 'point' | 'comma';

/** @example rounded(3.14159, 1) // => { value: 3.14159, decimals: 1 } */
export const rounded = (value: number, decimals: number): Rounded => ({ value, decimals });

/**
 * Rows as comma-separated values (RFC 4180). With decimal commas the cells are parted by semicolons, as spreadsheets of
 * those countries want it.
 */
export function csvText(rows: readonly (readonly Cell[])[], decimal: Decimal): string {
  const between = decimal === 'comma' ? ';' : ',';
  return rows.map((row) => `${row.map((one) => csvCell(one, decimal)).join(between)}\r\n`).join('');
}

function csvCell(one: Cell, decimal: Decimal): string {
  if (one === undefined) return '';
  if (typeof one !== 'string') {
    const text = numberText(one);
    return decimal === 'comma' ? text.replace('.', ',') : text;
  }
  const safe = cell(shownName(one));
  return safe.includes(';') && !safe.startsWith('"') ? `"${safe}"` : safe;
}

function numberText({ value, decimals }: Rounded): string {
  return value.toFixed(decimals).replace(/^-(0(\.0*)?)$/, '$1');
}

/** Rows as columns that stand under each other, for a terminal. */
export function columnLines(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = rows.reduce<number[]>((most, row) => {
    row.forEach((text, column) => {
      most[column] = Math.max(most[column] ?? 0, text.length);
    });
    return most;
  }, []);
  return rows.map((row) =>
    row
      .map((text, column) => text.padEnd(widths[column]))
      .join('  ')
      .trimEnd(),
  );
}
