import type { Phrase } from '../../exercises/types';
import type { WeekItem } from '../../sessions/player';
import type { WeekSheet } from '../../sessions/week-sheet';
import type { TakeSummary } from '../../sessions/take-record';
import type { Hand } from '../../stroke';
import type { Bpm } from '../../units';

/** Minutes that a day's playing may take. */
export const todayLengths = [10, 20, 40] as const;
export type TodayLength = (typeof todayLengths)[number];

/** What opening an item chooses. */
export type Opening =
  | { readonly kind: 'phrase'; readonly phrase: Phrase; readonly name: string | null; readonly bpm: Bpm }
  /** The phrase of a kept take, at another tempo. */
  | { readonly kind: 'take'; readonly takeId: string; readonly bpm: Bpm }
  /** An exercise of a week sheet that a teacher gave. */
  | { readonly kind: 'sheet'; readonly sheet: WeekSheet; readonly index: number };

type TodayKind = 'warm-up' | 'weakest' | 'rest' | 'new' | 'kit' | 'week' | 'easy';

/** One line of the plan. */
export interface TodayItem {
  readonly kind: TodayKind;
  readonly minutes: number;
  /** What to play, in a few words. */
  readonly title: string;
  /** Why, or how. */
  readonly why: string;
  /** Null for what nothing listens to. */
  readonly opening: Opening | null;
}

/** What a plan is made from. */
export interface TodayFacts {
  /** One player's takes, in any order. */
  readonly takes: readonly TakeSummary[];
  readonly nowMs: number;
  /** What the player's clock is ahead of UTC. */
  readonly eastMinutes: number;
  readonly lead: Hand;
  /** What the teacher set for the week; it takes the place of all between warm-up and finish. */
  readonly week: readonly WeekItem[];
  /** The week sheet they are to play to, before the list; absent for none. */
  readonly sheet?: WeekSheet;
  /** Names of the surfaces that hands play on the rig in use. */
  readonly surfaces: readonly string[];
}
