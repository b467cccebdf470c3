import { InputError } from '../../errors';
import type { Hand } from '../../stroke';
import { suggestedFor } from './gm-percussion';
import { foundById, freeName, type FoundSurface, type SurfacesState } from './surfaces';

/** What a player may change about surfaces that were found. */
export type SurfaceEdit =
  | { readonly kind: 'rename'; readonly id: string; readonly name: string }
  | { readonly kind: 'hand'; readonly id: string; readonly hand: Hand | null }
  | { readonly kind: 'foot'; readonly id: string; readonly foot: 'K' | 'H' | null }
  /** `other` becomes part of `id`. */
  | { readonly kind: 'merge'; readonly id: string; readonly other: string }
  /** These notes of `id` become a surface of their own. */
  | { readonly kind: 'split'; readonly id: string; readonly notes: readonly number[] }
  | { readonly kind: 'remove'; readonly id: string };

/**
 * The surfaces after a change.
 * @throws InputError for an id there isn't, an empty name, surfaces of two ports or channels to be one, a split that
 *   takes nothing or all
 */
export function editedSurfaces(state: SurfacesState, edit: SurfaceEdit): SurfacesState {
  const one = foundById(state, edit.id);
  switch (edit.kind) {
    case 'rename':
      if (edit.name.trim() === '') throw new InputError('name', 'must not be empty', edit.name);
      return replaced(state, { ...one, name: edit.name.trim() });
    case 'hand':
      return replaced(state, { ...one, hand: edit.hand, foot: edit.hand === null ? one.foot : null });
    case 'foot':
      return replaced(state, { ...one, foot: edit.foot, hand: edit.foot === null ? one.hand : null });
    case 'merge':
      return merged(state, one, foundById(state, edit.other));
    case 'split':
      return split(state, one, edit.notes);
    case 'remove':
      return without(state, one.id);
  }
}

function replaced(state: SurfacesState, now: FoundSurface): SurfacesState {
  return { ...state, found: state.found.map((one) => (one.id === now.id ? now : one)) };
}

function without(state: SurfacesState, id: string): SurfacesState {
  return {
    ...state,
    found: state.found.filter((one) => one.id !== id),
    newest: state.newest === id ? null : state.newest,
  };
}

function merged(state: SurfacesState, one: FoundSurface, other: FoundSurface): SurfacesState {
  if (one.id === other.id) throw new InputError('other', 'must be another surface', other.name);
  if (one.port !== other.port || one.channel !== other.channel) {
    throw new InputError(
      'other',
      'must be on the same port and channel to be one surface',
      `${other.name}: ${other.port}, channel ${other.channel}`,
    );
  }
  return replaced(without(state, other.id), { ...one, notes: [...one.notes, ...other.notes] });
}

function split(state: SurfacesState, one: FoundSurface, notes: readonly number[]): SurfacesState {
  const gone = one.notes.filter(({ note }) => notes.includes(note));
  const left = one.notes.filter(({ note }) => !notes.includes(note));
  if (gone.length === 0 || left.length === 0) {
    throw new InputError('notes', 'must be some of the surface’s notes and not all', notes);
  }
  const name = gone[0].note === SIDE_STICK ? `${one.name} rim` : suggestedFor(gone[0].note).name;
  const apart: FoundSurface = {
    ...one,
    id: `surface-${state.made + 1}`,
    name: freeName(state.found, name),
    notes: gone,
    foot: suggestedFor(gone[0].note).foot,
  };
  const kept = replaced(state, { ...one, notes: left });
  return { ...kept, found: [...kept.found, apart], made: state.made + 1 };
}

/** Struck across the rim; pads send it, or a note like it, from there. */
const SIDE_STICK = 37;
