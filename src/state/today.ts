import type { Ms } from '../units';
import { steadyPace } from './pace';
import { chosen } from './phrase-choice';
import { ownInput } from './bundled-input';
import { withChoice } from './phrase';
import type { Sitting } from './state';
import { clockAt, clockMovedOn, clockStarted, moveOnWords, type TodayClock } from '../insight/today/clock';
import type { Opening, TodayItem, TodayLength } from '../insight/today/types';

/** How long this sitting is to be, and the clock where it is running. */
export interface Today {
  readonly length: TodayLength;
  readonly clock: TodayClock | null;
  /** Which moment the plan is made for, on the clock of dates; it stands still while the plan is played. */
  readonly nowMs: Ms;
}

/** What a player may ask for in Today. */
export type TodayCommand =
  | { readonly kind: 'length'; readonly length: TodayLength }
  | { readonly kind: 'start'; readonly plan: readonly TodayItem[] }
  | { readonly kind: 'move on' }
  | { readonly kind: 'stop' }
  | { readonly kind: 'open'; readonly opening: Opening }
  /** What is on the desk goes on the week's list, with the teacher's words. */
  | { readonly kind: 'list'; readonly words: string }
  | { readonly kind: 'unlist'; readonly index: number };

export type TodaySaid =
  | { readonly kind: 'length'; readonly length: TodayLength }
  | { readonly kind: 'start'; readonly plan: readonly TodayItem[]; readonly nowMs: Ms }
  | { readonly kind: 'tick'; readonly nowMs: Ms }
  | { readonly kind: 'move on'; readonly nowMs: Ms }
  | { readonly kind: 'stop' }
  | { readonly kind: 'open'; readonly opening: Extract<Opening, { kind: 'phrase' }> };

export const firstToday: Today = { length: 20, clock: null, nowMs: 0 };

/** The sitting after something was said of its plan. */
export function todayHeard(sitting: Sitting, said: TodaySaid): Sitting {
  const { today } = sitting;
  switch (said.kind) {
    case 'length':
      return { ...sitting, today: { ...today, length: said.length } };
    case 'start':
      return withClock(sitting, clockStarted(said.plan, said.nowMs));
    case 'tick':
      if (today.clock === null) return { ...sitting, today: { ...today, nowMs: said.nowMs } };
      return withClock(sitting, clockAt(today.clock, said.nowMs));
    case 'move on':
      return today.clock === null ? sitting : movedOn(sitting, today.clock, said.nowMs);
    case 'stop':
      return withClock(sitting, null);
    case 'open': {
      const { phrase, name, bpm } = said.opening;
      return {
        ...withChoice(ownInput(sitting), chosen(phrase, name)),
        bpm,
        pace: steadyPace,
        screen: 'play',
      };
    }
  }
}

/** Whoever went through the warm-up is warm. */
function movedOn(sitting: Sitting, clock: TodayClock, nowMs: Ms): Sitting {
  const warmedUp = sitting.keeping.warmedUp || clock.plan[clock.item].kind === 'warm-up';
  return withClock(
    { ...sitting, keeping: { ...sitting.keeping, warmedUp }, message: '' },
    clockMovedOn(clock, nowMs),
  );
}

/** Time is told between takes; nothing is said into one. */
function withClock(sitting: Sitting, clock: TodayClock | null): Sitting {
  const words = clock === null || sitting.running !== null ? '' : moveOnWords(clock);
  return { ...sitting, today: { ...sitting.today, clock }, ...(words === '' ? {} : { message: words }) };
}
