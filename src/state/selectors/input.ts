import type { Rig, Take } from '../../sessions/types';
import type { RawHit } from '../../stroke';
import type { Strikes } from '../../take/types';
import type { State } from '../state';
import { inputOfTake } from '../takes';

/** The bundled take that is chosen as the input, or undefined where a MIDI port is, or nothing. */
export function takeAsInput(state: Pick<State, 'bundled' | 'input'>): Take | undefined {
  return state.bundled.find(({ name }) => inputOfTake(name) === state.input)?.take ?? undefined;
}

/** What the chosen input is played on: a bundled take's own rig, or the one struck. Null: strike first. */
export function rigInUse(state: Pick<State, 'bundled' | 'input' | 'rig'>): Rig | null {
  const take = takeAsInput(state);
  if (take !== undefined) return take.rig;
  const { rig, input } = state;
  return rig?.surfaces.some((surface) => surface.port === input) === true ? rig : null;
}

/** The strikes as Play asks for them: none for a bundled take or a rig with a name, the kept rig's where it was struck another day. */
export function strikesAsked(state: Pick<State, 'bundled' | 'input' | 'rig' | 'strikes'>): Strikes | null {
  if (takeAsInput(state) !== undefined) return null;
  const rig = rigInUse(state);
  if (rig?.id !== undefined) return null;
  if (rig === null || state.strikes.second !== null) return state.strikes;
  const strikes = rig.surfaces.map((surface): RawHit => ({
    ...surface,
    atMs: 0,
    note: surface.notes[0],
    velocity: 64,
  }));
  return { first: strikes[0], second: strikes[strikes.length - 1], firstHand: rig.surfaces[0].hand ?? 'R' };
}

/** The ports whose strokes count: those of the rig and the chosen input, less those turned off on Rig. */
export function portsCounted(state: Pick<State, 'bundled' | 'input' | 'rig' | 'rigging'>): readonly string[] {
  const ports = new Set([state.input, ...portsOf(rigInUse(state))]);
  return [...ports].filter((port) => port !== '' && !state.rigging.ignoredPorts.includes(port));
}

/** Ports of a rig; one that two surfaces share is named twice. */
export const portsOf = (rig: Rig | null): readonly string[] => rig?.surfaces.map(({ port }) => port) ?? [];
