import type { Comparison, MeasureDifference, PlaceDifference } from './compare';
import { dB, ms, ordinal } from '../../words/numbers';
import { figureWords, measureName } from '../../grading/words';

/**
 * What differs most between two takes, in a sentence: the variation's measure whose margin moved most outside the
 * noise; then the place that stands out most; where neither does, that chance alone may make all of it.
 */
export function comparisonWords({ measures, places }: Comparison): string {
  if (measures.length === 0 && places.length === 0)
    return 'The two takes have nothing that can be set side by side.';
  const moved = measures.filter(
    ({ variation, standsOut, better }) => variation !== null && standsOut && better !== 0,
  );
  const most = largest(moved, ({ better }) => Math.abs(better));
  if (most !== undefined) return `${where(most)}: ${measureWords(most)}.`;
  const place = largest(
    places.filter(({ insideNoise }) => !insideNoise),
    ({ levelDb, deviationMs }) =>
      Math.max(Math.abs(levelDb?.value ?? 0) / 2, Math.abs(deviationMs?.value ?? 0) / 10),
  );
  if (place !== undefined)
    return `${place.variation}: the ${ordinal(place.slot + 1)} stroke is ${placeWords(place)}.`;
  return 'Nothing differs by more than chance may make.';
}

/** As in: leak before, from L 5.7 dB to L 0.2 dB; inside the noise where chance alone may make it. */
export function measureWords(of: MeasureDifference): string {
  const { measure, part, first, second, insideNoise } = of;
  const shown = ({ value }: { value: number | null }): string =>
    part === 'ms' ? ms(value ?? 0) : dB(value ?? 0);
  const [from, to] =
    part === undefined && measure !== 'seam'
      ? [figureWords(measure, first), figureWords(measure, second)]
      : [shown(first), shown(second)];
  return `${measureName(measure)} from ${from} to ${to}${insideNoise ? ', inside the noise' : ''}`;
}

/** As in: 2.4 dB louder, 3 ms earlier; inside the noise where chance alone may make both. */
export function placeWords({ levelDb, deviationMs, insideNoise }: PlaceDifference): string {
  if (levelDb === null && deviationMs === null) return 'too few strokes';
  const parts = [
    ...(levelDb === null
      ? []
      : [`${dB(Math.abs(levelDb.value))} ${levelDb.value < 0 ? 'softer' : 'louder'}`]),
    ...(deviationMs === null
      ? []
      : [`${ms(Math.abs(deviationMs.value))} ${deviationMs.value < 0 ? 'earlier' : 'later'}`]),
  ];
  return `${parts.join(', ')}${insideNoise ? '; inside the noise' : ''}`;
}

const where = ({ variation }: MeasureDifference): string => variation ?? 'the whole take';

function largest<Item>(items: readonly Item[], size: (item: Item) => number): Item | undefined {
  return items.reduce<Item | undefined>(
    (most, next) => (most === undefined || size(next) > size(most) ? next : most),
    undefined,
  );
}
