import { surfacesFound, type FoundSurface, type SurfacesState } from '../../midi/learning/surfaces';
import type { NamedRig } from '../../sessions/rig-file';
import type { Rig, Surface } from '../../sessions/types';

/** The surfaces of a rig as if they had been struck just now, so that more can be found, and these be changed. */
export function foundOf(rig: Rig | null): SurfacesState {
  const found = (rig?.surfaces ?? []).map((surface): FoundSurface => {
    const { id, name, port, channel, notes, hand, foot } = surface;
    return {
      id,
      name,
      port,
      channel,
      notes: notes.map((note) => ({ note, strikes: 0, alone: KNOWN, loudest: 0 })),
      hand,
      foot: foot ?? null,
    };
  });
  const numbers = found.map(({ id }) => Number(/^surface-(\d+)$/.exec(id)?.[1] ?? 0));
  return { found, newest: null, last: null, made: Math.max(0, ...numbers) };
}

/** A note that is known stays known, however often it sounds in the shadow of another. */
const KNOWN = 1_000_000;

/**
 * The rig with the surfaces that were found, in place of those it had. What one of the same id has learned stays; what names
 * a surface that is gone goes. Null where none is left.
 * @param named id and name of a rig that is new
 */
export function rigWithFound(
  rig: Rig | null,
  state: SurfacesState,
  named: { readonly id: string; readonly name: string },
): NamedRig | null {
  const surfaces = surfacesFound(state).map((one) => withLearned(one, rig));
  if (surfaces.length === 0) return null;
  const { id, name, crosstalk, start, ...rest } = rig ?? empty;
  const there = new Set(surfaces.map((one) => one.id));
  const pairs = crosstalk?.filter(({ from, to }) => there.has(from) && there.has(to)) ?? [];
  return {
    ...rest,
    surfaces,
    id: id ?? named.id,
    name: name ?? named.name,
    ...(pairs.length === 0 ? {} : { crosstalk: pairs }),
    ...(start !== undefined && there.has(start.surface) ? { start } : {}),
  };
}

const empty: Rig = { levelLaw: 'gm2', inputDelayMs: 0, outputDelayMs: 0, surfaces: [] };

function withLearned(found: Surface, rig: Rig | null): Surface {
  const before = rig?.surfaces.find(({ id }) => id === found.id);
  if (before === undefined) return found;
  const learned = without(before, 'foot');
  const { name, port, channel, notes, hand, foot } = found;
  return { ...learned, name, port, channel, notes, hand, ...(foot === undefined ? {} : { foot }) };
}

/** The same without one of its optional keys: a file that has none must not have one that is undefined. */
export function without<T extends object, Key extends keyof T & string>(from: T, key: Key): Omit<T, Key> {
  return Object.fromEntries(Object.entries(from).filter(([name]) => name !== key)) as Omit<T, Key>;
}
