import { InputError } from '../../errors';
import type { Surface } from '../../sessions/types';
import type { Hand, RawHit } from '../../stroke';
import type { Ms } from '../../units';
import { suggestedFor } from './gm-percussion';

/** A surface as it was found by striking it. */
export interface FoundSurface {
  readonly id: string;
  readonly name: string;
  readonly port: string;
  readonly channel: number;
  /** In the order in which they were first struck. */
  readonly notes: readonly FoundNote[];
  readonly hand: Hand | null;
  readonly foot: 'K' | 'H' | null;
}

interface FoundNote {
  readonly note: number;
  readonly strikes: number;
  /** Strikes that were no shadow of a louder one elsewhere. */
  readonly alone: number;
  readonly loudest: number;
}

export interface SurfacesState {
  readonly found: readonly FoundSurface[];
  /** Id of the surface struck last, null before the first. */
  readonly newest: string | null;
  readonly last: RawHit | null;
  /** Surfaces made so far, so that no id comes twice. */
  readonly made: number;
}

export const noSurfaces: SurfacesState = { found: [], newest: null, last: null, made: 0 };

/** Zones of one surface struck at once lie this near. Source: grading.md section 2. */
const ZONE_MS: Ms = 10;
/** Under this share of a louder note that near, a note on its own is taken for crosstalk. Source: as above. */
const SHADOW_RATIO = 0.35;

/**
 * One strike further. A note that is known counts for its surface. A new one joins a surface of the same port and channel
 * where both sounded within 10 ms (two zones at once) or where both are one thing in the General MIDI map (head and
 * rim of a snare, a hi-hat over its pedal positions); else it is a surface of its own. The same note on another port
 * or channel is another surface. What sounds only in the shadow of louder strikes elsewhere is crosstalk: kept here
 * (a later strike of its own may show it), left out by {@link surfacesFound}.
 */
export function nextStrike(state: SurfacesState, hit: RawHit): SurfacesState {
  const { last } = state;
  const beside = last !== null && hit.atMs - last.atMs <= ZONE_MS && !sameKey(last, hit) ? last : undefined;
  const inShadow = beside !== undefined && hit.velocity < SHADOW_RATIO * beside.velocity;
  const lit = beside !== undefined && beside.velocity < SHADOW_RATIO * hit.velocity;
  const before = lit ? shadowed(state, beside) : state;
  const zoneOf = beside === undefined || inShadow || lit ? undefined : ownerOf(before.found, beside);
  const owner =
    ownerOf(before.found, hit) ??
    (zoneOf !== undefined && sameSocket(zoneOf, hit) ? zoneOf : undefined) ??
    before.found.find((one) => sameSocket(one, hit) && isOneThing(one, hit.note));
  if (owner === undefined) return withNew(before, hit, inShadow);
  return {
    ...before,
    found: before.found.map((one) => (one.id === owner.id ? struck(one, hit, inShadow) : one)),
    newest: inShadow ? before.newest : owner.id,
    last: inShadow ? before.last : hit,
  };
}

/** The surfaces for a rig: those that were struck, without trims. */
export function surfacesFound({ found }: SurfacesState): readonly Surface[] {
  return found
    .map((one) => ({ ...one, notes: one.notes.filter(({ alone }) => alone > 0) }))
    .filter(({ notes }) => notes.length > 0)
    .map(({ id, name, port, channel, notes, hand, foot }) => ({
      id,
      name,
      port,
      channel,
      notes: notes.map(({ note }) => note),
      hand,
      trimDb: 0,
      ...(foot === null ? {} : { foot }),
    }));
}

const sameKey = (a: RawHit, b: RawHit): boolean =>
  a.port === b.port && a.channel === b.channel && a.note === b.note;

const sameSocket = (one: Pick<FoundSurface, 'port' | 'channel'>, other: typeof one): boolean =>
  one.port === other.port && one.channel === other.channel;

const ownerOf = (found: readonly FoundSurface[], hit: RawHit): FoundSurface | undefined =>
  found.find((one) => sameSocket(one, hit) && one.notes.some(({ note }) => note === hit.note));

/** By the map's name for any of its notes, so that a surface that was renamed stays what it is. */
const isOneThing = ({ notes }: FoundSurface, note: number): boolean =>
  notes.some((one) => suggestedFor(one.note).name === suggestedFor(note).name);

function struck(surface: FoundSurface, hit: RawHit, inShadow: boolean): FoundSurface {
  const known = surface.notes.find(({ note }) => note === hit.note);
  const now: FoundNote = {
    note: hit.note,
    strikes: (known?.strikes ?? 0) + 1,
    alone: (known?.alone ?? 0) + (inShadow ? 0 : 1),
    loudest: Math.max(known?.loudest ?? 0, hit.velocity),
  };
  const notes =
    known === undefined ? [...surface.notes, now] : surface.notes.map((one) => (one === known ? now : one));
  return { ...surface, notes };
}

/** The state once a strike turns out to have been the shadow of a louder one. */
function shadowed(state: SurfacesState, hit: RawHit): SurfacesState {
  const owner = ownerOf(state.found, hit);
  const found = state.found.map((one) =>
    one !== owner
      ? one
      : {
          ...one,
          notes: one.notes.map((note) =>
            note.note === hit.note ? { ...note, alone: Math.max(0, note.alone - 1) } : note,
          ),
        },
  );
  return { ...state, found };
}

function withNew(state: SurfacesState, hit: RawHit, inShadow: boolean): SurfacesState {
  const { name, foot } = suggestedFor(hit.note);
  const id = `surface-${state.made + 1}`;
  const empty: FoundSurface = {
    id,
    name: freeName(state.found, name),
    port: hit.port,
    channel: hit.channel,
    notes: [],
    hand: null,
    foot,
  };
  return {
    found: [...state.found, struck(empty, hit, inShadow)],
    newest: inShadow ? state.newest : id,
    last: inShadow ? state.last : hit,
    made: state.made + 1,
  };
}

/** `Snare`, and `Snare 2`, `Snare 3` where others of that name are there. */
export function freeName(found: readonly { readonly name: string }[], name: string): string {
  const taken = new Set(found.map((one) => one.name));
  let free = name;
  for (let count = 2; taken.has(free); count += 1) free = `${name} ${count}`;
  return free;
}

/** The surface of an id. @throws InputError where there is none */
export function foundById({ found }: SurfacesState, id: string): FoundSurface {
  const one = found.find((surface) => surface.id === id);
  if (one === undefined) throw new InputError('surface', 'must be the id of a surface', id);
  return one;
}
