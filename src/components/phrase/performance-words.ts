import { STRAIGHT, type Performance } from '../../exercises/performance';
import { ostinatos } from '../../exercises/ostinatos';

/** Bars and subdivisions in which a feet line may have a name. */
const BEATS = [2, 3, 4, 5, 6];
const PARTIALS = [1, 2, 3, 4, 5, 6, 7, 8];

/**
 * How a phrase is played, in a line; what is plain isn't said.
 * @example performanceWords({ voicing: null, feet: null, swing: 0.5, dyn: null, first: null }, false)
 * // => as written: one surface, straight
 * @example performanceWords({ voicing: 'accents to toms', feet: 'K---', swing: 0.6, dyn: null, first: 'listen' }, false)
 * // => accents to toms · bass drum on every beat · swing 60 % · each bar heard first
 */
export function performanceWords(
  { voicing, feet, swing, dyn, first }: Performance,
  ownVoicing: boolean,
): string {
  const parts = [
    voicing ?? (ownVoicing ? 'on the phrase’s own surfaces' : ''),
    feet === null ? '' : feet.trim() === '' ? 'without feet' : (nameOf(feet) ?? `feet ${feet.trim()}`),
    swing === STRAIGHT ? '' : `swing ${Math.round(swing * 100)} %`,
    dyn === null ? '' : dyn.trim() === '' ? 'no dynamics' : dyn.trim(),
    first === null ? '' : first === 'listen' ? 'each bar heard first' : 'each bar counted first',
  ].filter((part) => part !== '');
  return parts.length === 0 ? 'as written: one surface, straight' : parts.join(' · ');
}

function nameOf(feet: string): string | undefined {
  const is = ({ line }: (typeof ostinatos)[number]): boolean =>
    BEATS.some((beats) => PARTIALS.some((partials) => line(beats, partials) === feet));
  return ostinatos.find(is)?.name;
}
