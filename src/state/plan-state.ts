import type { ClickPlan } from '../exercises/click-plan';
import type { Take } from '../sessions/types';
import type { Ms } from '../units';
import type { ClimbSaid, Climbing } from './climb';
import type { PlayingPlan } from './playing-plan';

/** Output of a click that is seen and not heard. */
export const SEEN_CLICK = 'seen';
/** Output where no click is wanted at all: the player carries the time alone. */
export const NO_CLICK = 'none';

/** The MIDI output a click goes to; null where it is the computer's, only seen, or none. */
export const kitOutputOf = (output: string): string | null =>
  output === '' || output === SEEN_CLICK || output === NO_CLICK ? null : output;

/** The take that was just played: kept, or thrown away and still to be put back. */
export interface LastTake {
  readonly take: Take;
  readonly sentence: string;
  readonly kept: boolean;
}

/** How takes are played. */
export interface PlanPart {
  readonly plan: PlayingPlan;
  /** Taps of the tempo that count so far. */
  readonly taps: readonly Ms[];
  /** True while strikes on the pad are taps of the tempo. */
  readonly tapOnPad: boolean;
  readonly last: LastTake | null;
  /** The climb that is on; null where none is. */
  readonly climb: Climbing | null;
  /** A quiet line to rest; empty while none is due. */
  readonly rest: string;
}

/** What may be said of how takes are played. */
export type PlanSaid =
  | { readonly kind: 'plan'; readonly change: Partial<PlayingPlan> }
  | { readonly kind: 'click'; readonly change: Partial<ClickPlan> }
  | { readonly kind: 'kept plan'; readonly kept: unknown }
  | { readonly kind: 'tap'; readonly atMs: Ms }
  | { readonly kind: 'tap on pad'; readonly on: boolean }
  | { readonly kind: 'climb'; readonly said: ClimbSaid }
  | { readonly kind: 'last'; readonly last: LastTake | null }
  | { readonly kind: 'rest'; readonly words: string };
