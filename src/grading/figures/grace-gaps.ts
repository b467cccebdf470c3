import type { Ms } from '../../units';
import type { Scope } from '../evidence/codes';
import { variationsOf, type Evidence } from '../evidence/evidence';
import type { StrokeGroup } from '../measures/measure';
import { mean } from '../../ordered';

/** Flams lead to their stroke by one grace note, drags by more. */
export type GraceKind = 'flam' | 'drag';

/** Gaps from a grace to the next stroke of its group, of one place in flams or in drags, by the hand it leads to. */
interface GracePlace {
  readonly kind: GraceKind;
  /** Place before the main stroke: 1 is the one right before it. */
  readonly before: number;
  readonly R: readonly number[];
  readonly L: readonly number[];
}

/** Grace notes of a scope: how far ahead of the next stroke of their group, and how loud against their main stroke. */
interface Graces {
  readonly places: readonly GracePlace[];
  readonly beforeAccentDb: readonly number[];
  readonly beforeSoftDb: readonly number[];
  /** Graces found. */
  readonly n: number;
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
  const places = new Map<string, { kind: GraceKind; before: number; R: number[]; L: number[] }>();
  const beforeAccentDb: number[] = [];
  const beforeSoftDb: number[] = [];
  let n = 0;
  for (const { slot, strokes: found } of alignment.graces ?? []) {
    const outcome = alignment.outcomes[slot];
    if (!inScope(slot) || outcome.status !== 'matched') continue;
    const main = strokes[outcome.stroke];
    const { hand, graces } = grid.slots[slot];
    const kind = graceKindOf(graces);
    found.forEach((index, order) => {
      const next = strokes[found[order + 1] ?? outcome.stroke];
      const before = found.length - order;
      const key = `${kind} ${before}`;
      const place = places.get(key) ?? { kind, before, R: [], L: [] };
      places.set(key, place);
      place[hand].push(next.atMs - strokes[index].atMs);
      n++;
      if (!isComparable(evidence, slot, strokes[index].surface, main.surface)) return;
      const level = strokes[index].levelDb - main.levelDb;
      (grid.slots[slot].kind === 'accent' ? beforeAccentDb : beforeSoftDb).push(level);
    });
  }
  const merged = n < evidence.graded.settings['grace.fewestOfMerged'] * dueOnMerging(evidence, inScope);
  return { places: [...places.values()], beforeAccentDb, beforeSoftDb, n, merged };
}

function graceKindOf(graces: readonly unknown[]): GraceKind {
  return graces.length === 1 ? 'flam' : 'drag';
}

/** All gaps of a kind within the scope, ms. */
export function gapsOfKind({ places }: Graces, kind: GraceKind): number[] {
  return places.flatMap((place) => (place.kind === kind ? [...place.R, ...place.L] : []));
}

/** True where a flam, or a drag, is due in the scope. */
export function isGraceDue(evidence: Evidence, scope: Scope, kind: GraceKind): boolean {
  const wanted = new Set(variationsOf(evidence, scope));
  return evidence.graded.grid.slots.some(
    ({ index, graces, hand }) =>
      graces.length > 0 &&
      graceKindOf(graces) === kind &&
      wanted.has(evidence.variation[index]) &&
      (scope.hand === undefined || hand === scope.hand),
  );
}

/** Mean time from the stroke before to a stroke with graces of the kind, as due, ms; undefined where there is none. */
export function gapBeforeMs({ graded: { grid } }: Evidence, kind: GraceKind): number | undefined {
  const gaps = grid.slots.slice(0, Math.max(grid.slotsPerCycle, 1)).flatMap(({ index, graces, atMs }) => {
    const before = grid.slots[index - 1];
    return graces.length > 0 && graceKindOf(graces) === kind && before !== undefined
      ? [atMs - before.atMs]
      : [];
  });
  return mean(gaps);
}

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
function isComparable({ graded }: Evidence, slot: number, grace: string, main: string): boolean {
  const { surface } = graded.grid.slots[slot];
  if (surface === null || grace === main) return true;
  return graded.trimmed?.has(grace) === true && graded.trimmed.has(main);
}

/** Main strokes that a grace led to, those with flams or drags alone where a kind is given. */
export function gracedStrokes(evidence: Evidence, kind?: GraceKind): readonly StrokeGroup[] {
  const found = gracesBySlot(evidence);
  return [{ name: 'graced', has: (i) => graceGapMs(evidence, found, i, kind) !== undefined }];
}

/** Those of which a grace's level can be held against the stroke's. */
export const levelledStrokes = (evidence: Evidence): readonly StrokeGroup[] => {
  const { strokes, alignment } = evidence.graded;
  const found = gracesBySlot(evidence);
  const has = (i: number): boolean => {
    const outcome = alignment.outcomes[i];
    if (outcome.status !== 'matched') return false;
    const { surface } = strokes[outcome.stroke];
    return (found.get(i) ?? []).some((grace) => isComparable(evidence, i, strokes[grace].surface, surface));
  };
  return [{ name: 'graced', has }];
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
  kind?: GraceKind,
): number | undefined {
  if (kind !== undefined && graceKindOf(graded.grid.slots[i].graces) !== kind) return undefined;
  const outcome = graded.alignment.outcomes[i];
  const last = found.get(i)?.at(-1);
  if (outcome.status !== 'matched' || last === undefined) return undefined;
  return graded.strokes[outcome.stroke].atMs - graded.strokes[last].atMs;
}

/** From each grace found before slot `i` to the next stroke of its group, ms; none where the main stroke is missing. */
export function graceGapsMs(
  { graded: { strokes, alignment } }: Evidence,
  found: ReadonlyMap<number, readonly number[]>,
  i: number,
): readonly Ms[] {
  const outcome = alignment.outcomes[i];
  const graces = found.get(i);
  if (graces === undefined || outcome.status !== 'matched') return [];
  return graces.map(
    (grace, order) => strokes[graces[order + 1] ?? outcome.stroke].atMs - strokes[grace].atMs,
  );
}
