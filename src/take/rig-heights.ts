import type { Alignment } from '../alignment/types';
import type { Grid, Slot } from '../exercises/types';
import { meanLines, type HandLines, type HeightLines } from '../grading/evidence/heights';
import type { Rig, Surface } from '../sessions/types';
import type { Hand, Stroke } from '../stroke';
import type { Db } from '../units';
import { surfaceNamed } from './voiced-rig';

/**
 * The heights of every hand on every surface that a phrase has it play, trims in them.
 * @returns undefined where one of them is not learned, or not in order: then the limits in dB hold
 */
export function heightsOf(rig: Rig, grid: Grid): readonly HandLines[] | undefined {
  const found = new Map<string, HandLines | undefined>();
  for (const { hand, surface: name } of grid.slots.slice(0, grid.slotsPerCycle)) {
    for (const surface of surfacesOf(rig, hand, name)) {
      const key = JSON.stringify([hand, name, surface.id]);
      if (!found.has(key)) found.set(key, linesOf(surface, hand, name));
    }
  }
  const all = [...found.values()].filter((lines) => lines !== undefined);
  return all.length > 0 && all.length === found.size ? all : undefined;
}

/** The lines for the picture of a phrase: the mean of those. Null where the rig has not learned them. */
export function pictureLines(rig: Rig, grid: Grid): HeightLines | null {
  return meanLines(heightsOf(rig, grid) ?? []) ?? null;
}

/**
 * Strokes with the trims of their landing spots: the hand is the slot's, for the surface is both hands'. Strokes that answer
 * no slot are as they were.
 */
export function withSpotTrims(
  rig: Rig,
  grid: Grid,
  strokes: readonly Stroke[],
  { outcomes, graces }: Alignment,
): readonly Stroke[] {
  if (rig.surfaces.every(({ spots }) => spots === undefined)) return strokes;
  const trimDb = spotTrims(rig);
  const trimmed = [...strokes];
  const trim = (stroke: number, hand: Hand): void => {
    const { levelDb, surface } = strokes[stroke];
    trimmed[stroke] = { ...strokes[stroke], levelDb: levelDb + trimDb(surface, hand) };
  };
  outcomes.forEach((outcome, slot) => {
    if (outcome.status === 'matched') trim(outcome.stroke, grid.slots[slot].hand);
  });
  graces?.forEach(({ slot, strokes: those }) => {
    const due = grid.slots[slot].graces;
    those.forEach((stroke, index) => {
      trim(stroke, due[due.length - those.length + index]);
    });
  });
  return trimmed;
}

/** Trim of a hand's landing spot on a surface, by its id; 0 where the rig has none. */
export function spotTrims(rig: Rig): (surface: string, hand: Hand) => Db {
  const spots = new Map(rig.surfaces.map(({ id, spots: trims }) => [id, trims]));
  return (surface, hand) => spots.get(surface)?.[hand] ?? 0;
}

function surfacesOf(rig: Rig, hand: Hand, name: Slot['surface']): readonly Surface[] {
  if (name !== null) {
    const surface = surfaceNamed(rig, name);
    return surface === undefined ? [] : [surface];
  }
  const played = rig.surfaces.filter(
    (surface) => surface.foot === undefined && (surface.hand === null || surface.hand === hand),
  );
  const others = played.filter(({ id }) => id !== rig.start?.surface);
  return others.length > 0 ? others : played;
}

function linesOf(surface: Surface, hand: Hand, name: Slot['surface']): HandLines | undefined {
  const heights = surface.heights?.[hand];
  if (heights === undefined) return undefined;
  const trimDb: Db = surface.trimDb + (surface.spots?.[hand] ?? 0);
  const [low, half, full] = [heights.low, heights.half, heights.full].map(({ db }) => db + trimDb);
  return low < half && half < full ? { hand, surface: name, low, half, full } : undefined;
}
