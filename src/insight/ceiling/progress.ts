import { changeOf, type Change } from './change';
import { ceilingOn, FEWEST_BARS, type Ceiling } from './ceiling';
import { posteriorOf, type Posterior } from './posterior';
import { NOW_DAYS, spellsOf } from './spells';
import { barsOf, type TriedBars } from '../../grading/tried-bars';

/** Bars of one variation at one tempo on one day. */
export interface NamedBars extends TriedBars {
  readonly variation: string;
}

/** How one variation stands, and what became of it in the last spell. */
interface Progress {
  readonly ceiling: Ceiling;
  readonly change: Change;
  /** First and last day of it in that spell. */
  readonly days: readonly [number, number];
}

/** How a phrase stands on one rig, for one player. */
export interface PhraseProgress {
  /** That of its weakest variation. */
  readonly ceiling: Ceiling;
  readonly change: Change;
  /** The variation with the lowest ceiling; null where none can be told. */
  readonly weakest: string | null;
  /** In order of first appearance. */
  readonly variations: ReadonlyMap<string, Progress>;
  /** Days of the first bar and the last since the last long absence; null where no bar was tried. */
  readonly days: readonly [number, number] | null;
  /** How it stood before that absence; null where there was none. */
  readonly before: Before | null;
}

/** How a phrase stood before its player was away. */
export interface Before {
  readonly ceiling: Ceiling;
  readonly weakest: string | null;
  readonly lastDay: number;
  readonly awayDays: number;
}

/** A day of a ceiling's course. */
export interface CoursePoint {
  readonly day: number;
  readonly ceiling: Ceiling;
}

/**
 * How a phrase stands, by the last spell of playing.
 * @param tried bars of one phrase on one rig by one player, in any order
 */
export function progressOf(tried: readonly NamedBars[]): PhraseProgress {
  const spells = spellsOf(tried);
  const [last, earlier] = [spells.at(-1), spells.at(-2)];
  const names = [...new Set(tried.map(({ variation }) => variation))];
  if (last === undefined) return { ...standingIn([], names), days: null, before: null };
  const standing = standingIn(last.played, names);
  const awayDays = earlier === undefined ? 0 : last.days[0] - earlier.days[1];
  if (earlier === undefined || awayDays <= NOW_DAYS) return { ...standing, days: last.days, before: null };
  const { ceiling, weakest } = standingIn(earlier.played, names);
  return { ...standing, days: last.days, before: { ceiling, weakest, lastDay: earlier.days[1], awayDays } };
}

/** By the bars of one spell; variations in the order of the names. */
function standingIn(
  played: readonly NamedBars[],
  names: readonly string[],
): Omit<PhraseProgress, 'days' | 'before'> {
  const variations = new Map<string, Progress>();
  for (const name of names) {
    const own = played.filter(({ variation }) => variation === name);
    if (own.length > 0) variations.set(name, progressIn(own));
  }
  const weakest = weakestOf(variations);
  const { ceiling, change } = (weakest === null ? undefined : variations.get(weakest)) ?? {
    ceiling: { kind: 'too few bars', bars: barsOf(played) },
    change: { kind: 'not enough', days: 0, perWeek: null },
  };
  return { ceiling, change, weakest, variations };
}

/**
 * A variation's ceiling over its days, a point a week and one at each end, a row a spell: oldest first.
 * @param most spells, the newest ones
 */
export function courseOf(tried: readonly TriedBars[], most: number): readonly (readonly CoursePoint[])[] {
  return spellsOf(tried)
    .slice(-most)
    .map(({ played, days: [first, last] }) => {
      if (barsOf(played) < FEWEST_BARS) return [];
      const posterior = remembered(played);
      const days = Array.from(
        { length: Math.ceil((last - first) / WEEK_DAYS) },
        (_, n) => first + n * WEEK_DAYS,
      );
      return [...days, last].map((day) => ({ day, ceiling: ceilingOn(day, played, posterior) }));
    });
}

const WEEK_DAYS = 7;

function progressIn(own: readonly TriedBars[]): Progress {
  const [first, last] = [own[0].day, own[own.length - 1].day];
  const bars = barsOf(own);
  if (bars < FEWEST_BARS) {
    const change = { kind: 'not enough', days: last - first + 1, perWeek: null } as const;
    return { ceiling: { kind: 'too few bars', bars }, change, days: [first, last] };
  }
  const posterior = remembered(own);
  return { ceiling: ceilingOn(last, own, posterior), change: changeOf(own, posterior), days: [first, last] };
}

function weakestOf(variations: ReadonlyMap<string, Progress>): string | null {
  let found: { name: string; bpm: number } | null = null;
  for (const [name, { ceiling }] of variations) {
    if (ceiling.kind === 'too few bars') continue;
    const bpm = heightOf(ceiling);
    if (found === null || bpm < found.bpm) found = { name, bpm };
  }
  return found?.name ?? null;
}

/** For comparing: over what was tried lies higher than at it, and under it lower. */
function heightOf(ceiling: Exclude<Ceiling, { kind: 'too few bars' }>): number {
  switch (ceiling.kind) {
    case 'at':
      return ceiling.clean.value;
    case 'above':
      return ceiling.bpm * JUST_OVER;
    case 'below':
      return ceiling.bpm / JUST_OVER;
  }
}

/** Under what two tempos are alike. */
const JUST_OVER = 1.03;

const known = new Map<string, Posterior>();
/** Posteriors remembered: those of a few phrases. */
const MOST_REMEMBERED = 64;

/** The same bars are asked for more than once: by the table, the course, Review and Today. */
function remembered(tried: readonly TriedBars[]): Posterior {
  const key = tried.map(({ bpm, bars, clean, day }) => `${bpm} ${bars} ${clean} ${day}`).join();
  const one = known.get(key);
  if (one !== undefined) return one;
  const made = posteriorOf(tried);
  if (known.size >= MOST_REMEMBERED) known.clear();
  known.set(key, made);
  return made;
}
