import { answered, listenBlind } from '../../grading/apart/listen-blind';
import { isReached } from '../../grading/remedy/remedy';
import type { Choice } from '../../grading/chosen';
import type { Report } from '../../grading/types';
import { blindBarsOfTwo } from '../../insight/compare/side-by-side';
import { blindBarsOf } from '../../insight/telling-apart';
import type { Reviewed } from '../../take/reviewed';
import type { Reducers } from './reducers';
import type { State } from '../state';
import { firstReviewing, type Reviewing, type Treatment } from '../reviewing';
import { isOfRemedy, nextStep } from '../selectors/review';
import { withFirst } from '../../sessions/take-first';
import { isRight } from '../guess-first';
import { beginning } from '../rig/steps';
import { ownInput, withTakeOf } from './chosen';

/** What is looked at in Review, of the take that is open. */
export const reviewReducers = {
  'next step': (state, { then = false }) => stepped(state, then),
  'choose first': (state, { choice }) => choosing(state, choice),
  picture: (state, { name }) => looking(state, { picture: name }),
  'picture of': (state, { variation }) => looking(state, { pictureOf: variation }),
  strokes: (state, { asked }) => looking(state, { strokes: asked }),
  bands: (state, { on }) => looking(state, { bands: on, ...(on ? { picture: 'levels by place' } : {}) }),
  'apart found': (state, { takeId, apart }) =>
    state.reviewed?.take.id === takeId ? looking(state, { apart }) : state,
  beside: (state, { beside }) =>
    state.reviewed === null ? state : looking(state, { beside, bands: false, listening: null }),
  'listen blind': (state, { of, seed }) => {
    const { reviewed, reviewing } = state;
    if (reviewed === null) return state;
    return looking(state, { listening: listenBlind(barsToTell(reviewing, of, reviewed), seed) });
  },
  'blind answer': (state, { answer }) => {
    const { listening } = state.reviewing;
    return listening === null ? state : looking(state, { listening: answered(listening, answer) });
  },
  'stop listening': (state) => looking(state, { listening: null }),
  'guess first': (state, { on }) => looking(state, { guesses: { ...state.reviewing.guesses, on } }),
  'guesses kept': (state, { guesses }) => looking(state, { guesses }),
  guess: (state, { choice }) => {
    const { reviewed, reviewing } = state;
    if (reviewed === null || reviewing.guess.kind !== 'asked') return state;
    return { ...state, reviewing: guessed(reviewing, choice, reviewed.report) };
  },
  'skip guess': (state) => looking(state, { guess: { kind: 'none' } }),
} satisfies Reducers;

/** The take keeps it, wherever it is held; the report stays as it is. What is looked at follows what leads. */
function choosing(state: State, choice: Choice | null): State {
  const { reviewed, reviewing } = state;
  if (reviewed === null) return state;
  const take = withFirst(reviewed.take, choice);
  return {
    ...state,
    reviewed: { ...reviewed, take },
    reviewing: { ...reviewing, picture: null, pictureOf: null, strokes: null },
    unkept: state.unkept.map((one) => (one.take.id === take.id ? { ...one, take } : one)),
  };
}

const looking = (state: State, change: Partial<Reviewing>): State => ({
  ...state,
  reviewing: { ...state.reviewing, ...change },
});

function barsToTell({ beside }: Reviewing, of: 'variations' | 'takes', reviewed: Reviewed) {
  return of === 'takes' && beside !== null
    ? blindBarsOfTwo(reviewed, beside)
    : blindBarsOf(reviewed.report, reviewed.take);
}

function guessed(reviewing: Reviewing, choice: string | null, report: Report): Reviewing {
  const right = isRight(report, choice);
  const { guesses } = reviewing;
  return {
    ...reviewing,
    guess: { kind: 'made', choice, right },
    guesses: { ...guesses, heard: guesses.heard + Number(right), of: guesses.of + 1 },
  };
}

/**
 * The step of Rig, begun; or the remedy, the phrase once more, or the way back, chosen and ready to be played.
 * @param then what comes after the rig, at once
 */
function stepped(state: State, then: boolean): State {
  const { reviewed, reviewing } = state;
  if (reviewed === null) return state;
  const first = nextStep(reviewing, reviewed);
  const step = then && first.kind === 'rig' && first.then !== null ? first.then : first;
  switch (step.kind) {
    case 'rig':
      return beginning({ ...state, screen: 'rig', live: null, message: '' }, step.rig.step);
    case 'remedy':
      return begun(state, { remedy: step.remedy, before: step.before, reached: 0 });
    case 'remedy again':
      return begun(state, step.treatment);
    case 'back':
      return {
        ...atPlay(state, step.treatment.before.take),
        reviewing: { ...reviewing, treatment: null },
      };
    case 'again':
      return atPlay(state, reviewed.take);
  }
}

function begun(state: State, treatment: Treatment): State {
  const { remedy, before } = treatment;
  return {
    ...atPlay(state, { ...before.take, phrase: remedy.phrase, tempo: { bpm: remedy.bpm } }),
    reviewing: { ...state.reviewing, treatment },
    message: remedy.stop.words,
  };
}

function atPlay(state: State, take: Parameters<typeof withTakeOf>[1]): State {
  return { ...withTakeOf(ownInput(state), take), screen: 'play', live: null, message: '' };
}

/** Review of another take: what was looked at of the one before is gone, a remedy that was begun is not. */
export function reviewAgain(reviewing: Reviewing, reviewed: Reviewed): Reviewing {
  const { treatment, guesses, seen } = reviewing;
  const { report, take } = reviewed;
  const isFirst = !seen.includes(take.id);
  const isTheirs = take.teacher !== true;
  const ofRemedy = treatment !== null && isTheirs && isOfRemedy(treatment, reviewed);
  return {
    ...firstReviewing,
    guesses,
    seen: isFirst ? [...seen, take.id] : seen,
    guess:
      guesses.on && isTheirs && isFirst && report.weakest !== null && report.variations.length > 1
        ? { kind: 'asked' }
        : { kind: 'none' },
    treatment: ofRemedy && isFirst ? { ...treatment, reached: reachedAfter(treatment, report) } : treatment,
  };
}

function reachedAfter({ remedy, reached }: Treatment, report: Report): number {
  return isReached(remedy.stop, report) === true ? reached + 1 : 0;
}
