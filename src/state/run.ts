import type { Phrase } from '../exercises/types';
import { phraseKeyOf, remedyFor } from '../sessions/take-record';
import type { Rig } from '../sessions/types';
import { takeMarks } from './library';
import { tempoOf } from './pace';
import type { TakePlan } from '../take/run-take';
import { plainClick, type ClickPlan } from '../exercises/click-plan';
import { climbNote, planOfClimb } from './climb';
import { cyclesOf, plainPlan, type PlayingPlan } from './playing-plan';
import { takeAsInput } from './bundled-input';
import { NO_CLICK } from './plan-state';
import { withFigureNow } from './live-view';
import type { RunSaid, Sitting } from './state';

/** The sitting after something was said of the running take. */
export function runHeard(sitting: Sitting, said: RunSaid): Sitting {
  switch (said.kind) {
    case 'started':
      return {
        ...sitting,
        running: said.running,
        live: null,
        liveAtBeat: null,
        figureNow: null,
        position: null,
        message: '',
        problem: '',
      };
    case 'live':
      return { ...sitting, live: said.live };
    case 'position':
      return withFigureNow({
        ...sitting,
        position: said.position,
        liveAtBeat: sitting.live,
      });
    case 'ended':
      return { ...sitting, running: null, position: null, message: said.message };
  }
}

/** Whether the next take is in free time: without a click, its own strokes telling tempo and downbeat. A bundled take is as it was played. */
export function isFree(sitting: Pick<Sitting, 'output' | 'bundled' | 'input'>): boolean {
  const source = takeAsInput(sitting);
  return source === undefined ? sitting.output === NO_CLICK : source.click === 'none';
}

/** How the next take is played: a climb has its own ways. */
export const planInUse = ({ plan, climb }: Sitting): PlayingPlan => planOfClimb(plan, climb);

/** What is known of a take from outside. */
interface Stamp {
  readonly id: string;
  readonly recordedAt: string;
  /** True for the day's first; a warm-up said to be done goes before it. */
  readonly cold?: boolean;
}

/** The take about to be played. A bundled take's strokes stay the model player's, whoever pressed Start. */
export function planOf(sitting: Sitting, rig: Rig, stamp: Stamp): TakePlan {
  const { bpm, pace, limits, climb } = sitting;
  const plan = planInUse(sitting);
  // A ramp is over the phrase's own cycles.
  const length = pace.shape === 'steady' ? plan.length : plainPlan.length;
  const phrase = { ...sitting.phrase, cycles: cyclesOf(length, sitting.phrase, { bpm }) };
  const { cold, ...stamped } = stamp;
  const source = takeAsInput(sitting);
  return {
    format: 'evenhand-take',
    version: 1,
    ...stamped,
    ...(cold === true ? { cold } : {}),
    ...(source === undefined
      ? { ...takeMarks(sitting.keeping, phrase), ...remedyMark(sitting, phrase) }
      : { player: source.player }),
    source: source === undefined ? 'played' : 'model',
    phrase,
    tempo: tempoOf(phrase, bpm, pace),
    ...clickOf(sitting, plan.click),
    limits,
    settings: source?.settings ?? {},
    rig,
    notes: source?.notes ?? (climb === null || climb.step.kind === 'done' ? '' : climbNote(climb)),
  };
}

/** A take of the remedy that was begun says so, and what it is for. */
function remedyMark({ reviewing: { treatment } }: Sitting, phrase: Phrase): Pick<TakePlan, 'remedy'> {
  if (treatment === null || phraseKeyOf(phrase) !== phraseKeyOf(treatment.remedy.phrase)) return {};
  return { remedy: remedyFor(treatment.before.take.phrase.title, treatment.remedy.phrase.title) };
}

function clickOf(sitting: Sitting, plan: ClickPlan): Pick<TakePlan, 'click' | 'clicks'> {
  if (isFree(sitting)) return { click: 'none' };
  return { click: plan.bare === null ? 'on' : 'bare', ...(isPlain(plan) ? {} : { clicks: plan }) };
}

const isPlain = (click: ClickPlan): boolean => JSON.stringify(click) === JSON.stringify(plainClick);
