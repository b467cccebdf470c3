import { ordinal } from '../../words/numbers';
import type { PlaceDifference } from '../../insight/compare/compare';
import type { SideBySide } from '../../insight/compare/side-by-side';
import { fixed } from '../shared/numbers';
import { barOf, placeLabel } from './by-place';
import type { ChartPoint, ChartRow, RowsPicture } from './picture';

/**
 * A row a place of the variation whose place differs most: by how much the second take is louder there than the first,
 * with its 90 % interval.
 * @returns null where no place can be set side by side
 */
export function differencesByPlace({ first, second, comparison }: SideBySide): RowsPicture | null {
  const of = largest(comparison.places)?.variation ?? null;
  const places = comparison.places.filter((one) => one.variation === of && one.levelDb !== null);
  const bar = of === null ? null : barOf(second.take, of);
  if (of === null || bar === null || places.length === 0) return null;
  const rows = places.map((place): ChartRow => {
    const slot = bar.slots.find((one) => one.slot === place.slot && one.hand === place.hand);
    const point = pointOf(place);
    return {
      label: slot === undefined ? `${place.slot + 1}  ${place.hand}` : placeLabel(slot, bar.bar),
      R: place.hand === 'R' ? point : null,
      L: place.hand === 'L' ? point : null,
    };
  });
  return {
    kind: 'rows',
    name: 'differences by place',
    title: titleOf(places, first.take.source === 'model' ? 'in the model take' : 'in the earlier take'),
    of,
    drawn: 'by how much each stroke is louder, dB, with 90 % intervals',
    unit: 'dB',
    byPlace: true,
    rows,
  };
}

function largest(places: readonly PlaceDifference[]): PlaceDifference | undefined {
  return places
    .filter(({ levelDb }) => levelDb !== null)
    .toSorted((a, b) => Math.abs(b.levelDb?.value ?? 0) - Math.abs(a.levelDb?.value ?? 0))[0];
}

function titleOf(places: readonly PlaceDifference[], than: string): string {
  const apart = places.filter(
    ({ insideNoise, levelDb }) => !insideNoise && levelDb !== null && !spans(levelDb),
  );
  const most = largest(apart);
  const estimate = most?.levelDb ?? null;
  if (most === undefined || estimate === null)
    return 'No place differs in level by more than chance may make';
  const { value } = estimate;
  const others =
    apart.length === 1 ? '; the others are inside the noise' : `; ${apart.length} of ${places.length} differ`;
  return `The ${ordinal(most.slot + 1)} stroke is ${fixed(Math.abs(value), 1)} dB ${value < 0 ? 'softer' : 'louder'} than ${than}${others}`;
}

const spans = ({ interval: [low, high] }: { interval: readonly [number, number] }): boolean =>
  low <= 0 && high >= 0;

function pointOf({ levelDb, insideNoise, n }: PlaceDifference): ChartPoint | null {
  if (levelDb === null) return null;
  const [low, high] = levelDb.interval;
  return {
    median: levelDb.value,
    spread: (high - low) / 2,
    n: Math.min(...n),
    out: !insideNoise && !spans(levelDb),
  };
}
