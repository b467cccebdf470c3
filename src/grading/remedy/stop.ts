import { judgedWords } from '../../words/measures';
import type { Hand } from '../../stroke';
import type { Finding } from '../finding';
import type { Limit } from '../figures/limit';
import { limitOf } from '../figures/limits';
import { partOf, worstFigureOf } from '../figures/named-figures';
import type { Telling } from '../reasons';
import type { Figure, JudgedKey, Measures, Report } from '../types';
import { figureOf } from '../weakest';

/** When to stop, in terms that a take of 30 s can measure. */
export interface StopRule {
  readonly measure: JudgedKey;
  /** What of the measure: a seam's time or level; of `contrast`, where the rig has heights, the accents' own level. */
  readonly part?: 'ms' | 'dB' | 'accentDb';
  readonly hand?: Hand;
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
 * @param gapMs gap between slots at the remedy's tempo, which `scatter` and `doubleGap` go by
 */
export function stopRuleOf(finding: Finding, report: Report, telling: Telling, gapMs: number): StopRule {
  const { reason, figure } = finding;
  const measure = reason === 'slip' ? 'complete' : reason;
  const part = partFor(measure, figure, report, finding.variation);
  const limit = limitFor(measure, part, figure, report, gapMs);
  const hand = figure?.hand;
  const rule = {
    measure,
    ...(part === undefined ? {} : { part }),
    ...(hand === undefined ? {} : { hand }),
    limit: limit.holds,
    side: limit.twoSided
      ? ('within' as const)
      : limit.notYet > limit.holds
        ? ('at most' as const)
        : ('at least' as const),
    takes: TAKES,
    minutes: MINUTES,
  };
  return {
    ...rule,
    words: `Stop when ${aimWords(rule, telling)} in two takes running, or after ten minutes; at once where anything hurts.`,
  };
}

/** The figure a stop rule looks at, of a take of the remedy: over the whole take, of the rule's hand where it has one. */
export function stopFigure(
  { measure, part, hand }: Pick<StopRule, 'measure' | 'part' | 'hand'>,
  report: Report,
): Figure | undefined {
  const own = hand === undefined ? undefined : report.perHand[hand].measures;
  const measures: Measures = own?.[measure] === undefined ? report.measures : own;
  return part === undefined || part === 'accentDb'
    ? figureOf(measures, measure)
    : partOf(measures, measure, part);
}

/**
 * Whether a take of the remedy has come to where its stop rule points.
 * @returns undefined where the take says nothing of it: too few strokes, or not measured
 */
export function isReached(rule: StopRule, report: Report): boolean | undefined {
  const figure = stopFigure(rule, report);
  const value = rule.part === 'accentDb' ? figure?.accentDb : figure?.value;
  if (value === undefined || value === null) return undefined;
  switch (rule.side) {
    case 'at most':
      return value <= rule.limit;
    case 'at least':
      return value >= rule.limit;
    case 'within':
      return Math.abs(value) <= rule.limit;
  }
}

/** Of two figures the one that stands worse; where the accents' own level is judged, that. */
function partFor(
  measure: JudgedKey,
  figure: Figure | null,
  report: Report,
  variation: string | null,
): StopRule['part'] {
  if (figure?.accentDb !== undefined) return 'accentDb';
  const measures = variation === null ? report.measures : measuresOf(report, variation);
  return worstFigureOf(measures, measure)?.part ?? undefined;
}

function measuresOf(report: Report, variation: string): Measures {
  return report.variations.find(({ name }) => name === variation)?.measures ?? {};
}

function limitFor(
  measure: JudgedKey,
  part: StopRule['part'],
  figure: Figure | null,
  { settings, heights }: Report,
  gapMs: number,
): Limit {
  const at = { gapMs, value: figure?.value ?? 0, ...(heights === undefined ? {} : { heights }) };
  return limitOf(measure, settings, at, part === 'accentDb' ? null : part);
}

function aimWords({ measure, part, hand, limit }: Omit<StopRule, 'words'>, telling: Telling): string {
  const { soft, softest, handsKnown } = telling;
  return judgedWords[measure].goal({
    limit,
    ...(part === undefined ? {} : { part }),
    ...(hand === undefined ? {} : { hand }),
    handsKnown,
    soft,
    softest,
  });
}
