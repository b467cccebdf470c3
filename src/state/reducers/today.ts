import { clockAt, clockMovedOn, clockStarted, moveOnWords, type TodayClock } from '../../insight/today/clock';
import type { Ms } from '../../units';
import type { Reducers } from './reducers';
import type { State } from '../state';
import { chosen } from '../phrase-choice';
import { atExercise } from './sheet';
import { ownInput, withChoice } from './chosen';
import { limitsOf } from '../selectors/library';
import { steadyPace } from '../pace';

/** The plan of today and its clock. */
export const todayReducers = {
  'today length': (state, { length }) => ({ ...state, today: { ...state.today, length } }),
  'start clock': (state, { plan, dateMs }) => withClock(state, clockStarted(plan, dateMs)),
  date: (state, { dateMs }) => {
    const { today } = state;
    if (today.clock === null) return { ...state, today: { ...today, nowMs: dateMs } };
    return withClock(state, clockAt(today.clock, dateMs));
  },
  'move on': (state, { dateMs }) => {
    const { clock } = state.today;
    return clock === null ? state : movedOn(state, clock, dateMs);
  },
  'stop clock': (state) => withClock(state, null),
  'play phrase': (state, { phrase, name, bpm }) => ({
    ...withChoice(ownInput(state), chosen(phrase, name)),
    bpm,
    pace: steadyPace,
    limits: limitsOf(state),
    screen: 'play',
  }),
} satisfies Reducers;

/** Whoever went through the warm-up is warm. */
function movedOn(state: State, clock: TodayClock, nowMs: Ms): State {
  const warmedUp = state.library.warmedUp || clock.plan[clock.item].kind === 'warm-up';
  const next = clockMovedOn(clock, nowMs);
  const moved = withClock({ ...state, library: { ...state.library, warmedUp }, message: '' }, next);
  const opening = next?.plan[next.item].opening;
  // A week sheet is played in its order: the next exercise stands ready. Nothing is taken from under a take.
  if (opening?.kind !== 'sheet' || state.running !== null) return moved;
  return atExercise(moved, opening.sheet, opening.index);
}

/** Time is told between takes; nothing is said into one. */
function withClock(state: State, clock: TodayClock | null): State {
  const words = clock === null || state.running !== null ? '' : moveOnWords(clock);
  return { ...state, today: { ...state.today, clock }, ...(words === '' ? {} : { message: words }) };
}
