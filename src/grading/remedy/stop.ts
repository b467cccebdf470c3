import { judgedWords } from '../../words/measures';
import type { Hand } from '../../stroke';
import type { Ms } from '../../units';
import type { Finding } from '../finding';
import type { Limit } from '../figures/limit';
import { limitOf } from '../figures/limits';
import { judgedFigureOf, partOf } from '../figures/named-figures';
import type { Telling } from '../reasons';
import type { Figure, JudgedKey, Measures, Report, VariationReport } from '../types';
import { marginOf } from '../verdict';
import { figureOf } from '../weakest';
import { isMadeFrom } from './made-bars';

/** When to stop, in terms that a take of 30 s can measure, and the take that asked for it doesn't meet. */
export interface StopRule {
  readonly measure: JudgedKey;
  /** What of the measure: a seam's time or level; of `contrast`, where the rig has heights, the accents' own level. */
  readonly part?: 'ms' | 'dB' | 'accentDb';
  readonly hand?: Hand;
  /** Variations whose own figures are looked at, in a take that has others too; absent where the whole take's is. */
  readonly variations?: readonly string[];
  /** Of a pattern that slipped: no slip either. */
  readonly noSlip?: true;
  /** In the measure's unit. */
  readonly limit: number;
  /** Where the value must lie. *within*: no farther from nought than the limit. */
  readonly side: 'at most' | 'at least' | 'within';
  /** Takes in a row that must reach it. */
  readonly takes: number;
  /** Minutes after which it is left for the day. */
  readonly minutes: number;
  readonly words: string;
}

/** Common practice, no source; two in a row as the climb has it. */
const TAKES = 2;
const MINUTES = 10;

/**
 * When the remedy of a finding is done: where its measure holds, two takes in a row; and at the latest after ten
 * minutes.
 * @param gapsMs smallest gaps between slots in the take and in the remedy: where a limit goes by the gap, the narrower
 */
export function stopRuleOf(
  finding: Finding,
  report: Report,
  telling: Telling,
  gapsMs: readonly Ms[],
): StopRule {
  const { reason, figure, variation, variations } = finding;
  const measure = reason === 'slip' ? 'complete' : reason;
  const part = figure?.accentDb === undefined ? (finding.part ?? undefined) : 'accentDb';
  const limit = limitFor(measure, part, figure, report, gapsMs);
  const hand = figure?.hand;
  const noSlip = reason === 'slip';
  const rule: Omit<StopRule, 'words'> = {
    measure,
    ...(part === undefined ? {} : { part }),
    ...(hand === undefined ? {} : { hand }),
    ...(variation === null || noSlip
      ? {}
      : { variations: variations.length === 0 ? [variation] : variations }),
    ...(noSlip ? { noSlip: true as const } : {}),
    limit: limit.holds,
    side: sideOf(limit),
    takes: TAKES,
    minutes: MINUTES,
  };
  return {
    ...rule,
    words: `Stop when ${aimWords(rule, telling)} in two takes running, or after ten minutes; at once where anything hurts.`,
  };
}

/** The figure a stop rule looks at: that of its variations which stands worst, else the take's, of its hand where it has one. */
export function stopFigure(
  { measure, part, hand, variations = [] }: Pick<StopRule, 'measure' | 'part' | 'hand' | 'variations'>,
  report: Report,
): Figure | undefined {
  const partOfIt = part === 'accentDb' ? undefined : part;
  const of = (measures: Measures): Figure | undefined =>
    partOfIt === undefined ? figureOf(measures, measure) : partOf(measures, measure, partOfIt);
  const rows = rowsOf(report, variations).flatMap(({ measures }) => of(measures) ?? []);
  const judged = rows.filter(({ value }) => value !== null);
  if (judged.length > 0) return judged.reduce((a, b) => ((b.supported ?? 0) < (a.supported ?? 0) ? b : a));
  const own = hand === undefined ? undefined : report.perHand[hand].measures;
  return of(own?.[measure] === undefined ? report.measures : own);
}

/** Rows of the variations asked for; none where the take has no others than these, and bars made from them. */
function rowsOf(report: Report, wanted: readonly string[]): readonly VariationReport[] {
  const isOne = (name: string): boolean => wanted.some((one) => name === one || isMadeFrom(name, one));
  return report.variations.every(({ name }) => isOne(name))
    ? []
    : report.variations.filter(({ name }) => wanted.includes(name));
}

/**
 * Whether a take of the remedy has come to where its stop rule points.
 * @returns undefined where the take says nothing of it: too few strokes, or not measured
 */
export function isReached(rule: StopRule, report: Report): boolean | undefined {
  const figure = stopFigure(rule, report);
  const value = rule.part === 'accentDb' ? figure?.accentDb : figure?.value;
  if (value === undefined || value === null) return undefined;
  if (rule.noSlip === true && report.slips.length > 0) return false;
  return isOnGoodSide(rule, value) && isOnOtherSide(rule, value, report, figure?.beforeMs);
}

function isOnGoodSide({ side, limit }: StopRule, value: number): boolean {
  switch (side) {
    case 'at most':
      return value <= limit;
    case 'at least':
      return value >= limit;
    case 'within':
      return Math.abs(value) <= limit;
  }
}

/** With a limit either side of the ideal the value may not be beyond the other either. */
function isOnOtherSide(
  { measure, part }: StopRule,
  value: number,
  { settings }: Report,
  beforeMs = Infinity,
): boolean {
  if (part !== undefined || judgedFigureOf(measure).limitGoesBy !== 'the side') return true;
  return marginOf(value, limitOf(measure, settings, { gapMs: Infinity, value, beforeMs })) >= 0;
}

const sideOf = ({ twoSided, holds, notYet }: Limit): StopRule['side'] =>
  twoSided ? 'within' : notYet > holds ? 'at most' : 'at least';

/** Of the limits at several gaps the narrowest. */
function limitFor(
  measure: JudgedKey,
  part: StopRule['part'],
  figure: Figure | null,
  { settings, heights }: Report,
  gapsMs: readonly Ms[],
): Limit {
  const limits = gapsMs.map((gapMs) => {
    const at = {
      gapMs,
      value: figure?.value ?? 0,
      ...(heights === undefined ? {} : { heights }),
      ...(figure?.beforeSoft === true ? { beforeSoft: figure.beforeSoft } : {}),
      ...(figure?.beforeMs === undefined ? {} : { beforeMs: figure.beforeMs }),
    };
    return limitOf(measure, settings, at, part === 'accentDb' ? null : part);
  });
  return limits.reduce((a, b) =>
    (sideOf(a) === 'at least' ? b.holds > a.holds : b.holds < a.holds) ? b : a,
  );
}

function aimWords(
  { measure, part, hand, limit, side, noSlip }: Omit<StopRule, 'words'>,
  { soft, softest, handsKnown }: Telling,
): string {
  const goal = judgedWords[measure].goal({
    limit,
    side,
    ...(part === undefined ? {} : { part }),
    ...(hand === undefined ? {} : { hand }),
    handsKnown,
    soft,
    softest,
  });
  return noSlip === true ? `nothing slips and ${goal}` : goal;
}
