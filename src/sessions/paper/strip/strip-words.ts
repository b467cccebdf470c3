import { dB } from '../../../words/numbers';
import type { Strip } from './strip';

/**
 * A strip for the ear: the variation, its verdict, and the strokes that lie outside their band.
 * @example "accent on 4: not yet. Outside their band: left at 2 &, 5.5 dB over."
 */
export function stripLabel({ variation, band, columns, slots }: Strip): string {
  const outside = slots.filter(({ outsideDb }) => outsideDb !== 0);
  const named = outside.map(({ slot, outsideDb }) => {
    const { count = '', beat = slot.beat } = columns.find(({ slots: own }) => own.includes(slot)) ?? {};
    const place = count === String(beat + 1) || count === '' ? `${beat + 1}` : `${beat + 1} ${count}`;
    const hand = slot.hand === 'R' ? 'right' : 'left';
    return `${hand} at ${place}, ${dB(Math.abs(outsideDb))} ${outsideDb > 0 ? 'over' : 'under'}`;
  });
  const where = named.length === 0 ? 'Every stroke in its band.' : `Outside their band: ${named.join('; ')}.`;
  return `${variation}: ${band}. ${where}`;
}
