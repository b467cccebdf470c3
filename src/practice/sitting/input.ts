import { rigFromStrikes } from '../../midi/rig';
import type { MidiStatus } from '../../midi/types';
import type { Rig } from '../../sessions/types';
import type { RawHit } from '../../stroke';
import type { Strikes } from '../types';
import { bundledNameOf, firstPort, takeAsInput } from './bundled-input';
import { withTakeOf } from './phrase';
import type { InputSaid, Sitting } from './state';

/** Two strikes closer than this are one hand's bounce, not the other hand. */
const STRIKE_REST_MS = 150;
export const noStrikes: Strikes = { first: null, second: null, firstHand: 'R' };

/** The sitting after something was said of ports or strikes. */
export function inputHeard(sitting: Sitting, said: InputSaid): Sitting {
  switch (said.kind) {
    case 'midi':
      return withMidi(sitting, said.status);
    case 'input':
      return withInput(sitting, said.input);
    case 'output':
      return { ...sitting, output: said.output };
    case 'struck':
      return withStrike(sitting, said.hit);
    case 'strike anew':
      return { ...sitting, strikes: noStrikes, rig: null };
    case 'rig':
      return { ...sitting, rig: said.rig };
  }
}

/** What the chosen input is played on: a bundled take's own rig, or the one struck. Null: strike first. */
export function rigInUse(sitting: Pick<Sitting, 'bundled' | 'input' | 'rig'>): Rig | null {
  const take = takeAsInput(sitting);
  if (take !== undefined) return take.rig;
  const { rig, input } = sitting;
  return rig?.surfaces.some((surface) => surface.port === input) === true ? rig : null;
}

/** The strikes as Play asks for them: none for a bundled take, the kept rig's where it was struck another day. */
export function strikesAsked(
  sitting: Pick<Sitting, 'bundled' | 'input' | 'rig' | 'strikes'>,
): Strikes | null {
  if (takeAsInput(sitting) !== undefined) return null;
  const rig = rigInUse(sitting);
  if (rig === null || sitting.strikes.second !== null) return sitting.strikes;
  const strikes = rig.surfaces.map((surface): RawHit => ({
    ...surface,
    atMs: 0,
    note: surface.notes[0],
    velocity: 64,
  }));
  return { first: strikes[0], second: strikes[strikes.length - 1], firstHand: rig.surfaces[0].hand ?? 'R' };
}

function withMidi(sitting: Sitting, midi: MidiStatus): Sitting {
  const input = sitting.input === '' ? firstPort(midi) : sitting.input;
  return {
    ...sitting,
    midi,
    input,
    message: sitting.running === null ? sitting.message : portWords(midi, input),
  };
}

/** What a player must know of the port while playing; empty where all is well. */
function portWords(midi: MidiStatus, input: string): string {
  if (bundledNameOf(input) !== undefined) return '';
  const there = midi.kind === 'on' && midi.inputs.some(({ name, connected }) => name === input && connected);
  return there ? '' : `${input} is not connected. The take goes on; strokes count again when it is back.`;
}

function withInput(sitting: Sitting, input: string): Sitting {
  const chosen = { ...sitting, input, live: null, problem: '' };
  const take = takeAsInput(chosen);
  return take === undefined ? chosen : withTakeOf(chosen, take);
}

/** Strikes count on Play, before a take, from the chosen port. */
function withStrike(sitting: Sitting, hit: RawHit): Sitting {
  const { strikes } = sitting;
  const asked = sitting.screen === 'play' && sitting.running === null && rigInUse(sitting) === null;
  if (!asked || hit.port !== sitting.input) return sitting;
  if (strikes.first === null) return { ...sitting, strikes: { ...strikes, first: hit } };
  if (hit.atMs - strikes.first.atMs < STRIKE_REST_MS) return sitting;
  const both = { ...strikes, second: hit };
  return { ...sitting, strikes: both, rig: rigFromStrikes(both) ?? null };
}
