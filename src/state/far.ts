import type { GridBar, Slot } from '../exercises/types';
import type { HeightLines } from '../grading/evidence/heights';
import type { Limits } from '../settings';
import type { Ms } from '../units';
import type { FigureChoice } from './view';
import type { LiveExtra, LivePass, LiveTime } from '../take/types';
import type { FigureName, FigureNow } from '../take/live/figures';

/** What changes seldom: the phrase that is played, and what its picture needs. One cycle. */
export interface FarScene {
  readonly title: string;
  readonly bars: readonly GridBar[];
  readonly slots: readonly Slot[];
  readonly cycles: number;
  readonly limits: Limits;
  readonly heights: HeightLines | null;
}

/** What changes with strokes and beats: the bar that is on, and no more of it than is drawn. */
export interface FarFrame {
  /** Number of the scene it belongs to. */
  readonly scene: number;
  readonly running: boolean;
  readonly barInCycle: number;
  readonly cycle: number;
  readonly beat: number | null;
  /** Count-in beats: the number is then the count. */
  readonly counting: boolean;
  /** Only without a click: the time the player keeps. */
  readonly freeTime?: LiveTime;
  /** By slot of the bar, newest last. */
  readonly passes: readonly (readonly LivePass[])[];
  readonly extras: readonly LiveExtra[];
  readonly name: FigureName;
  readonly choice: FigureChoice;
  readonly figure: FigureNow | null;
  /** Bars that were marked in this take. */
  readonly marks: number;
}

/** From the player's window to the far view. `from` tells windows apart. */
export type ToFar =
  | { readonly kind: 'scene'; readonly from: string; readonly scene: number; readonly of: FarScene }
  | { readonly kind: 'frame'; readonly from: string; readonly frame: FarFrame };

/** From the far view to the player's window. `here` says once a second that somebody looks, and asks for what is missing. */
export type ToPlayer =
  | { readonly kind: 'here'; readonly scene: number | null }
  | { readonly kind: 'mark'; readonly to: string; readonly cycle: number; readonly barInCycle: number }
  | { readonly kind: 'figure'; readonly to: string; readonly figure: FigureChoice };

export interface FarState {
  readonly from: string | null;
  readonly scene: { readonly number: number; readonly of: FarScene } | null;
  readonly frame: FarFrame | null;
  /** When anything was last heard of the window, and what time it is. */
  readonly receivedMs: Ms | null;
  readonly nowMs: Ms;
}

export type FarNews =
  | { readonly kind: 'message'; readonly atMs: Ms; readonly message: ToFar }
  | { readonly kind: 'tick'; readonly atMs: Ms };

export const noFarState: FarState = { from: null, scene: null, frame: null, receivedMs: null, nowMs: 0 };

/** Silent for longer, the picture is old: frames come with every beat, and an answer once a second. Common practice. */
const STALE_MS: Ms = 2500;
/** Frames that a far view is sent at most: a glance from afar needs no more, and the player's own frames come first. Measured. */
export const FAR_FRAMES_A_SECOND = 10;
/** Passes of a slot that the far view draws: half the ink of the bar view's eight. */
export const FAR_PASSES = 3;

/**
 * The far view after something was heard, or time went by. It keeps to one window while that is fresh, and goes to another
 * that is playing where its own is not; a window that was reloaded is followed as soon as it speaks.
 */
export function farNext(state: FarState, news: FarNews): FarState {
  const now = { ...state, nowMs: news.atMs };
  if (news.kind === 'tick') return now;
  const { message } = news;
  if (message.from !== state.from) {
    const plays = message.kind === 'frame' && message.frame.running;
    const isFree = state.from === null || isStale(now) || (plays && state.frame?.running !== true);
    return isFree ? taken({ ...noFarState, from: message.from }, news.atMs, message) : now;
  }
  return taken(now, news.atMs, message);
}

function taken(state: FarState, atMs: Ms, message: ToFar): FarState {
  const heard = { ...state, receivedMs: atMs, nowMs: atMs };
  if (message.kind === 'frame') return { ...heard, frame: message.frame };
  return { ...heard, scene: { number: message.scene, of: message.of } };
}

export function isStale({ receivedMs, nowMs }: Pick<FarState, 'receivedMs' | 'nowMs'>): boolean {
  return receivedMs === null || nowMs - receivedMs > STALE_MS;
}

/**
 * How things stand, in words; empty while all is well.
 * @example staleWords({ receivedMs: 1000, nowMs: 5200 }) // => 'Last heard 4 s ago.'
 * @example staleWords({ receivedMs: 1000, nowMs: 2000 }) // => ''
 */
export function staleWords(state: Pick<FarState, 'receivedMs' | 'nowMs'>): string {
  if (state.receivedMs === null) return 'Nothing heard yet. Open Play in the player’s window.';
  return isStale(state) ? `Last heard ${Math.floor((state.nowMs - state.receivedMs) / 1000)} s ago.` : '';
}
