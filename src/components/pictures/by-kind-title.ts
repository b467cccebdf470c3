import type { JudgedKey } from '../../grading/types';
import { otherHand, type Hand } from '../../stroke';
import type { ChartRow } from './picture';
import { fixed, signed } from '../shared/numbers';

const handName = (hand: Hand): string => (hand === 'R' ? 'right' : 'left');

/** Under this a difference of two medians isn't worth a clause. */
const WORTH_SAYING_DB = 1;

/** What the picture shows, as a sentence: from the medians in it, so that words and picture can't differ. */
export function kindTitle(reason: JudgedKey | null, hand: Hand | null, rows: readonly ChartRow[]): string {
  switch (reason) {
    case 'leakBefore':
      return against(rows, hand, 'tap before its accent', 'its resting taps');
    case 'leakAfter':
      return against(rows, hand, 'tap after its accent', 'its resting taps');
    case 'spill':
      return against(rows, hand, 'tap beside the other hand’s accent', 'its other taps');
    case 'fade':
      return against(rows, hand, 'second note of a double', 'its first');
    default:
      return overall(rows);
  }
}

function against(rows: readonly ChartRow[], hand: Hand | null, what: string, than: string): string {
  const [base, about] = rows;
  const difference = (of: Hand): number | null => {
    const [from, to] = [base?.[of], about?.[of]];
    return from && to ? to.median - from.median : null;
  };
  const own = hand === null ? null : difference(hand);
  if (hand === null || own === null) return overall(rows);
  const other = difference(otherHand(hand));
  const way = own >= 0 ? 'above' : 'under';
  const first = `The ${handName(hand)} ${what} sits ${fixed(Math.abs(own), 1)} dB ${way} ${than}`;
  if (other === null) return first;
  const otherName = handName(otherHand(hand));
  return Math.abs(other) < WORTH_SAYING_DB
    ? `${first}; the ${otherName} one doesn’t`
    : `${first}; the ${otherName} one ${signed(other, 1)} dB`;
}

function overall(rows: readonly ChartRow[]): string {
  const accents = rows.find((row) => row.label === 'accent');
  const taps = rows.find((row) => row.label === 'resting tap') ?? rows[0];
  const both = (row: ChartRow | undefined): string =>
    (['R', 'L'] as const)
      .flatMap((hand) => {
        const point = row?.[hand];
        return point ? [`${hand} ${fixed(point.median, 1)}`] : [];
      })
      .join(', ');
  if (accents === undefined) return `Taps at ${both(taps)} dB`;
  if (taps === undefined || taps === accents) return `Accents at ${both(accents)} dB`;
  return `Accents at ${both(accents)} dB, resting taps at ${both(taps)} dB`;
}
