import type { Hand } from '../../stroke';
import type { Column } from '../../sessions/paper/strip/columns';
import type { BarMarks } from '../play/bar-marks';

/**
 * A height where the hands are mirrored about the middle: right upwards, left downwards; two sticks on one surface go up.
 * @example mirroredY(1, 'R') // => 1
 * @example mirroredY(1, 'L') // => 0
 */
export const mirroredY = (y: number, hand: Hand | 'both'): number =>
  hand === 'L' ? 0.5 - y / 2 : 0.5 + y / 2;

/** The marks of a bar with the two hands mirrored about a line. Nobody knows whose an extra is: it stands across the line. */
export function mirroredMarks(marks: BarMarks, columns: readonly Column[]): BarMarks {
  const hands = columns.flatMap(({ slots }) => slots.map(({ hand }) => hand));
  return {
    bands: marks.bands.map((band, index) => {
      const ends = [mirroredY(band.fromY, hands[index]), mirroredY(band.toY, hands[index])];
      return { ...band, fromY: Math.min(...ends), toY: Math.max(...ends) };
    }),
    strokes: marks.strokes.map((mark) => ({
      ...mark,
      y: mirroredY(mark.y, mark.hand),
      edgeY: mark.edgeY === null ? null : mirroredY(mark.edgeY, mark.hand),
    })),
    graces: marks.graces.map((mark) => ({ ...mark, y: mirroredY(mark.y, mark.hand) })),
    extras: marks.extras.map((mark) => ({ ...mark, y: 0.5 })),
  };
}
