import {
  allAnswered,
  askedAgain,
  nextAsked,
  withoutAsked,
  type Answers,
  type Asked,
} from '../../midi/learning/asked-strokes';
import {
  closestPairAsked,
  closestPairFound,
  closestPairWords,
  nextPair,
  pairsAnswered,
  rigWithClosestPair,
} from '../../midi/learning/closest-pair';
import { delaysFound, nextAlong } from '../../midi/learning/delays';
import { falseNotesFound, nextSingle, noFalseNotes, rigWithWindows } from '../../midi/learning/false-notes';
import { heightsShown, rigWithHeights, type HeightsShown } from '../../midi/learning/heights';
import { rigWithThresholds } from '../../midi/learning/softest';
import { rigWithSpots, spotsFound, spotWords } from '../../midi/learning/spots';
import { rigWithTrims, trimsFound } from '../../midi/learning/trims';
import type { Rig } from '../../sessions/types';
import type { Settings } from '../../settings';
import type { RawHit } from '../../stroke';
import type { Ms } from '../../units';
import type { RigTask } from './state';
import type { TaskName } from './task-names';
import { adviceWords, falseNoteWords, thresholdWords, trimWords } from './found-words';

/** Half a minute of single strokes. Our own choice, no source. */
const FALSE_NOTES_MS: Ms = 30_000;
/** After the last stroke asked for, what it brings along is waited for. */
const AFTER_LAST_MS: Ms = 300;

/** A step with the hit in it. The rig is the one the step asks about. */
export function withHit(task: RigTask, rig: Rig, hit: RawHit): RigTask {
  switch (task.kind) {
    case 'heights':
      return { ...task, state: nextAsked<(typeof task.state.asked)[number]>(rig)(task.state, hit) };
    case 'spots':
      return { ...task, state: nextAsked<(typeof task.state.asked)[number]>(rig)(task.state, hit) };
    case 'trims':
    case 'softest':
      return { ...task, state: nextAsked(rig)(task.state, hit) };
    case 'pairs':
      return { ...task, state: nextPair(rig)(task.state, hit) };
    case 'false notes': {
      const state = nextSingle(rig)(task.state, hit);
      return { ...task, state, sinceMs: task.sinceMs ?? (state.hits.length > 0 ? hit.atMs : null) };
    }
    case 'delays':
      return task.state === null ? task : { ...task, state: nextAlong(rig)(task.state, hit) };
    default:
      return task;
  }
}

/** Id of the surface that is asked for; null where none is, or any may be struck. */
export function surfaceAsked(task: RigTask): string | null {
  switch (task.kind) {
    case 'heights':
    case 'spots':
    case 'trims':
    case 'softest':
      return task.state.asked[task.state.at]?.surface ?? null;
    case 'pairs':
      return task.state.surface;
    default:
      return null;
  }
}

/** Whether a step has all that it asked for. */
export function isDone(task: RigTask, atMs: Ms): boolean {
  const settled = (lastAtMs: Ms | null): boolean => lastAtMs === null || atMs - lastAtMs >= AFTER_LAST_MS;
  switch (task.kind) {
    case 'heights':
    case 'spots':
    case 'trims':
    case 'softest':
      return allAnswered(task.state) && settled(task.state.lastAtMs);
    case 'pairs':
      return pairsAnswered(task.state) && settled(task.state.lastAtMs);
    case 'false notes':
      return task.sinceMs !== null && atMs - task.sinceMs >= FALSE_NOTES_MS;
    case 'delays': {
      const clicksMs = task.state?.clicksMs ?? [];
      if (clicksMs.length < 2) return false;
      const last = clicksMs[clicksMs.length - 1];
      return atMs > last + (last - clicksMs[clicksMs.length - 2]);
    }
    default:
      return false;
  }
}

/** A step as it stands, asked once more for its last part; or from its beginning where it has no parts. */
export function askedOnceMore(task: RigTask): RigTask {
  switch (task.kind) {
    case 'heights':
      return { ...task, state: askedAgain(task.state) };
    case 'spots':
      return { ...task, state: askedAgain(task.state) };
    case 'trims':
    case 'softest':
      return { ...task, state: askedAgain(task.state) };
    case 'pairs':
      return { ...task, state: closestPairAsked(task.state.surface, task.state.hand) };
    case 'false notes':
      return { ...task, state: noFalseNotes, sinceMs: null };
    case 'delays':
    case 'delays found':
      return { kind: 'delays', state: null, output: null };
    default:
      return task;
  }
}

/** A step without what it asks for now; of heights, without all that this hand was to show on the surface. Null: nothing is left. */
export function skipped(task: RigTask): RigTask | null {
  const left = <A extends Asked>(state: Answers<A>): Answers<A> | null => {
    const now = withoutAsked(state, (one, asked) => one.surface === asked.surface && one.hand === asked.hand);
    return allAnswered(now) ? null : now;
  };
  switch (task.kind) {
    case 'heights': {
      const state = left(task.state);
      return state && { ...task, state };
    }
    case 'trims':
    case 'softest': {
      const state = left(task.state);
      return state && { ...task, state };
    }
    default:
      return null;
  }
}

/** What a step has found so far. */
interface Learned {
  readonly rig: Rig;
  readonly words: readonly string[];
  readonly heights?: readonly HeightsShown[];
}

/** The rig with what a step has found; of heights also before all are shown, so that none is lost. Undefined: nothing yet. */
export function learnedBy(task: RigTask, rig: Rig, settings: Settings): Learned | undefined {
  switch (task.kind) {
    case 'heights': {
      const heights = heightsShown(task.state, settings).filter((one) => one.heights !== undefined);
      return { rig: rigWithHeights(rig, heights), words: adviceWords(rig, heights), heights };
    }
    case 'spots': {
      const found = spotsFound(task.state);
      return found && { rig: rigWithSpots(rig, task.places, found), words: spotWords(found) };
    }
    case 'trims': {
      const found = trimsFound(task.state);
      return found && { rig: rigWithTrims(rig, found), words: trimWords(rig, found) };
    }
    case 'softest': {
      const now = rigWithThresholds(rig, task.state);
      return { rig: now, words: thresholdWords(now, task.state) };
    }
    case 'pairs': {
      const found = closestPairFound(rig, settings, task.state);
      return {
        rig: rigWithClosestPair(rig, task.state.surface, found),
        words: closestPairWords(found),
      };
    }
    case 'false notes': {
      const found = falseNotesFound(rig, task.state);
      return { rig: rigWithWindows(rig, found), words: falseNoteWords(rig, found) };
    }
    default:
      return undefined;
  }
}

/** A play-along that is over: what it found, or undefined where the strokes did not follow the click. */
export function delaysOf(task: RigTask): ReturnType<typeof delaysFound> {
  if (task.kind !== 'delays' || task.state === null) return undefined;
  return delaysFound(task.state, task.output ?? undefined);
}

export const nameOfTask = (task: RigTask): TaskName | null => {
  switch (task.kind) {
    case 'rest':
      return null;
    case 'between':
      return task.done;
    case 'delays found':
      return 'delays';
    default:
      return task.kind;
  }
};
