import type { Evidence } from '../evidence/evidence';
import type { Figure, Part } from '../figures/figure';
import type { JudgedKey } from '../measures';
import { judgedFigureOf } from '../figures/named-figures';

/**
 * The slot to name: the first slot in the bar of the place whose strokes of the measure's first group lie farthest on
 * the bad side by their mean, ties to the earliest. First groups: accents of `contrast` and `clarity`, the right hand
 * of a balance and of `lag`, the second notes of doubles, the strokes that carry a term.
 * @returns null where no place stands out: nothing wrong at any place (only extras or slips), or no stroke
 */
export function farthestSlot(
  evidence: Evidence,
  variation: number,
  key: JudgedKey,
  part: Part | null,
  figure: Figure,
): number | null {
  const { slots } = evidence.graded.grid;
  const badness = judgedFigureOf(key, part).badness(evidence, figure, variation);
  const byPlace = new Map<number, { first: number; sum: number; n: number }>();
  for (let i = 0; i < slots.length; i++) {
    if (evidence.variation[i] !== variation) continue;
    if (figure.surface !== undefined && evidence.surfaces[evidence.surface[i]] !== figure.surface) continue;
    const bad = badness(i);
    if (bad === undefined) continue;
    const { place, slot } = slots[i];
    const seen = byPlace.get(place);
    if (seen === undefined) byPlace.set(place, { first: slot, sum: bad, n: 1 });
    else {
      seen.first = Math.min(seen.first, slot);
      seen.sum += bad;
      seen.n++;
    }
  }
  const places = [...byPlace.values()].sort((a, b) => a.first - b.first);
  if (places.length === 0) return null;
  return places.reduce((most, next) => (next.sum / next.n > most.sum / most.n ? next : most)).first;
}
