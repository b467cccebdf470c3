import { isSticking } from '../exercises/sticking';
import type { Grid } from '../exercises/types';
import { courseWords } from './course-words';
import { count, percent, short } from './number-words';
import { reasonWords, type Telling } from './reason-words';
import { measureOrder } from './measures';
import type { Report } from './types';
import { isShadowOf, weakestFirst, worstOf, type Standing, type VariationStanding } from './weakest';

/** A report before its words. */
export type Unworded = Omit<Report, 'sentence' | 'weakest'>;

/**
 * The first line of a report. A take that does not fit its grid has only that. What happened to the take as a whole comes
 * first, then of the rest the first that applies: the rig, with the next as a second clause; a slip; the weakest variation.
 * @param grid says on which beat a slip began
 */
export function sentenceOf(report: Unworded, grid: Grid): string {
  if (!report.fits) return misfitWords(report);
  return [...courseWords(report.course, grid), findingWords(report, grid)].join(' ');
}

/** What is said of how well it was played. */
function findingWords(report: Unworded, grid: Grid): string {
  const rig = rigWords(report);
  if (rig === undefined) return slipWords(report, grid) ?? verdictWords(report);
  const next = slipWords(report, grid, asClause) ?? verdictWords(report, asClause);
  return `See to the rig first: ${rig}; then ${next}`;
}

/** Swing is told by itself, before. */
const ofTheTake = measureOrder.filter((key) => key !== 'feel');

/** From here up nothing is worth polishing. */
const NEARLY_IDEAL = 0.99;

/** How a text begins: with a capital as a sentence, or as it is after a semicolon. */
type Beginning = (text: string) => string;

/** What the weakest variation is and why; where all hold, that first, and what to polish. */
export function verdictWords(report: Unworded, begin: Beginning = asSentence): string {
  const standings = weakestFirst(report.variations);
  if (standings.length === 0) return tooFewWords(report, begin);
  const named = namedIn(standings, report.settings['weakest.tie']);
  const [first, second] = named;
  const telling = tellingOf(report, first.supported < 0);
  const reason = ({ key, variation }: VariationStanding): string =>
    reasonWords(key, variation.measures, telling);
  const single = report.variations.length === 1;
  if (first.supported < 0) {
    if (single) return `${begin(reason(first))}.`;
    const close = second
      ? ` ${asSentence(second.variation.name)} comes close behind${isAlike(first, second) ? ', for the same reason' : `: ${reason(second)}`}.`
      : '';
    return `${begin(first.variation.name)} holds the phrase back: ${reason(first)}.${close}`;
  }
  const overall = worstOf(report.measures, ofTheTake);
  if (overall && overall.supported < 0) {
    const each = single ? 'the phrase holds bar by bar' : 'every variation holds by itself';
    return `${begin(each)}; over the whole take, ${overallReason(report, overall)}.`;
  }
  const holds = `${begin(holdWords(report, standings))}.`;
  if (first.supported > NEARLY_IDEAL) return `${holds} Nothing measured asks for polish.`;
  if (single) return `${holds} To polish: ${reason(first)}.`;
  if (second && isAlike(first, second)) {
    return `${holds} To polish: ${first.variation.name} and ${second.variation.name}, where ${reason(first)}.`;
  }
  const polish = named.map((standing) => `${standing.variation.name}, where ${reason(standing)}`);
  return `${holds} To polish: ${polish.join('; and ')}.`;
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
  const which =
    variations.length === 1
      ? 'the phrase'
      : standings.length < variations.length
        ? 'every variation that could be judged'
        : 'every variation';
  const sure = standings.every(({ figure }) => figure.sure);
  return `${which} holds${sure ? '' : ', though these strokes leave some doubt'}`;
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
