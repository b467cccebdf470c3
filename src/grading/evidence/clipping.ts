import { kindCode, who, type Scope } from './codes';
import type { Columns } from './columns';

const LOUDEST = 127;

/** Which surfaces clip: how loud an accent at velocity 127 was nobody can tell. */
export interface Clipping {
  /** Ids, in the order in which they were first struck. */
  readonly surfaces: readonly string[];
  /** True where an accent in the scope came from one of them. */
  touches(scope: Scope): boolean;
}

/**
 * A surface clips where over `clipping.from` (3 %) of the accents matched on it have velocity 127.
 * @example 4 of 100 accents at 127 clip, 3 of 100 don't
 * Source: common practice.
 */
export function clippingOf({ graded, names, variation, kind, who: by }: Columns): Clipping {
  const { alignment, strokes, settings } = graded;
  const bySurface = new Map<string, { accents: number; loudest: number; from: Int32Array }>();
  for (let i = 0; i < kind.length; i++) {
    const outcome = alignment.outcomes[i];
    if (kind[i] !== kindCode.accent || outcome.status !== 'matched') continue;
    const { surface, velocity } = strokes[outcome.stroke];
    let seen = bySurface.get(surface);
    if (seen === undefined) {
      seen = { accents: 0, loudest: 0, from: new Int32Array(names.length * who.none) };
      bySurface.set(surface, seen);
    }
    seen.accents++;
    if (velocity >= LOUDEST) seen.loudest++;
    seen.from[variation[i] * who.none + by[i]]++;
  }
  const clipping = [...bySurface].filter(
    ([, seen]) => seen.loudest > settings['clipping.from'] * seen.accents,
  );
  return {
    surfaces: clipping.map(([surface]) => surface),
    touches: ({ variation: v, hand }) =>
      clipping.some(([, { from }]) =>
        from.some(
          (count, at) =>
            count > 0 &&
            (v === undefined || Math.floor(at / who.none) === v) &&
            (hand === undefined || at % who.none === who[hand]),
        ),
      ),
  };
}
