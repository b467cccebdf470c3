import { rigFromStrikes } from '../midi/rig';
import type { MidiStatus } from '../midi/types';
import type { Rig } from '../sessions/types';
import type { RawHit } from '../stroke';
import { riggingHeard } from './rig';
import { withPortsChecked, withPortsSeen, withPortStruck } from './rig/same-named';
import { nextStruck, noStrikes } from './struck-hands';
import type { Strikes } from '../take/types';
import { bundledNameOf, firstPort, takeAsInput } from './bundled-input';
import { nothingPlayed, withTakeOf } from './phrase';
import { NO_CLICK } from './plan-state';
import type { InputSaid, Sitting } from './state';

/** The sitting after something was said of ports or strikes. */
export function inputHeard(sitting: Sitting, said: InputSaid): Sitting {
  switch (said.kind) {
    case 'midi':
      return withPortsChecked(withMidi(sitting, said.status));
    case 'input':
      return withInput(sitting, said.input);
    case 'output':
      // A climb sets the tempo, and needs a click for it.
      return { ...sitting, output: said.output, climb: said.output === NO_CLICK ? null : sitting.climb };
    case 'struck':
      return sitting.rigging.uncertain.length > 0
        ? withPortStruck(sitting, said.hit)
        : withStrike(sitting, said.hit);
    case 'strike anew':
      return { ...sitting, strikes: noStrikes, rig: null };
    case 'rig':
      return withPortsChecked({ ...sitting, rig: said.rig, input: inputFor(said.rig, sitting) });
    case 'rigging': {
      const now = riggingHeard(sitting, said.event);
      return now.rig === sitting.rig ? now : { ...now, input: inputFor(now.rig, now) };
    }
  }
}

/** What the chosen input is played on: a bundled take's own rig, or the one struck. Null: strike first. */
export function rigInUse(sitting: Pick<Sitting, 'bundled' | 'input' | 'rig'>): Rig | null {
  const take = takeAsInput(sitting);
  if (take !== undefined) return take.rig;
  const { rig, input } = sitting;
  return rig?.surfaces.some((surface) => surface.port === input) === true ? rig : null;
}

/** The strikes as Play asks for them: none for a bundled take or a rig with a name, the kept rig's where it was struck another day. */
export function strikesAsked(
  sitting: Pick<Sitting, 'bundled' | 'input' | 'rig' | 'strikes'>,
): Strikes | null {
  if (takeAsInput(sitting) !== undefined) return null;
  const rig = rigInUse(sitting);
  if (rig?.id !== undefined) return null;
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
  const now = { ...sitting, midi };
  const input = sitting.input === '' ? inputFor(sitting.rig, now) || firstPort(midi) : sitting.input;
  return {
    ...sitting,
    midi,
    input,
    message: sitting.running === null ? sitting.message : portWords({ ...now, input }),
  };
}

/** A port of the rig that is there, where the input chosen is none of the rig's. */
function inputFor(rig: Rig | null, { midi, input }: Pick<Sitting, 'midi' | 'input'>): string {
  const isTake = bundledNameOf(input) !== undefined;
  if (rig === null || midi.kind !== 'on' || isTake || rig.surfaces.some(({ port }) => port === input))
    return input;
  const there = new Set(midi.inputs.flatMap(({ name, connected }) => (connected ? [name] : [])));
  return rig.surfaces.find(({ port }) => there.has(port))?.port ?? input;
}

/** The ports whose strokes count: those of the rig and the chosen input, less those turned off on Rig. */
export function portsCounted(
  sitting: Pick<Sitting, 'bundled' | 'input' | 'rig' | 'rigging'>,
): readonly string[] {
  const ports = new Set([sitting.input, ...portsOf(rigInUse(sitting))]);
  return [...ports].filter((port) => port !== '' && !sitting.rigging.unheard.includes(port));
}

const portsOf = (rig: Rig | null): readonly string[] => rig?.surfaces.map(({ port }) => port) ?? [];

/** What a player must know of the ports while playing; empty where all is well. */
function portWords(sitting: Sitting): string {
  const { midi, input } = sitting;
  if (bundledNameOf(input) !== undefined) return '';
  const there = midi.kind === 'on' ? midi.inputs.filter(({ connected }) => connected) : [];
  const gone = [...new Set([input, ...portsOf(rigInUse(sitting))])].filter(
    (port) => !there.some(({ name }) => name === port) && !sitting.rigging.unheard.includes(port),
  );
  if (gone.length === 0) return '';
  const verb = gone.length === 1 ? 'is' : 'are';
  const back = gone.length === 1 ? 'it is' : 'they are';
  return `${gone.join(' and ')} ${verb} not connected. The take goes on; strokes count again when ${back} back.`;
}

function withInput(sitting: Sitting, input: string): Sitting {
  const chosen = { ...sitting, input, ...nothingPlayed, problem: '' };
  const take = takeAsInput(chosen);
  return take === undefined ? chosen : withTakeOf(chosen, take);
}

/** Strikes count on Play, before a take, from the chosen port. */
function withStrike(sitting: Sitting, hit: RawHit): Sitting {
  const asked = sitting.screen === 'play' && sitting.running === null && rigInUse(sitting) === null;
  if (!asked || hit.port !== sitting.input) return sitting;
  const strikes = nextStruck(sitting.strikes, hit);
  if (strikes === sitting.strikes) return sitting;
  const rig = rigFromStrikes(strikes);
  return rig === undefined
    ? { ...sitting, strikes }
    : withPortsSeen({ ...sitting, rig: null }, { ...sitting, strikes, rig });
}
