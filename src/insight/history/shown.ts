import type { TakeSummary } from '../../sessions/take-record';
import type { HistoryView } from './view';
import { courseOf, type CoursePoint, type PhraseProgress } from '../ceiling/progress';
import { byDay as triedByDay, type TriedBars } from '../../grading/tried-bars';
import { progressNow, triedIn } from './ceilings';
import { phrasesPlayed, rigsPlayed, type Choice } from './choices';
import { byDay, daysAPoint } from './days';
import { weeksPlayed, type WeekPlayed } from './minutes';
import { playedOf } from './played';
import { followed, marksOf, seriesOf, takesOf, type Followed, type Mark, type SeriesPoint } from './series';
import { trendOf, type Trend } from './trend';

/** One figure over weeks, with what became of it. */
export interface Line {
  readonly what: Followed;
  /** Cold and warm, in the order of days. */
  readonly points: readonly SeriesPoint[];
  /** Of which takes the trend is: warm ones, unless only the cold ones are enough. Empty where there is one kind. */
  readonly kind: '' | 'warm' | 'cold';
  readonly trend: Trend;
  /** That of the cold takes, where the trend is of the warm ones. */
  readonly coldTrend: Trend | null;
}

/** Bars of one variation by tempo and day, with the course of its ceiling. */
export interface CeilingCourse {
  /** The variation: the one asked for, else the weakest. */
  readonly of: string;
  readonly tried: readonly TriedBars[];
  /** A row a spell, oldest first. */
  readonly spells: readonly (readonly CoursePoint[])[];
}

/** All that History shows of one player's takes. */
export interface HistoryShown {
  readonly phrases: readonly Choice[];
  readonly phrase: Choice;
  readonly rigs: readonly Choice[];
  readonly rig: Choice;
  readonly variations: readonly string[];
  /** The one asked for; null for the phrase's, which is the weakest one's. */
  readonly variation: string | null;
  /** Null where no bar was tried. */
  readonly course: CeilingCourse | null;
  /** One of each, those that have no points too. */
  readonly lines: readonly Line[];
  readonly marks: readonly Mark[];
  readonly progress: PhraseProgress;
  readonly takes: number;
  /** Days of the first take and the last. */
  readonly from: number;
  readonly to: number;
  readonly cold: number;
  /** Takes that have no figures: not graded, or not to be graded. */
  readonly ungraded: number;
  readonly weeks: readonly WeekPlayed[];
}

/** Spells whose ceiling is drawn: about two years of terms; bars of all years are. */
const MOST_SPELLS = 6;

/**
 * @param mostSpells of which the ceiling's curve is drawn, the newest ones
 * @returns undefined where nothing was played
 */
export function historyShown(
  takes: readonly TakeSummary[],
  view: HistoryView,
  sheetWords: (sheetId: string) => string,
  eastMinutes: number,
  mostSpells = MOST_SPELLS,
): HistoryShown | undefined {
  const phrases = phrasesPlayed(takes);
  const phrase = phrases.find(({ id }) => id === view.phraseKey) ?? phrases.at(0);
  if (phrase === undefined) return undefined;
  const rigs = rigsPlayed(takes, phrase.id);
  const rig = rigs.find(({ id }) => id === view.rigId) ?? rigs[0];
  const all = playedOf(takes, eastMinutes);
  const played = takesOf(all, phrase.id, rig.id);
  const own = played.map(({ take }) => take);
  const progress = progressNow(own, eastMinutes);
  const variations = [...progress.variations.keys()];
  const variation = variations.find((name) => name === view.variation) ?? null;
  const onRig = all.filter(({ take }) => take.rigId === rig.id);
  const { title } = own[0];
  return {
    phrases,
    phrase,
    rigs,
    rig,
    variations,
    variation,
    course: courseShown(
      (of) => triedIn(own, eastMinutes, of),
      variation ?? progress.weakest ?? variations.at(0),
      mostSpells,
    ),
    lines: followed.map((what) => lineOf(what, byDay(seriesOf(played, what)))),
    marks: marksOf(onRig, { phraseKey: phrase.id, title }, sheetWords),
    progress,
    takes: own.length,
    from: played[0].day,
    to: played[played.length - 1].day,
    cold: played.filter(({ cold }) => cold).length,
    ungraded: own.filter(({ graded }) => graded === null).length,
    weeks: weeksPlayed(all),
  };
}

function courseShown(
  triedOf: (variation: string) => readonly TriedBars[],
  of: string | undefined,
  mostSpells: number,
): CeilingCourse | null {
  if (of === undefined) return null;
  const tried = triedOf(of);
  // where years stand in the width of weeks, squares of single days only hide each other
  const width = daysAPoint(tried.map(({ day }) => day));
  const inBlocks = tried.map((one) => ({ ...one, day: width * Math.floor(one.day / width) + (width >> 1) }));
  return { of, tried: triedByDay(inBlocks), spells: courseOf(tried, mostSpells) };
}

/** Less is not heard, nor read. Source: look.md, Words. */
const LEAST: Readonly<Record<Followed, number>> = { margin: 0.1, contrast: 0.5, balance: 0.5, lag: 1 };

/** A change that nobody hears is none. */
function shownTrend(what: Followed, points: readonly SeriesPoint[]): Trend {
  const trend = trendOf(points);
  if (trend.kind !== 'known' || Math.abs(trend.to - trend.from) >= LEAST[what]) return trend;
  return { ...trend, change: 'none' };
}

function lineOf(what: Followed, points: readonly SeriesPoint[]): Line {
  const [cold, warm] = [true, false].map((kind) => points.filter((point) => point.cold === kind));
  if (cold.length === 0 || warm.length === 0) {
    return { what, points, kind: '', trend: shownTrend(what, points), coldTrend: null };
  }
  const [ofWarm, ofCold] = [shownTrend(what, warm), shownTrend(what, cold)];
  const byCold = ofWarm.kind === 'too few' && ofCold.kind === 'known';
  return byCold
    ? { what, points, kind: 'cold', trend: ofCold, coldTrend: null }
    : { what, points, kind: 'warm', trend: ofWarm, coldTrend: ofCold };
}
