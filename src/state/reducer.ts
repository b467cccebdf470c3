import { InputError } from '../errors';
import type { Action, ActionKind } from './actions';
import type { State } from './state';
import { historyReducers } from './reducers/history';
import { inputReducers } from './reducers/input';
import { libraryReducers } from './reducers/library';
import { noteReducers } from './reducers/note';
import { pageReducers } from './reducers/page';
import { phraseReducers } from './reducers/phrase';
import { planReducers } from './reducers/plan';
import type { Reducers } from './reducers/reducers';
import { reviewReducers } from './reducers/review';
import { rigReducers } from './reducers/rig';
import { runReducers } from './reducers/run';
import { sheetReducers } from './reducers/sheet';
import { takesReducers } from './reducers/takes';
import { todayReducers } from './reducers/today';
import { unkeptReducers } from './reducers/unkept';
import { writtenReducers } from './reducers/written';

/** In the order in which an action passes them. */
export const areas = [
  pageReducers,
  phraseReducers,
  rigReducers,
  inputReducers,
  planReducers,
  runReducers,
  takesReducers,
  unkeptReducers,
  reviewReducers,
  noteReducers,
  libraryReducers,
  sheetReducers,
  todayReducers,
  historyReducers,
  writtenReducers,
] as const;

/** The actions that move the state. */
export type ReducedKind = KeysOf<(typeof areas)[number]>;
type KeysOf<Area> = Area extends unknown ? keyof Area : never;

/** The state after an action, and the one place where it changes. Bad input becomes the problem line and changes nothing else. */
export function reduce(state: State, action: Action): State {
  try {
    return areas.reduce((now, area) => stepOf(area, action.kind)?.(now, action) ?? now, state);
  } catch (error) {
    if (error instanceof InputError) return { ...state, problem: error.message };
    throw error;
  }
}

/** What an area does with an action: a step that stands under a name is for the action of that name. */
function stepOf(area: Reducers, kind: ActionKind): ((state: State, action: Action) => State) | undefined {
  return area[kind] as ((state: State, action: Action) => State) | undefined;
}
