import type { ActionKind, ActionNamed } from '../actions';
import type { State } from '../state';

/** The steps of an area, by the action each is for. An action may move several areas. */
export type Reducers = {
  readonly [Kind in ActionKind]?: (state: State, action: ActionNamed[Kind]) => State;
};
