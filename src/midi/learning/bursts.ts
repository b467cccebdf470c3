import type { RawHit } from '../../stroke';
import type { Ms } from '../../units';

/** Hits parted by silences: each burst is what one gesture made, with whatever the pads added. @param hits in time order */
export function burstsOf(hits: readonly RawHit[], silenceMs: Ms): readonly (readonly RawHit[])[] {
  const bursts: RawHit[][] = [];
  let lastMs = -Infinity;
  for (const hit of hits) {
    if (hit.atMs - lastMs >= silenceMs) bursts.push([]);
    bursts[bursts.length - 1].push(hit);
    lastMs = hit.atMs;
  }
  return bursts;
}
