import type { TimeRow } from '../../src/grading/models/time-model';

type Unplayed = Omit<TimeRow, 'deviationMs'>;
/** Every stroke where it is due. */
export const SEAMLESS = (): number => 0;

/** Rows of bars written as letters, one variation a bar, played `late` ms after they are due. */
export function timeRows(
  bars: readonly string[],
  cycles: number,
  late: (row: Unplayed) => number,
  partials = 4,
  gapMs = 125,
): TimeRow[] {
  const rows: TimeRow[] = [];
  for (let cycle = 0; cycle < cycles; cycle++) {
    bars.forEach((letters, variation) => {
      [...letters].forEach((hand, i) => {
        const of = (step: number): string | undefined => letters[i + step];
        const row: Unplayed = {
          bar: cycle * bars.length + variation,
          cycle,
          variation,
          hand: hand === 'R' ? 'R' : 'L',
          partial: i % partials,
          partials,
          second: of(-1) === hand && of(-2) !== hand && of(1) !== hand,
          seam: false,
          gapMs,
        };
        rows.push({ ...row, deviationMs: late(row) });
      });
    });
  }
  return rows;
}
