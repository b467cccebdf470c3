import type { Graded } from '../graded';

/**
 * True where a slot was answered by the right hand, as far as anyone knows, on another drum than the voicing sends it
 * to. A wrong hand goes before: one fault is told once. False where the rig has no such surface.
 */
export function onWrongSurface({ grid, alignment, strokes, surfaceIds }: Graded, slot: number): boolean {
  const { surface } = grid.slots[slot];
  const outcome = alignment.outcomes[slot];
  if (surface === null || surfaceIds === undefined || outcome.status !== 'matched') return false;
  const due = surfaceIds.get(surface);
  return due !== undefined && !outcome.wrongHand && strokes[outcome.stroke].surface !== due;
}

/** Strokes on a wrong drum; absent where the phrase sends none anywhere the rig knows. */
export function wrongSurfaces(graded: Graded): { readonly wrongSurface?: number } {
  if (graded.surfaceIds === undefined || graded.surfaceIds.size === 0) return {};
  const wrong = graded.grid.slots.filter((_, slot) => onWrongSurface(graded, slot));
  return { wrongSurface: wrong.length };
}
