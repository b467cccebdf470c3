import { InputError } from '../../errors';
import { delaysAsked } from '../../midi/learning/delays';
import { editedSurfaces } from '../../midi/learning/edit-surfaces';
import type { Action, KeptRigs } from '../actions';
import type { Reducers } from './reducers';
import type { State } from '../state';
import { accepted, withOutputDelay } from '../rig/delays-applied';
import { askedOnceMore } from '../rig/progress';
import { atHit } from '../rig/strikes';
import { atTick } from '../rig/pauses';
import { beginning, skipping } from '../rig/steps';
import { inputFor } from './input';
import { keptRigs, newRig, rigAdded, rigChosen, rigDeleted, rigNamed } from '../rig/rigs';
import {
  surfacesNow,
  withActivity,
  withClumped,
  withRigging,
  withStart,
  withSurfaces,
  withTask,
} from '../rig/changes';
import { withPortsChecked, withPortsSeen } from '../rig/same-named';

/** Whatever is learned is in the rig at once, so that a step can be left, skipped or done again at any time. */
const learning = {
  struck: (state, { hit, newId }) => atHit(withActivity(state, hit), hit, newId),
  'rig time': (state, { atMs }) => atTick(state, atMs),
  'begin step': (state, { task, surface }) => beginning(state, task, surface),
  'step again': (state) => withTask(state, askedOnceMore(state.rigging.task)),
  'skip step': (state) => skipping(state),
  'leave steps': (state) => withTask(state, { kind: 'rest' }),
  'edit surfaces': (state, { edit }) => withSurfaces(state, editedSurfaces(surfacesNow(state), edit), ''),
  'start surface': (state, { surface }) => ({ ...state, rig: withStart(state.rig, surface) }),
  'clicks begun': (state, { clicksMs, output }) =>
    withTask(state, { kind: 'delays', state: delaysAsked(clicksMs), output }),
  'accept delays': (state) => accepted(state),
  'output delay': (state, { ms }) => withOutputDelay(state, ms),
  'hear port': (state, { port, counts }) => {
    const others = state.rigging.ignoredPorts.filter((name) => name !== port);
    return withRigging(state, { ignoredPorts: counts ? others : [...others, port] });
  },
  'ports clumped': (state, { ports }) =>
    state.rig === null ? state : { ...state, rig: withClumped(state.rig, ports) },
  monitored: (state, { monitor }) => withRigging(state, { monitor }),
  'new rig': (state) => newRig(state),
  'choose rig': (state, { id }) => rigChosen(state, id),
  'rig added': (state, { rig }) => ({ ...rigAdded(state, rig), screen: 'rig' }),
  'name rig': (state, { name, newId }) => rigNamed(state, name, newId),
  'rig deleted': (state, { id }) => rigDeleted(state, id),
} satisfies Reducers;

/** The rig: learned from strikes, chosen and named. */
export const rigReducers = {
  ...inTheirTurn(learning),
  'rigs opened': (state, { kept }) => {
    const waiting = state.rigging.waiting ?? [];
    const opened = withRigging(kept === undefined ? state : withKept(state, kept), { waiting: null });
    return waiting.reduce(learnedOrRefused, opened);
  },
} satisfies Reducers;

/** Before the library is open all waits for it, so that it comes on top of what is kept there. */
function inTheirTurn<Area extends Reducers>(area: Area): Area {
  const step = (state: State, action: Action): State => {
    // Elsewhere a strike teaches nothing.
    if (action.kind === 'struck' && state.screen !== 'rig') return state;
    const { waiting } = state.rigging;
    return waiting === null ? learned(state, action) : withRigging(state, { waiting: [...waiting, action] });
  };
  return Object.fromEntries(Object.keys(area).map((kind) => [kind, step])) as Area;
}

/** One bad action keeps none of the others back. */
function learnedOrRefused(state: State, action: Action): State {
  try {
    return learned(state, action);
  } catch (error) {
    if (error instanceof InputError) return { ...state, problem: error.message };
    throw error;
  }
}

/** A rig that is changed is kept under its name, its new ports are the ones just struck, and one of its ports is the input. */
function learned(before: State, action: Action): State {
  const step = (learning as Reducers)[action.kind] as (state: State, action: Action) => State;
  const now = step(before, action);
  if (now.rig === before.rig) return now;
  const kept = withRigging(now, { rigs: keptRigs(now.rigging.rigs, now.rig) });
  const seen = withPortsChecked(action.kind === 'struck' ? withPortsSeen(before, kept) : kept);
  return { ...seen, input: inputFor(seen.rig, seen) };
}

function withKept(state: State, { rigs, ignoredPorts, portIds, rig }: KeptRigs): State {
  const kept = withRigging(state, { rigs, ignoredPorts, portIds });
  return rig === undefined ? kept : withPortsChecked({ ...kept, rig, input: inputFor(rig, kept) });
}
