import { isSticking } from '../exercises/sticking';
import type { Grid } from '../exercises/types';
import { courseWords } from './course-words';
import { count, percent, short } from './number-words';
import { reasonWords, type Telling } from './reason-words';
import { measureOrder, type JudgedKey } from './measures';
import type { Report, Weakest } from './types';
import { worstFigureOf } from './named-figures';
import {
  figureOf,
  isShadowOf,
  weakestFirst,
  worstOf,
  type Standing,
  type VariationStanding,
} from './weakest';

/** A report before its words. */
export type Unworded = Omit<Report, 'sentence' | 'weakest'>;

/**
 * The first line of a report. A take that does not fit its grid has only that. What happened to the take as a whole comes
 * first, then of the rest the first that applies: the rig, with the next as a second clause; a slip; the weakest variation.
 * @param grid says on which beat a slip began
 */
export function sentenceOf(report: Unworded, weakest: Found | null, grid: Grid, barsDue: number): string {
  if (!report.fits) return misfitWords(report);
  return [...courseWords(report.course, grid), findingWords(report, weakest, grid, barsDue)].join(' ');
}

/** What is said of how well it was played. */
function findingWords(report: Unworded, weakest: Found | null, grid: Grid, barsDue: number): string {
  const rig = rigWords(report);
  const verdict = (begin?: Beginning): string => verdictWords(report, weakest, barsDue, begin);
  if (rig === undefined) return slipWords(report, grid) ?? verdict();
  const next = slipWords(report, grid, asClause) ?? verdict(asClause);
  return `See to the rig first: ${rig}; then ${next}`;
}

/** Swing is told by itself, before. */
const ofTheTake = measureOrder.filter((key) => key !== 'feel');

/** From here up nothing is worth polishing. */
const NEARLY_IDEAL = 0.99;

/** How a text begins: with a capital as a sentence, or as it is after a semicolon. */
type Beginning = (text: string) => string;

/** Where the weakest variation's fault lives. */
type Found = Omit<Weakest, 'sentence'>;

/**
 * What is weak, where and why; where all hold, that first, and what to polish.
 * @param barsDue bars to play that were due, in all cycles
 */
export function verdictWords(
  report: Unworded,
  found: Found | null,
  barsDue: number,
  begin: Beginning = asSentence,
): string {
  const standings = weakestFirst(report.variations);
  if (standings.length === 0 || found === null) return tooFewWords(report, begin);
  const [first] = standings;
  if (first.supported < 0) return faultWords(report, found, standings, begin);
  const overall = worstOf(report.measures, ofTheTake);
  if (overall && overall.supported < 0) {
    const each =
      report.variations.length === 1 ? 'the phrase holds bar by bar' : 'every variation holds by itself';
    return `${begin(each)}; over the whole take, ${overallReason(report, overall)}.`;
  }
  const soFar = tooFewBarsWords(report, barsDue, begin);
  return soFar ?? [`${begin(holdWords(report, standings))}.`, ...polishWords(report, standings)].join(' ');
}

/** What is out: in a variation, some of them, or the phrase. */
function faultWords(
  report: Unworded,
  { scope, variations }: Found,
  standings: readonly VariationStanding[],
  begin: Beginning,
): string {
  const [first] = standings;
  const telling = tellingOf(report, true);
  const reason = ({ key, variation }: VariationStanding): string =>
    reasonWords(key, variation.measures, telling);
  const judged = report.variations.length;
  if (judged === 1) return `${begin(reason(first))}.`;
  const { name } = first.variation;
  switch (scope) {
    case 'variation':
      return `${begin(name)} is the weak bar: ${reason(first)}.${nextWords(report, standings, telling)}`;
    case 'variations':
      return `${begin(listed(variations))} are the weak bars: in ${name}, ${reason(first)}.`;
    default: {
      const over = worstFigureOf(report.measures, first.key)?.figure;
      const isOut = typeof over?.supported === 'number' && over.supported < 0;
      const why = isOut ? reasonWords(first.key, report.measures, telling) : reason(first);
      return `${begin(`${whereWords(report, first.key, variations.length)} ${why}`)}.`;
    }
  }
}

/** Of the variations in which a measure's strokes occur, how many have its fault. */
function whereWords({ variations }: Unworded, key: JudgedKey, bad: number): string {
  const having = variations.filter(
    ({ measures }) => typeof figureOf(measures, key)?.value === 'number',
  ).length;
  if (2 * bad <= having) return 'over the whole phrase,';
  if (bad < having) return 'in most variations';
  return having === variations.length ? 'in every variation' : 'in every variation that has them';
}

/** The next variation, where another fault of it comes close to the weakest's. */
function nextWords(report: Unworded, standings: readonly VariationStanding[], telling: Telling): string {
  const second = namedIn(standings, report.settings['weakest.tie']).at(1);
  if (second === undefined || second.key === standings[0].key || second.supported >= 0) return '';
  const { name, measures } = second.variation;
  return ` ${asSentence(name)} comes next: ${reasonWords(second.key, measures, telling)}.`;
}

/** Where no variation has bars enough to hold. */
function tooFewBarsWords(report: Unworded, barsDue: number, begin: Beginning): string | undefined {
  const early = report.variations.filter(({ band }) => band === 'too few bars');
  if (early.length === 0 || report.variations.some(({ band }) => band === 'holds')) return undefined;
  const bars = report.bars.filter(({ role }) => role === undefined).length;
  const isCut = 2 * bars <= barsDue;
  const which =
    early.length === report.variations.length
      ? 'all of it looks'
      : `${listed(early.map(({ name }) => name))} ${early.length === 1 ? 'looks' : 'look'}`;
  const played = isCut
    ? `only ${count(bars, 'bar')} of ${barsDue} ${bars === 1 ? 'was' : 'were'} played`
    : 'too few bars to say that it holds';
  return `${begin(played)}: ${which} good so far.`;
}

function polishWords(report: Unworded, standings: readonly VariationStanding[]): readonly string[] {
  const telling = tellingOf(report, false);
  const named = namedIn(standings, report.settings['weakest.tie']);
  const [first, second] = named;
  const reason = ({ key, variation }: VariationStanding): string =>
    reasonWords(key, variation.measures, telling);
  if (first.supported > NEARLY_IDEAL) return ['Nothing measured asks for polish.'];
  if (report.variations.length === 1) return [`To polish: ${reason(first)}.`];
  if (second !== undefined && isAlike(first, second)) {
    return [`To polish: ${first.variation.name} and ${second.variation.name}, where ${reason(first)}.`];
  }
  const polish = named.map((standing) => `${standing.variation.name}, where ${reason(standing)}`);
  return [`To polish: ${polish.join('; and ')}.`];
}

/** As in: accent on 1, accent on 2 and accent on 4. */
function listed(names: readonly string[]): string {
  return names.length < 2
    ? names.join('')
    : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}

/** The same measure out on the same side, of the same hand: worth saying once. */
function isAlike(a: VariationStanding, b: VariationStanding): boolean {
  const side = ({ figure }: VariationStanding): number => Math.sign(figure.value ?? 0);
  return a.key === b.key && a.figure.hand === b.figure.hand && side(a) === side(b);
}

/**
 * The weakest, and the next where it is under the tie (0.2) away. Standings are of different variations. Where `fade`
 * is the reason, a leak of that hand isn't named beside it: a soft second note makes its neighbours look loud.
 */
function namedIn(standings: readonly VariationStanding[], tie: number): readonly VariationStanding[] {
  const [first, second] = standings;
  if (standings.length < 2 || second.supported - first.supported >= tie) return [first];
  const shadow = isShadowOf(second.key, first.key) && first.figure.hand === second.figure.hand;
  return shadow ? [first] : [first, second];
}

function holdWords({ variations }: Unworded, standings: readonly VariationStanding[]): string {
  const holding = variations.filter(({ band }) => band === 'holds').length;
  const which =
    variations.length === 1
      ? 'the phrase'
      : holding < variations.length
        ? 'every variation that was played often enough'
        : 'every variation';
  const sure = standings.every(({ figure }) => figure.sure);
  const missing = variations.filter(({ band }) => band === 'not played').map(({ name }) => name);
  const left =
    missing.length === 0 ? '' : `; ${listed(missing)} ${missing.length === 1 ? 'was' : 'were'} not played`;
  return `${which} holds${sure ? '' : ', though these strokes leave some doubt'}${left}`;
}

function tooFewWords(report: Unworded, begin: Beginning): string {
  const overall = worstOf(report.measures, ofTheTake);
  if (overall === undefined) {
    return `${begin('too few strokes for a verdict')}. Play the phrase round a few more times.`;
  }
  const found = overall.supported < 0 ? overallReason(report, overall) : 'what could be judged holds';
  return `${begin('too few strokes to judge a variation by itself')}; over the whole take, ${found}.`;
}

function overallReason(report: Unworded, { key }: Standing): string {
  return reasonWords(key, report.measures, tellingOf(report, true));
}

function misfitWords({ misfit, settings }: Unworded): string {
  const tempo = misfit?.tempoBpm;
  const at = tempo === undefined ? '' : `, at about ${Math.round(tempo)} bpm`;
  const why = {
    subdivision: `another subdivision or tempo was played${at}`,
    tempo:
      tempo === undefined ? 'another tempo was played' : `it was played at about ${Math.round(tempo)} bpm`,
    swung: 'it was played swung, and the phrase is not written so',
    rig: 'over a quarter of the notes are false ones, echoes or strokes that came twice: see to the pad first',
    unpaired: `under ${short(100 * settings['fit.paired'])} % of the slots or of the strokes found their partner`,
  }[misfit?.reason ?? 'unpaired'];
  return `The take does not fit its grid, so it has no grade: ${why}.`;
}

/** What of the rig stands in the way, as a list; undefined where nothing does. */
function rigWords({ counts, clipping, settings }: Unworded): string | undefined {
  const strokes = counts.matched + counts.slipped + counts.extra;
  const found = [
    { n: counts.echoes, words: 'echoes after' },
    { n: counts.forerunners, words: 'false notes before' },
    { n: counts.crosstalk, words: 'crosstalk with' },
  ]
    .filter(({ n }) => n > 0 && n >= settings['rig.namedFrom'] * strokes)
    .map(({ n, words }) => `${words} ${percent((100 * n) / Math.max(strokes, n))} of the strokes`);
  if (clipping.length > 0) {
    found.push(
      `accents on ${clipping.map((surface) => `"${surface}"`).join(' and ')} reach velocity 127, the most it can report`,
    );
  }
  return found.length === 0 ? undefined : found.join(', ');
}

function slipWords({ slips }: Unworded, grid: Grid, begin: Beginning = asSentence): string | undefined {
  if (slips.length === 0) return undefined;
  const [{ bar, slot, slots, lag }] = slips;
  const start = grid.bars[bar].firstSlot + slot;
  const stretch = grid.slots.slice(start, start + slots);
  const first = stretch.find(({ kind }) => kind === 'accent') ?? stretch[0];
  const off = `${count(Math.abs(lag), 'partial')} ${lag < 0 ? 'behind' : 'ahead'}`;
  const within = first.partialInBeat === 0 ? '' : `, partial ${first.partialInBeat + 1}`;
  const more = slips.length === 1 ? '' : `, and ${count(slips.length - 1, 'more slip')} later`;
  const where = `bar ${first.bar + 1}, beat ${first.beat + 1}${within}`;
  return `${begin('the pattern slipped')}: ${off} from ${where}${more}.`;
}

export function tellingOf(report: Unworded, aims: boolean): Telling {
  const { hands, slots, settings, heights, timeModel, variations } = report;
  const taps = slots.some(({ kind }) => kind === 'tap');
  const ghosts = slots.some(({ kind }) => kind === 'ghost');
  return {
    handsKnown: hands === 'known',
    wrongHandsTold: hands !== 'assumed',
    aims,
    soft: taps && ghosts ? 'soft stroke' : ghosts ? 'ghost note' : 'tap',
    softest: ghosts ? 'ghost note' : 'tap',
    mayBeSwing: timeModel?.notToldApart ?? [],
    variations: variations.length,
    settings,
    ...(heights === undefined ? {} : { heights }),
  };
}

/** A capital letter in front, except of sticking, where a capital is an accent. */
function asSentence(text: string): string {
  return isSticking(text) ? text : text.charAt(0).toUpperCase() + text.slice(1);
}

function asClause(text: string): string {
  return text;
}
