import type { Action, ActionKind, ActionNamed } from './actions';
import type { State } from './state';
import { reduce, type ReducedKind } from './reducer';

/** What an area sets off in the world. */
export interface Effects {
  /** By the action that sets it off; the state has moved by then. */
  readonly on?: { readonly [Kind in ActionKind]?: (action: ActionNamed[Kind]) => void };
  /** Called when the state has moved, whatever moved it: for what follows the state, and not an action. */
  readonly changed?: (state: State) => void;
}

/** The state of a page, and the way every action takes: first the reducer, then whoever follows the state, then the effects. */
export interface Dispatcher {
  readonly state: () => State;
  readonly dispatch: (action: Action) => void;
  /** Whoever is to be told from now on, in this order. */
  readonly listen: (effects: readonly Effects[]) => void;
}

export function dispatcher(first: State): Dispatcher {
  let state = first;
  let listening: readonly Effects[] = [];
  return {
    state: () => state,
    dispatch(action) {
      const before = state;
      state = reduce(state, action);
      if (state !== before) for (const { changed } of listening) changed?.(state);
      for (const { on } of listening) effectOf(on, action.kind)?.(action);
    },
    listen(effects) {
      listening = effects;
    },
  };
}

function effectOf(on: Effects['on'], kind: ActionKind): ((action: Action) => void) | undefined {
  return on?.[kind] as ((action: Action) => void) | undefined;
}

type EffectKind<All extends readonly Effects[]> = All[number] extends infer One
  ? One extends { readonly on: infer On }
    ? keyof On
    : never
  : never;
type Unhandled<All extends readonly Effects[]> = Exclude<ActionKind, ReducedKind | EffectKind<All>>;

/** All effects of a page. Does not compile where an action is handled by no reducer and no effect: the error names it. */
export function handlingAll<const All extends readonly Effects[]>(
  effects: All & Readonly<Record<Unhandled<All>, never>>,
): All {
  return effects;
}
