import type { MidiStatus } from '../midi/types';
import type { Take } from '../sessions/types';
import type { Sitting } from './state';

const TAKE_INPUT = 'take:';
export const inputOfTake = (name: string): string => `${TAKE_INPUT}${name}`;
/** Name of the bundled take that an input is, undefined for a MIDI port. */
export const bundledNameOf = (input: string): string | undefined =>
  input.startsWith(TAKE_INPUT) ? input.slice(TAKE_INPUT.length) : undefined;

/** The bundled take that is chosen as the input, or undefined where a MIDI port is, or nothing. */
export function takeAsInput(sitting: Pick<Sitting, 'bundled' | 'input'>): Take | undefined {
  return sitting.bundled.find(({ name }) => inputOfTake(name) === sitting.input)?.take ?? undefined;
}

/** A phrase or tempo of one's own is not what a bundled take plays: the input goes back to the kit. */
export function ownInput(sitting: Sitting): Sitting {
  return takeAsInput(sitting) === undefined ? sitting : { ...sitting, input: firstPort(sitting.midi) };
}

/** Name of the first port that is connected; empty where none is. */
export function firstPort(midi: MidiStatus): string {
  return midi.kind === 'on' ? (midi.inputs.find((port) => port.connected)?.name ?? '') : '';
}
