import type { Foot, Grid, Note, Phrase, Slot } from '../exercises/types';
import { surfaceOfNote } from '../exercises/voicings';
import type { Rig, Surface } from '../sessions/types';
import type { Hand } from '../stroke';

/** The surface of a rig that a voicing names: by id or by name, capitals or not. */
export function surfaceNamed(rig: Rig, name: string): Surface | undefined {
  const wanted = name.toLowerCase();
  return rig.surfaces.find((one) => one.id.toLowerCase() === wanted || one.name.toLowerCase() === wanted);
}

/**
 * The rig as a phrase plays it, without a surface that only starts takes: a surface that either hand may play is one hand's where the voicing sends that hand's
 * strokes there and none of the other's. Only where every stroke is voiced, graces (as their hand's taps) too; else
 * those that aren't might go there.
 */
export function rigAsVoiced(whole: Rig, phrase: Phrase, grid: Grid): Rig {
  const rig = withoutStart(whole, phrase);
  const { voicing } = phrase;
  if (voicing === undefined) return rig;
  const hands = new Map<string, Set<Hand>>();
  for (const { hand, kind, graces } of grid.slots.slice(0, grid.slotsPerCycle)) {
    const notes: readonly Note[] = [
      { hand, kind },
      ...graces.map((grace): Note => ({ hand: grace, kind: 'tap' })),
    ];
    for (const note of notes) {
      const name = surfaceOfNote(voicing, note);
      if (name === undefined) return rig;
      const id = surfaceNamed(rig, name)?.id;
      if (id !== undefined) hands.set(id, (hands.get(id) ?? new Set()).add(note.hand));
    }
  }
  return {
    ...rig,
    surfaces: rig.surfaces.map((surface) => {
      const of = hands.get(surface.id);
      if (surface.hand !== null || surface.foot !== undefined || of?.size !== 1) return surface;
      return { ...surface, hand: [...of][0] };
    }),
  };
}

/**
 * Whether the start surface is also one to play on: where the voicing names it, or where without one a hand has no other.
 */
export function startIsPlayed(rig: Rig, phrase: Phrase): boolean {
  const start = rig.surfaces.find(({ id }) => id === rig.start?.surface);
  if (start === undefined) return false;
  const voiced = Object.values(phrase.voicing ?? {}).map((name) => surfaceNamed(rig, name)?.id);
  if (voiced.includes(start.id)) return true;
  if (start.foot !== undefined) return phrase.feet !== undefined;
  return (['R', 'L'] as const).some((hand) => {
    const of = rig.surfaces.filter(
      (one) => one.foot === undefined && (one.hand === null || one.hand === hand),
    );
    return of.length > 0 && of.every(({ id }) => id === start.id);
  });
}

/** The rig without a surface that only starts and stops takes: a strike on it is no stroke of the phrase. */
function withoutStart(rig: Rig, phrase: Phrase): Rig {
  const start = rig.start?.surface;
  if (start === undefined || startIsPlayed(rig, phrase)) return rig;
  return { ...rig, surfaces: rig.surfaces.filter(({ id }) => id !== start) };
}

/**
 * Whether the two notes of a unison go to two surfaces: to those the voicing names, else where the rig has a surface a
 * hand and no other.
 */
export function apartOn(rig: Rig): (first: Slot, second: Slot) => boolean {
  const ofHands = rig.surfaces.filter(({ foot }) => foot === undefined);
  const known = (['R', 'L'] as const).every((hand) => ofHands.some((surface) => surface.hand === hand));
  const aHand = known && ofHands.every(({ hand }) => hand !== null);
  return (first, second) => {
    if (first.surface === null || second.surface === null) return aHand;
    const [one, other] = [surfaceNamed(rig, first.surface), surfaceNamed(rig, second.surface)];
    return one !== undefined && other !== undefined && one !== other;
  };
}

/** The surface a slot's stroke should fall on, by id; undefined where the player chooses, or the rig has none of that name. */
export function surfaceDueOn(rig: Rig): (slot: Pick<Slot, 'surface'>) => string | undefined {
  const ids = new Map<string, string | undefined>();
  return ({ surface: name }) => {
    if (name === null) return undefined;
    if (!ids.has(name)) ids.set(name, surfaceNamed(rig, name)?.id);
    return ids.get(name);
  };
}

/** Ids of the surfaces a voicing names, by those names; undefined where it names none that the rig has. */
export function voicedIds(rig: Rig, { voicing = {} }: Phrase): ReadonlyMap<string, string> | undefined {
  const ids = new Map<string, string>();
  for (const name of Object.values(voicing)) {
    const id = surfaceNamed(rig, name)?.id;
    if (id !== undefined) ids.set(name, id);
  }
  return ids.size === 0 ? undefined : ids;
}

/** Surfaces a phrase asks for, by its voicing and its feet, that the rig doesn't have. */
export function missingSurfaces(rig: Rig, { voicing = {}, feet = '' }: Phrase): readonly string[] {
  const hands = [...new Set(Object.values(voicing))].filter((name) => surfaceNamed(rig, name) === undefined);
  const has = (foot: Foot): boolean => rig.surfaces.some((surface) => surface.foot === foot);
  return [
    ...hands,
    ...(/k/i.test(feet) && !has('K') ? ['bass drum foot'] : []),
    ...(/h/i.test(feet) && !has('H') ? ['hi-hat foot'] : []),
  ];
}

/** Names (as the grid's slots have them) and ids of the surfaces whose trims were set against each other. */
export function trimmedNames(rig: Rig, grid: Grid): ReadonlySet<string> {
  const trimmed = rig.surfaces.flatMap((surface) => (surface.trimmed === true ? [surface.id] : []));
  const named = grid.slots.slice(0, grid.slotsPerCycle).flatMap(({ surface }) => {
    const found = surface === null ? undefined : surfaceNamed(rig, surface);
    return surface !== null && found?.trimmed === true ? [surface] : [];
  });
  return new Set([...trimmed, ...named]);
}
