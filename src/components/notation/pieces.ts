import type { PlannedMeasure } from './plan';
import { scaleFor } from './systems';

/** A bar as it stands on the page: whole, or some of its beats where the page is narrow. */
export interface Piece {
  /** With the beats of this piece only; `label` and `newBeats` stand at the first. */
  readonly measure: PlannedMeasure;
  /** Beats of the whole bar, for its time signature. */
  readonly barBeats: number;
  /** True for the piece that ends its bar: the others have no bar line. */
  readonly closes: boolean;
}

/** Letters of 15 px and more stay 11 px high at this size. */
const LEAST_SCALE = 0.74;

/**
 * A plan in pieces that stay legible: a bar that would have to be drawn smaller than that is parted between its beats,
 * as often as it takes; a single beat is not.
 * @param leastWidthOf the least width the notes of a bar need, px at full size
 */
export function piecesOf(
  plan: readonly PlannedMeasure[],
  widthPx: number,
  size: number,
  leastWidthOf: (measure: PlannedMeasure) => number,
): readonly Piece[] {
  const wanted = Math.min(size, LEAST_SCALE);
  const parted = (piece: Piece): readonly Piece[] => {
    const { measure } = piece;
    const need = { leastWidth: leastWidthOf(measure), newBeats: measure.newBeats };
    if (measure.hands.length < 2 || scaleFor([need], widthPx) >= wanted) return [piece];
    return inTwo(piece).flatMap(parted);
  };
  return plan.flatMap((measure) => parted({ measure, barBeats: measure.beats, closes: true }));
}

function inTwo({ measure, barBeats, closes }: Piece): readonly Piece[] {
  const half = Math.ceil(measure.hands.length / 2);
  const of = (from: number, to: number): PlannedMeasure => ({
    ...measure,
    hands: measure.hands.slice(from, to),
    feet: measure.feet.slice(from, to),
    beats: Math.min(to, measure.hands.length) - from,
  });
  return [
    { measure: of(0, half), barBeats, closes: false },
    { measure: { ...of(half, Infinity), label: '', newBeats: false }, barBeats, closes },
  ];
}
