import type { Rig } from '../../sessions/types';
import type { Hand, RawHit } from '../../stroke';
import { levelDb, type Db, type Ms } from '../../units';
import { surfaceFinder } from '../rig';

/** So many strokes, one by one, by this hand on this surface. */
export interface Asked {
  /** Id of the surface. */
  readonly surface: string;
  readonly hand: Hand;
  readonly strokes: number;
}

/** What was asked, in order, and what has come of it. */
export interface Answers<A extends Asked> {
  readonly asked: readonly A[];
  /** By what was asked: the velocities of its strokes. */
  readonly given: readonly (readonly number[])[];
  /** Index of what is asked now; `asked.length` when all is done. */
  readonly at: number;
  /** The last hit, whatever it was. */
  readonly lastAtMs: Ms | null;
  readonly ignored: Ignored;
}

/** Why hits were left out. */
interface Ignored {
  /** On another surface, or on none. */
  readonly elsewhere: number;
  /** Too soon after a stroke to be another single stroke: a false note of the pad. */
  readonly falseNotes: number;
  /** More strokes than asked, before the pause that leads to what is asked next. */
  readonly over: number;
}

/** Single strokes lie farther apart than this; what comes sooner is the pad's. */
const SINGLE_MS: Ms = 150;
/** A louder hit this soon takes the place of the stroke: that one was its forerunner, or another zone. */
const SAME_STROKE_MS: Ms = 10;
/** Without a pause this long the strokes still belong to what was asked before. */
const PAUSE_MS: Ms = 1000;

export function asking<A extends Asked>(asked: readonly A[]): Answers<A> {
  return {
    asked,
    given: asked.map(() => []),
    at: 0,
    lastAtMs: null,
    ignored: { elsewhere: 0, falseNotes: 0, over: 0 },
  };
}

/**
 * One hit further, for a player with sticks in both hands: when all strokes asked for have come, a pause of a second leads
 * to what is asked next, and strokes before it are left out.
 */
export function nextAsked<A extends Asked>(rig: Rig): (state: Answers<A>, hit: RawHit) => Answers<A> {
  const surfaceOf = surfaceFinder(rig);
  return (state, hit) => {
    // The last stroke of what was asked before may turn out to have been a forerunner.
    const justDone = (state.given[state.at] ?? []).length === 0 && state.at > 0;
    const sinceMs = state.lastAtMs === null ? Infinity : hit.atMs - state.lastAtMs;
    const open = justDone && sinceMs <= SAME_STROKE_MS ? { ...state, at: state.at - 1 } : state;
    const asked = open.asked[open.at];
    if (asked === undefined) return state;
    if (surfaceOf(hit)?.id !== asked.surface) return ignoring(state, 'elsewhere');
    const now = { ...state, lastAtMs: hit.atMs };
    const given = open.given[open.at];
    if (given.length > 0 && sinceMs < SINGLE_MS) {
      const isSame = sinceMs <= SAME_STROKE_MS && hit.velocity > given[given.length - 1];
      const kept = isSame ? withGiven(open, [...given.slice(0, -1), hit.velocity]) : open;
      return { ...ignoring(kept, 'falseNotes'), at: state.at };
    }
    if (justDone && sinceMs < PAUSE_MS) return ignoring(now, sinceMs < SINGLE_MS ? 'falseNotes' : 'over');
    const more = withGiven(now, [...given, hit.velocity]);
    return given.length + 1 < asked.strokes ? more : { ...more, at: more.at + 1 };
  };
}

/** Asks once more for what was answered last, or is being answered. */
export function askedAgain<A extends Asked>(state: Answers<A>): Answers<A> {
  const at = (state.given[state.at] ?? []).length > 0 ? state.at : Math.max(0, state.at - 1);
  return withGiven({ ...state, at }, []);
}

/** Leaves out what is asked now, and whatever else goes with it: what was answered before stays. */
export function withoutAsked<A extends Asked>(
  state: Answers<A>,
  goesWith: (one: A, now: A) => boolean = () => false,
): Answers<A> {
  const now = state.asked[state.at] as A | undefined;
  if (now === undefined) return state;
  const stays = state.asked.map((one, index) => index !== state.at && !goesWith(one, now));
  return {
    ...state,
    asked: state.asked.filter((_, index) => stays[index]),
    given: state.given.filter((_, index) => stays[index]),
    at: stays.slice(0, state.at).filter(Boolean).length,
  };
}

export const allAnswered = ({ asked, at }: Answers<Asked>): boolean => at >= asked.length;

/** Levels of the strokes that answered, dB re velocity 127, trims left out. */
export function levelsGiven<A extends Asked>(state: Answers<A>, which: (asked: A) => boolean): readonly Db[] {
  return state.given.flatMap((velocities, index) =>
    which(state.asked[index]) ? velocities.map((velocity) => levelDb(velocity)) : [],
  );
}

function withGiven<A extends Asked>(state: Answers<A>, velocities: readonly number[]): Answers<A> {
  return {
    ...state,
    given: state.given.map((one, index) => (index === state.at ? velocities : one)),
  };
}

function ignoring<A extends Asked>(state: Answers<A>, why: keyof Ignored): Answers<A> {
  return { ...state, ignored: { ...state.ignored, [why]: state.ignored[why] + 1 } };
}
