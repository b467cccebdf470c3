import { rigFromStrikes } from '../../midi/rig';
import type { MidiStatus } from '../../midi/types';
import type { Rig } from '../../sessions/types';
import type { RawHit } from '../../stroke';
import type { Reducers } from './reducers';
import type { State } from '../state';
import { NO_CLICK } from '../outputs';
import { bundledNameOf } from '../takes';
import { firstPort, nothingPlayed, withTakeOf } from './chosen';
import { nextStruck, noStrikes } from '../struck-hands';
import { portsOf, rigInUse, takeAsInput } from '../selectors/input';
import { tappedAt } from './plan';
import { withPortsChecked, withPortsSeen, withPortStruck } from '../rig/same-named';

/** Where strokes come from and where the click goes. */
export const inputReducers = {
  sound: (state, { now }) => ({ ...state, sound: now }),
  midi: (state, { status }) => withPortsChecked(withMidi(state, status)),
  input: (state, { input }) => withInput(state, input),
  output: (state, { output }) => ({
    ...state,
    output,
    // A climb sets the tempo, and needs a click for it.
    climb: output === NO_CLICK ? null : state.climb,
  }),
  struck: (state, { hit }) => {
    if (state.tapOnPad && state.running === null && hit.port === state.input)
      return tappedAt(state, hit.atMs);
    return state.rigging.uncertain.length > 0 ? withPortStruck(state, hit) : withStrike(state, hit);
  },
  'clear strikes': (state) => ({ ...state, strikes: noStrikes, rig: null }),
} satisfies Reducers;

function withMidi(state: State, midi: MidiStatus): State {
  const now = { ...state, midi };
  const input = state.input === '' ? inputFor(state.rig, now) || firstPort(midi) : state.input;
  return {
    ...state,
    midi,
    input,
    message: state.running === null ? state.message : portWords({ ...now, input }),
  };
}

/** A port of the rig that is there, where the input chosen is none of the rig's. */
export function inputFor(rig: Rig | null, { midi, input }: Pick<State, 'midi' | 'input'>): string {
  const isTake = bundledNameOf(input) !== undefined;
  if (rig === null || midi.kind !== 'on' || isTake || rig.surfaces.some(({ port }) => port === input))
    return input;
  const there = new Set(midi.inputs.flatMap(({ name, connected }) => (connected ? [name] : [])));
  return rig.surfaces.find(({ port }) => there.has(port))?.port ?? input;
}

/** What a player must know of the ports while playing; empty where all is well. */
function portWords(state: State): string {
  const { midi, input } = state;
  if (bundledNameOf(input) !== undefined) return '';
  const there = midi.kind === 'on' ? midi.inputs.filter(({ connected }) => connected) : [];
  const gone = [...new Set([input, ...portsOf(rigInUse(state))])].filter(
    (port) => !there.some(({ name }) => name === port) && !state.rigging.ignoredPorts.includes(port),
  );
  if (gone.length === 0) return '';
  const verb = gone.length === 1 ? 'is' : 'are';
  const back = gone.length === 1 ? 'it is' : 'they are';
  return `${gone.join(' and ')} ${verb} not connected. The take goes on; strokes count again when ${back} back.`;
}

/** A bundled take that was not fetched yet is no input so far. */
function withInput(state: State, input: string): State {
  if (bundledNameOf(input) !== undefined && takeAsInput({ ...state, input }) === undefined) return state;
  const chosen = { ...state, input, ...nothingPlayed, problem: '' };
  const take = takeAsInput(chosen);
  return take === undefined ? chosen : withTakeOf(chosen, take);
}

/** Strikes count on Play, before a take, from the chosen port. */
function withStrike(state: State, hit: RawHit): State {
  const asked = state.screen === 'play' && state.running === null && rigInUse(state) === null;
  if (!asked || hit.port !== state.input) return state;
  const strikes = nextStruck(state.strikes, hit);
  if (strikes === state.strikes) return state;
  const rig = rigFromStrikes(strikes);
  return rig === undefined
    ? { ...state, strikes }
    : withPortsSeen({ ...state, rig: null }, { ...state, strikes, rig });
}
