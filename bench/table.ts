/** What a benchmark reports: figures it measured, with what was asked of them. */
export interface Table {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

/** A table as text, columns aligned. */
export function printed({ title, columns, rows }: Table): string {
  const cells = [columns, ...rows].map((row) => row.map(String));
  const widths = columns.map((_, column) => Math.max(...cells.map((row) => (row[column] ?? '').length)));
  const lines = cells.map((row) =>
    `  ${row.map((cell, column) => cell.padEnd(widths[column])).join('   ')}`.trimEnd(),
  );
  lines.splice(1, 0, `  ${widths.map((width) => '-'.repeat(width)).join('   ')}`);
  return `${title}\n${lines.join('\n')}\n\n`;
}

/** The value under which `share` of the sorted values lie. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}
