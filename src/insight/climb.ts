import { isCleanShare } from '../grading/clean-share';
import type { Report } from '../grading/types';
import type { Bpm, Ms } from '../units';

/** How a take went: *held* where 4 bars of 5 held and no variation is *not yet*. */
export type TakeHeld = 'held' | 'close' | 'not held';

/** One take of a climb. Times on any one clock. */
export interface ClimbTake {
  readonly bpm: Bpm;
  readonly went: TakeHeld;
  readonly endedAtMs: Ms;
  readonly lengthMs: Ms;
}

/** What is known beside the takes of this climb. */
export interface ClimbFacts {
  readonly startBpm: Bpm;
  /** Where the phrase holds 4 bars of 5; left out where it isn't known. */
  readonly ceilingBpm?: Bpm;
  /** Fastest take that held last time; left out where there was none. */
  readonly bestBpm?: Bpm;
  readonly nowMs: Ms;
}

/** What comes next. A rest is over before the take after it; after `done` nothing does. */
export type ClimbStep =
  | { readonly kind: 'play'; readonly bpm: Bpm; readonly last: boolean; readonly words: string }
  | {
      readonly kind: 'rest';
      readonly untilMs: Ms;
      readonly bpm: Bpm;
      readonly last: boolean;
      readonly words: string;
    }
  | { readonly kind: 'done'; readonly words: string };

/** Source of all: grading.md section 7; common practice, no source. */
const UP = 1.03;
const DOWN = 0.93;
const IN_A_ROW = 2;
const NEAR_CEILING = 0.9;
const PAST_BEST = 1.1;
/** What the tenth loses as a binary fraction. */
const ROUNDING = 1e-9;
const FAILURES = 3;
const FAILURES_WITHIN_MS: Ms = 600_000;
const CLOSE_SHARE = 0.6;
const SLOWEST: Bpm = 20;

/** How a graded take went. A take that doesn't fit its grid did not hold; *close* from 3 bars of 5 on. */
export function takeHeld(report: Report): TakeHeld {
  if (!report.fits) return 'not held';
  const bars = report.bars.filter(({ role }) => role === undefined);
  const clean = bars.filter((bar) => bar.clean).length;
  const notYet = report.variations.some(({ band }) => band === 'not yet');
  if (bars.length === 0 || clean < CLOSE_SHARE * bars.length) return 'not held';
  if (isCleanShare(clean, bars.length) && !notYet) return 'held';
  return 'close';
}

/**
 * The next step of a climb: up about 3 % after two takes in a row that held at their tempo, the same after one that
 * was close or the first that failed, down about 7 % after two in a row that failed. Within 10 % of the ceiling a rest
 * as long as the take goes before it. It ends with the third failure in ten minutes, or 10 % above last time's best,
 * and its last take is at a tempo that held.
 */
export function nextStep(takes: readonly ClimbTake[], facts: ClimbFacts): ClimbStep {
  const newest = takes.at(-1);
  if (newest === undefined) return play(facts.startBpm, false, 'Begin here.');
  const ending = endingOf(takes, facts);
  if (ending === undefined) return rested(newest, facts, onward(takes), false);
  const { at, words } = ending;
  const since = takes.slice(at + 1);
  const easy = takes
    .slice(0, at + 1)
    .filter(({ went }) => went === 'held')
    .map(({ bpm }) => bpm);
  if (newest.went === 'held' && (since.length > 0 || newest.bpm === Math.max(...easy))) {
    return {
      kind: 'done',
      words: `${words} The last take was clean at ${newest.bpm}: leave it there for today.`,
    };
  }
  if (since.length > 0 && since.length >= IN_A_ROW) {
    return { kind: 'done', words: `${words} Leave it for today, and begin slower next time.` };
  }
  const held = easy.length > 0 ? Math.max(...easy) : slower(Math.min(...takes.map(({ bpm }) => bpm)));
  const bpm = since.length > 0 ? slower(Math.min(held, newest.bpm)) : held;
  return rested(
    newest,
    facts,
    { bpm, words: `${words} One last take, at a tempo that ${easy.length > 0 ? 'was' : 'will be'} clean.` },
    true,
  );
}

interface Onward {
  readonly bpm: Bpm;
  readonly words: string;
}

function onward(takes: readonly ClimbTake[]): Onward {
  const { bpm } = takes[takes.length - 1];
  // only what was played at this tempo since it was come to
  const here = takes.slice(takes.findLastIndex((take) => take.bpm !== bpm) + 1);
  const last = here.slice(-IN_A_ROW);
  if (last.length === IN_A_ROW && last.every(({ went }) => went === 'held')) {
    return { bpm: faster(bpm), words: 'Two takes in a row were clean: a little faster.' };
  }
  if (last.length === IN_A_ROW && last.every(({ went }) => went === 'not held')) {
    return { bpm: slower(bpm), words: 'Two takes in a row were not clean: slower.' };
  }
  return { bpm, words: last.at(-1)?.went === 'held' ? 'It was clean: once more.' : 'The same again.' };
}

/** The take with which the climb came to its end, and why; undefined where it goes on. */
function endingOf(
  takes: readonly ClimbTake[],
  { bestBpm }: ClimbFacts,
): { at: number; words: string } | undefined {
  for (let at = 0; at < takes.length; at++) {
    const { endedAtMs, bpm, went } = takes[at];
    const failures = takes
      .slice(0, at + 1)
      .filter((take) => take.went === 'not held' && endedAtMs - take.endedAtMs <= FAILURES_WITHIN_MS);
    if (failures.length >= FAILURES) return { at, words: 'Three takes in ten minutes were not clean.' };
    if (bestBpm !== undefined && went === 'held' && bpm > PAST_BEST * bestBpm - ROUNDING) {
      return { at, words: 'That is a tenth over last time’s best.' };
    }
  }
  return undefined;
}

/** Near the ceiling a rest as long as the take, while any of it is left. */
function rested(
  newest: ClimbTake,
  { ceilingBpm, nowMs }: ClimbFacts,
  { bpm, words }: Onward,
  last: boolean,
): ClimbStep {
  const untilMs = newest.endedAtMs + newest.lengthMs;
  const near = ceilingBpm !== undefined && newest.bpm >= NEAR_CEILING * ceilingBpm;
  if (!near || nowMs >= untilMs) return play(bpm, last, words);
  return {
    kind: 'rest',
    untilMs,
    bpm,
    last,
    words: `Rest as long as you played, and shake out your hands. ${words}`,
  };
}

const play = (bpm: Bpm, last: boolean, words: string): ClimbStep => ({ kind: 'play', bpm, last, words });

/** Always by one bpm at least, so that slow tempos move too. */
const faster = (bpm: Bpm): Bpm => Math.max(bpm + 1, Math.round(bpm * UP));
const slower = (bpm: Bpm): Bpm => Math.max(SLOWEST, Math.min(bpm - 1, Math.round(bpm * DOWN)));
