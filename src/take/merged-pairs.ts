import type { Alignment } from '../alignment/types';
import type { Grid } from '../exercises/types';
import type { ClosestPairNote } from '../grading/types';
import type { Rig, Surface } from '../sessions/types';
import type { Hand } from '../stroke';
import type { Ms } from '../units';
import { surfaceNamed } from './voiced-rig';

/** The pads that two strokes of this phrase may come too close for: graces, or slots nearer than the closest pair. */
export function closestPairNotes(rig: Rig, grid: Grid): readonly ClosestPairNote[] {
  const gapMs = nearestOn(grid);
  const graces = grid.slots.some((slot) => slot.graces.length > 0);
  return rig.surfaces.flatMap(({ id, name, foot, closestPairMs }) =>
    closestPairMs === undefined || foot !== undefined || (!graces && closestPairMs <= gapMs)
      ? []
      : [{ id, surface: name, closestPairMs }],
  );
}

/**
 * Slots that came too soon after the one before for their pad to tell are *not measured* where nothing answered them: whether
 * they were struck nobody knows. One that was answered stays.
 */
export function withMergedPairs(rig: Rig, grid: Grid, alignment: Alignment): Alignment {
  if (rig.surfaces.every(({ closestPairMs }) => closestPairMs === undefined)) return alignment;
  const outcomes = alignment.outcomes.map((outcome, index) => {
    if (outcome.status !== 'missed' || index === 0) return outcome;
    const [before, slot] = [grid.slots[index - 1], grid.slots[index]];
    const gapMs = slot.atMs - before.atMs;
    const there = surfacesOf(rig, slot.hand, slot.surface);
    const merged = surfacesOf(rig, before.hand, before.surface).some(
      (surface) => there.includes(surface) && gapMs > 0 && gapMs < (surface.closestPairMs ?? 0),
    );
    return merged ? ({ status: 'notMeasured' } as const) : outcome;
  });
  return { ...alignment, outcomes };
}

function surfacesOf(rig: Rig, hand: Hand, name: string | null): readonly Surface[] {
  if (name !== null) return [surfaceNamed(rig, name)].filter((surface) => surface !== undefined);
  return rig.surfaces.filter((one) => one.foot === undefined && (one.hand === null || one.hand === hand));
}

function nearestOn({ slots, slotsPerCycle }: Grid): Ms {
  let nearest = Infinity;
  for (let index = 1; index < Math.min(slots.length, slotsPerCycle + 1); index += 1) {
    const gapMs = slots[index].atMs - slots[index - 1].atMs;
    if (gapMs > 0) nearest = Math.min(nearest, gapMs);
  }
  return nearest;
}
