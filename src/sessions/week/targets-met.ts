import { limitOf, type Limit } from '../../grading/figures/limits';
import { judgedFigureOf } from '../../grading/figures/named-figures';
import { isCleanShare } from '../../grading/clean-share';
import { likeTempi } from '../../grading/tried-bars';
import type { Figure, Report } from '../../grading/types';
import { marginOf } from '../../grading/verdict';
import { settingsOf } from '../../settings';
import type { Bpm } from '../../units';
import { barsTried } from '../take-bars';
import type { Take } from '../types';
import type { TargetMeasure, WeekSheet, WeekTarget } from '../week-sheet';
import { gapMsOf } from './new-target';

/** A take that came back, with its report. */
export interface Returned {
  readonly take: Take;
  readonly report: Report;
}

/** What became of a target. *not told*: no take can say, because it has too few strokes or did not fit. */
export interface TargetOutcome {
  readonly target: WeekTarget;
  readonly outcome: 'met' | 'not met' | 'not told';
  /** The nearest that any take came, in the target's unit; null where there is nothing to say. */
  readonly best: number | null;
}

/** A tempo is told by a take of so many bars, so many of them about it. Source: grading.md section 7. */
const FEWEST_BARS = 5;
const FEWEST_ALIKE = 4;

/**
 * Which targets of a week sheet the takes that came back met. A target is met where one take meets it; minutes add up
 * over all of them. Takes of another phrase are the caller's to leave out.
 */
export function targetsMet(
  sheet: Pick<WeekSheet, 'targets' | 'phrase' | 'bpm' | 'limits'>,
  returned: readonly Returned[],
): readonly TargetOutcome[] {
  return sheet.targets.map((target) => outcomeOf(target, returned, limitsOf(sheet)));
}

function outcomeOf(target: WeekTarget, returned: readonly Returned[], limitAt: LimitOf): TargetOutcome {
  switch (target.kind) {
    case 'tempo': {
      const held = returned.flatMap(({ take, report }) => heldBpm(take, report));
      const best = held.length === 0 ? null : Math.max(...held);
      return { target, outcome: best !== null && best >= target.bpm ? 'met' : missedOr(returned), best };
    }
    case 'holds': {
      const bands = returned.map(({ report }) => bandsOf(report, target.variation));
      const met = bands.some((all) => all.length > 0 && all.every((band) => band === 'holds'));
      const isKnown = bands.some((all) => all.some((band) => band === 'close' || band === 'not yet'));
      return { target, outcome: met ? 'met' : isKnown ? 'not met' : 'not told', best: null };
    }
    case 'measure': {
      const figures = returned.flatMap(({ report }) => figureOf(report, target.measure, target.variation));
      const values = figures.flatMap(({ value }) => (value === null ? [] : [value]));
      if (values.length === 0) return { target, outcome: 'not told', best: null };
      const best = bestOf(values, target, limitAt);
      return { target, outcome: reaches(best, target, limitAt) ? 'met' : 'not met', best };
    }
    case 'minutes': {
      const best = returned.reduce((sum, { take }) => sum + minutesOf(take), 0);
      return { target, outcome: best >= target.minutes ? 'met' : 'not met', best };
    }
  }
}

/**
 * Tempos of a take at which four bars of five were clean, bars of like tempo together, so that a ramp's and a free take's
 * count too; none where a variation is *not yet*: a phrase's tempo is its weak bar's.
 */
function heldBpm({ phrase, tempo }: Take, report: Report): readonly Bpm[] {
  if (report.bars.filter(({ role }) => role === undefined).length < FEWEST_BARS) return [];
  if (report.variations.some(({ band }) => band === 'not yet')) return [];
  const tried = barsTried(report, phrase, tempo).map(({ bpm, bars, held }) => ({
    bpm,
    bars,
    clean: held,
    day: 0,
  }));
  return likeTempi(tried)
    .filter(({ bars, clean }) => bars >= FEWEST_ALIKE && isCleanShare(clean, bars))
    .map(({ bpm }) => bpm);
}

const missedOr = (returned: readonly Returned[]): TargetOutcome['outcome'] =>
  returned.some(({ report }) => report.bars.length >= FEWEST_BARS) ? 'not met' : 'not told';

const bandsOf = ({ variations }: Report, wanted: string | undefined): readonly string[] =>
  variations.filter(({ name }) => wanted === undefined || name === wanted).map(({ band }) => band);

/** The whole take's figure, or those of one variation. */
function figureOf(report: Report, measure: TargetMeasure, wanted: string | undefined): readonly Figure[] {
  const of =
    wanted === undefined
      ? [report.measures]
      : report.variations.filter(({ name }) => name === wanted).map(({ measures }) => measures);
  return of.flatMap((measures) => measures[measure] ?? []);
}

type MeasureTarget = Extract<WeekTarget, { kind: 'measure' }>;

/** The value, without its sign where either direction is as bad. */
function sizeOf(value: number, { measure }: MeasureTarget, limitAt: LimitOf): number {
  return limitAt(measure, value).twoSided ? Math.abs(value) : value;
}

/** The limit of a measure under the sheet's settings, on the side of a value. */
type LimitOf = (measure: TargetMeasure, value: number) => Limit;

function limitsOf(sheet: Pick<WeekSheet, 'phrase' | 'bpm' | 'limits'>): LimitOf {
  const settings = settingsOf(sheet.limits);
  const gapMs = gapMsOf(sheet);
  return (measure, value) => limitOf(measure, settings, { gapMs, value });
}

const hasTwoLimits = (measure: TargetMeasure): boolean => judgedFigureOf(measure).limitGoesBy === 'the side';

/** The value nearest to the target; with a limit either side of the ideal the one that stands best. */
function bestOf(values: readonly number[], target: MeasureTarget, limitAt: LimitOf): number {
  const worth = values.map((value) => {
    if (hasTwoLimits(target.measure)) return marginOf(value, limitAt(target.measure, value));
    return (target.atMost === undefined ? 1 : -1) * sizeOf(value, target, limitAt);
  });
  return values[worth.indexOf(Math.max(...worth))];
}

/**
 * On the good side of the target's limit. A measure with a limit either side of its ideal has one in the target; on the
 * other side the sheet's own holds: a flat flam is within no gap of graces.
 */
function reaches(value: number, target: MeasureTarget, limitAt: LimitOf): boolean {
  const { measure, atMost, atLeast = Infinity } = target;
  const size = sizeOf(value, target, limitAt);
  if (atMost === undefined ? size < atLeast : size > atMost) return false;
  if (!hasTwoLimits(measure)) return true;
  const limit = limitAt(measure, value);
  const isOther = atMost === undefined ? value > limit.ideal : value < limit.ideal;
  return !isOther || marginOf(value, limit) >= 0;
}

const MINUTE_MS = 60_000;

/** From the first stroke to the last. */
function minutesOf({ hits }: Take): number {
  return hits.length === 0 ? 0 : (hits[hits.length - 1].atMs - hits[0].atMs) / MINUTE_MS;
}
