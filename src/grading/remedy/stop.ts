import type { Hand } from '../../stroke';
import type { Finding } from '../finding';
import type { Limit } from '../limit';
import { limitOf } from '../limits';
import { partOf, worstFigureOf } from '../named-figures';
import { dB, ms, percent, short } from '../../words/numbers';
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

const word: Readonly<Record<Hand, string>> = { R: 'right', L: 'left' };

function aimWords({ measure, part, hand, limit }: Omit<StopRule, 'words'>, telling: Telling): string {
  const { soft, softest, handsKnown } = telling;
  const softs =
    hand === undefined
      ? `the ${soft}`
      : handsKnown
        ? `the ${word[hand]} hand’s ${soft}`
        : `the ${soft} due with the ${word[hand]}`;
  const db = `${short(limit)} dB`;
  const leak = (where: string): string =>
    `${softs} ${where} is at most ${db} louder than that hand’s other ${soft}s`;
  switch (measure) {
    case 'complete':
      return `${percent(100 * limit)} of the strokes or more are right`;
    case 'scatter':
      return `the strokes scatter by ${ms(limit)} at most`;
    case 'leakBefore':
      return leak('before its accent');
    case 'leakAfter':
      return leak('after its accent');
    case 'spill':
      return leak('beside the other hand’s accent');
    case 'softRange':
      return `${softs}s differ by ${db} at most from place to place`;
    case 'softness':
      return `the ${softest}s sit at ${dB(limit)} or softer`;
    case 'ghostContrast':
      return `the ghost notes are ${db} or more under the taps`;
    case 'contrast':
      return part === 'accentDb'
        ? `the accents sit at ${dB(limit)} or louder`
        : `the accents are ${db} or more above the ${soft}s`;
    case 'clarity':
      return `an accent is louder than a ${soft} in ${short(100 * limit)} of 100 pairs or more`;
    case 'fade':
      return `the second note of the doubles is within ${db} of the first`;
    case 'doubleGap':
      return `the doubles are within ${percent(limit)} of their gap`;
    case 'balanceSoft':
      return `both hands’ ${soft}s are within ${db} of each other`;
    case 'balanceAccent':
      return `both hands’ accents are within ${db} of each other`;
    case 'lag':
      return `both hands come within ${ms(limit)} of each other`;
    case 'seam':
      return part === 'dB'
        ? `the first stroke after a change is within ${db} of its like later in the bar`
        : `the first stroke after a change is within ${ms(limit)} of its time`;
    case 'arrival':
      return `that bar comes within ${ms(limit)} of the others`;
    case 'feel':
      return `every second note is within ${percent(limit)} of its place`;
    case 'graceEvenness':
      return `the grace notes’ gaps vary by ${ms(limit)} at most`;
    case 'graceHands':
      return `the grace notes of both hands are within ${ms(limit)} of each other`;
    case 'dragGap':
      return `the notes of the drags are ${ms(limit)} or ${limit < 58 ? 'more' : 'less'} apart`;
    case 'flamGap':
      return `the grace notes come ${ms(limit)} or ${limit < 40 ? 'more' : 'less'} before their strokes`;
    case 'graceSoftness':
      return `the grace notes are ${short(Math.abs(limit))} dB or more softer than the strokes they lead to`;
    case 'softSpread':
      return `the ${softest}s vary by ${db} at most`;
    case 'accentSpread':
      return `the accents vary by ${db} at most`;
  }
}
