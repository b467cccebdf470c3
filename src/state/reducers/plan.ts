import { tappedBpm, withTap } from '../../click/tapping';
import { changedClick } from '../../exercises/click-plan';
import { checkedBpm } from '../../exercises/tempo';
import type { Ms } from '../../units';
import type { Reducers } from './reducers';
import type { State } from '../state';
import { NO_CLICK } from '../outputs';
import { changedPlan, planFrom } from '../playing-plan';
import { climbAt, climbBegun, climbHeld, climbTook, factsBefore } from '../climb';
import { ownInput } from './chosen';
import { rigInUse } from '../selectors/input';
import { steadyPace } from '../pace';
import type { LastTake } from '../takes';

/** How takes are played, and what becomes of the last one. */
export const planReducers = {
  plan: (state, { change }) => ({ ...state, plan: changedPlan(state.plan, change), problem: '' }),
  'click plan': (state, { change }) => ({
    ...state,
    plan: { ...state.plan, click: changedClick(state.plan.click, change) },
    problem: '',
  }),
  'plan kept': (state, { kept }) => ({ ...state, plan: planFrom(kept) }),
  tap: (state, { atMs }) => tappedAt(state, atMs),
  'tap on pad': (state, { on }) => ({ ...state, tapOnPad: on, taps: [] }),
  'teacher plays': (state, { on }) => ({ ...state, teacherPlays: on }),
  played: (state, { last }) => ({ ...state, last, ...reviewAfter(state, last) }),
  'rest due': (state, { words }) => ({ ...state, rest: words }),
  'begin climb': (state, { today }) => {
    const { bpm, phrase, library } = state;
    const facts = factsBefore(bpm, phrase, rigInUse(state), library.takes, today);
    return withClimb(state, climbBegun(facts, phrase));
  },
  'end climb': (state) => ({ ...state, climb: null }),
  climbed: (state, took) => withClimb(state, state.climb && climbTook(state.climb, took)),
  'climb time': (state, { atMs }) => withClimb(state, state.climb && climbAt(state.climb, atMs)),
  'climb held': (state) => withClimb(state, state.climb && climbHeld(state.climb)),
} satisfies Reducers;

/** The tempo on the stand is that of the climb's next take. */
function withClimb(state: State, climb: State['climb']): State {
  if (climb === null || climb.step.kind === 'done') return { ...state, climb };
  const output = state.output === NO_CLICK ? '' : state.output;
  return { ...ownInput(state), output, climb, pace: steadyPace, bpm: climb.step.bpm };
}

/** A tap, by key, pointer or pad: from the second on the tempo is theirs. */
export function tappedAt(state: State, atMs: Ms): State {
  const taps = withTap(state.taps, atMs);
  const bpm = tappedBpm(taps);
  if (bpm === undefined) return { ...state, taps };
  return { ...ownInput(state), taps, bpm: checkedBpm(Math.min(400, bpm), 'Tempo'), problem: '' };
}

/** Review has the last take as it is now, with its note; thrown away it leaves Play, where it can be put back. */
function reviewAfter(
  { reviewed, screen }: State,
  { take, kept }: LastTake,
): Pick<State, 'reviewed' | 'screen'> {
  if (reviewed?.take.id !== take.id) return { reviewed, screen };
  if (kept) return { reviewed: { ...reviewed, take }, screen };
  return { reviewed: null, screen: screen === 'review' ? 'play' : screen };
}
