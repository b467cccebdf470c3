import { plainClick, type ClickPlan } from '../../exercises/click-plan';
import type { Phrase } from '../../exercises/types';
import { phraseKeyOf, remedyFor } from '../../sessions/take-record';
import type { Rig } from '../../sessions/types';
import type { TakePlan } from '../../take/run-take';
import type { State } from '../state';
import { NO_CLICK } from '../outputs';
import { climbNote, planOfClimb } from '../climb';
import { cyclesOf, plainPlan, type PlayingPlan } from '../playing-plan';
import { takeAsInput } from './input';
import { takeMarks } from './library';
import { tempoOf } from '../pace';

/** Whether the next take is in free time: without a click, its own strokes telling tempo and downbeat. A bundled take is as it was played. */
export function isFree(state: Pick<State, 'output' | 'bundled' | 'input'>): boolean {
  const source = takeAsInput(state);
  return source === undefined ? state.output === NO_CLICK : source.click === 'none';
}

/** How the next take is played: a climb has its own plan. */
export const planInUse = ({ plan, climb }: State): PlayingPlan => planOfClimb(plan, climb);

/** What is known of a take from outside. */
interface Stamp {
  readonly id: string;
  readonly recordedAt: string;
  /** True for the day's first; a warm-up said to be done goes before it. */
  readonly cold?: boolean;
}

/** The take about to be played. A bundled take's strokes stay the model player's, whoever pressed Start. */
export function planOf(state: State, rig: Rig, stamp: Stamp): TakePlan {
  const { bpm, pace, limits } = state;
  const plan = planInUse(state);
  // A ramp is over the phrase's own cycles.
  const length = pace.shape === 'steady' ? plan.length : plainPlan.length;
  const phrase = { ...state.phrase, cycles: cyclesOf(length, state.phrase, { bpm }) };
  const { cold, ...stamped } = stamp;
  const isTheirs = !state.teacherPlays;
  const source = takeAsInput(state);
  return {
    format: 'evenhand-take',
    version: 1,
    ...stamped,
    ...(cold === true && isTheirs ? { cold } : {}),
    ...(source === undefined
      ? isTheirs
        ? { ...takeMarks(state.library, phrase), ...remedyMark(state, phrase) }
        : ({ player: '', teacher: true } as const)
      : { player: source.player }),
    source: source === undefined ? 'played' : 'model',
    phrase,
    tempo: tempoOf(phrase, bpm, pace),
    ...clickOf(state, plan.click),
    limits,
    settings: source?.settings ?? {},
    rig,
    notes: source?.notes ?? (isTheirs ? notesOf(state) : ''),
  };
}

const notesOf = ({ climb }: State): string =>
  climb === null || climb.step.kind === 'done' ? '' : climbNote(climb);

/** A take of the remedy that was begun says so, and what it is for. */
function remedyMark({ reviewing: { treatment } }: State, phrase: Phrase): Pick<TakePlan, 'remedy'> {
  if (treatment === null || phraseKeyOf(phrase) !== phraseKeyOf(treatment.remedy.phrase)) return {};
  return { remedy: remedyFor(treatment.before.take.phrase.title, treatment.remedy.phrase.title) };
}

function clickOf(state: State, plan: ClickPlan): Pick<TakePlan, 'click' | 'clicks'> {
  if (isFree(state)) return { click: 'none' };
  return { click: plan.bare === null ? 'on' : 'bare', ...(isPlain(plan) ? {} : { clicks: plan }) };
}

const isPlain = (click: ClickPlan): boolean => JSON.stringify(click) === JSON.stringify(plainClick);
