import type { Scope } from './codes';
import { variationsOf, type Evidence } from './evidence';
import type { StrokeGroup } from './measures/measure';

/** Grace notes of a scope: how far ahead of the next stroke of their group, and how loud against their main stroke. */
export interface Graces {
  readonly gapsMs: readonly number[];
  /** By hand of the main stroke, R then L: the gaps, for what is even within a hand and not between them. */
  readonly gapsByHand: readonly (readonly number[])[];
  readonly beforeAccentDb: readonly number[];
  readonly beforeSoftDb: readonly number[];
  /** True where most of those due did not arrive on pads that merge close strokes: too tight or left out, nobody can tell. */
  readonly merged: boolean;
}

/** @returns undefined where no grace is due in the scope */
export function gracesIn(evidence: Evidence, scope: Scope): Graces | undefined {
  const { grid, strokes, alignment } = evidence.graded;
  const wanted = new Set(variationsOf(evidence, scope));
  const inScope = (slot: number): boolean =>
    wanted.has(evidence.variation[slot]) &&
    (scope.hand === undefined || grid.slots[slot].hand === scope.hand);
  if (!grid.slots.some((slot) => slot.graces.length > 0 && inScope(slot.index))) return undefined;
  const byHand: number[][] = [[], []];
  const beforeAccentDb: number[] = [];
  const beforeSoftDb: number[] = [];
  for (const { slot, strokes: found } of alignment.graces ?? []) {
    const outcome = alignment.outcomes[slot];
    if (!inScope(slot) || outcome.status !== 'matched') continue;
    const main = strokes[outcome.stroke];
    const ofHand = byHand[grid.slots[slot].hand === 'R' ? 0 : 1];
    found.forEach((index, order) => {
      const next = strokes[found[order + 1] ?? outcome.stroke];
      ofHand.push(next.atMs - strokes[index].atMs);
      if (!comparable(evidence, slot, strokes[index].surface, main.surface)) return;
      const level = strokes[index].levelDb - main.levelDb;
      (grid.slots[slot].kind === 'accent' ? beforeAccentDb : beforeSoftDb).push(level);
    });
  }
  const gapsMs = byHand.flat();
  const merged = gapsMs.length < MOST_LOST * dueOnMerging(evidence, inScope);
  return { gapsMs, gapsByHand: byHand, beforeAccentDb, beforeSoftDb, merged };
}

/** Under this share of the graces due, what arrived says nothing of the others. Common practice. */
const MOST_LOST = 0.5;

/** Graces due before strokes that arrived on a pad that merges close ones. */
function dueOnMerging({ graded }: Evidence, inScope: (slot: number) => boolean): number {
  const merging = new Set(graded.closestPairs?.map(({ id }) => id));
  if (merging.size === 0) return 0;
  let due = 0;
  for (const { index, graces } of graded.grid.slots) {
    const outcome = graded.alignment.outcomes[index];
    if (graces.length === 0 || outcome.status !== 'matched' || !inScope(index)) continue;
    if (merging.has(graded.strokes[outcome.stroke].surface)) due += graces.length;
  }
  return due;
}

/** Whether a grace's level may be held against its stroke's: always where nothing is voiced, else within a surface. */
function comparable({ graded }: Evidence, slot: number, grace: string, main: string): boolean {
  const { surface } = graded.grid.slots[slot];
  if (surface === null || grace === main) return true;
  return graded.trimmed?.has(grace) === true && graded.trimmed.has(main);
}

/** Main strokes that a grace led to. */
export const gracedStrokes = (evidence: Evidence): readonly StrokeGroup[] => {
  const found = gracesBySlot(evidence);
  return [{ name: 'graced', has: (i) => graceGapMs(evidence, found, i) !== undefined }];
};

/** Strokes of the graces found, by the slot they lead to. */
export function gracesBySlot({ graded }: Evidence): ReadonlyMap<number, readonly number[]> {
  return new Map((graded.alignment.graces ?? []).map(({ slot, strokes }) => [slot, strokes]));
}

/** From the last grace to its main stroke, ms; undefined where one of them is missing. */
export function graceGapMs(
  { graded }: Evidence,
  found: ReadonlyMap<number, readonly number[]>,
  i: number,
): number | undefined {
  const outcome = graded.alignment.outcomes[i];
  const last = found.get(i)?.at(-1);
  if (outcome.status !== 'matched' || last === undefined) return undefined;
  return graded.strokes[outcome.stroke].atMs - graded.strokes[last].atMs;
}
