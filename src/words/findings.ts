import { isSticking } from '../exercises/sticking';
import { capital, listed, plural } from '../text';
import { count, dB } from './numbers';
import { leakPlaces, reasonWords, type Reason } from './measures';
import type { Beginning, Sayings } from './saying';

/** A capital letter in front, except of sticking, where a capital is an accent. */
const asSentence: Beginning = (text) => (isSticking(text) ? text : capital(text));

/** Another leak of the hand that is named, dB. */
interface AlsoLeak {
  readonly where: keyof typeof leakPlaces;
  readonly db: number;
}

/** A variation, and what is least good of it. */
interface OfVariation {
  readonly variation: string;
  readonly reason: Reason;
}

const places = {
  phrase: 'over the whole phrase,',
  most: 'in most variations',
  every: 'in every variation',
  'every that has them': 'in every variation that has them',
} as const;

const holding = {
  phrase: 'the phrase',
  'every one': 'every variation',
  'every one played often enough': 'every variation that was played often enough',
} as const;

/** What is said of how well it was played. */
export const findingSentences = {
  /** @param lag partials, negative is behind @param bar @param beat @param partial from 0 @param more slips after it */
  slipped(
    {
      lag,
      bar,
      beat,
      partial,
      more,
    }: {
      readonly lag: number;
      readonly bar: number;
      readonly beat: number;
      readonly partial: number;
      readonly more: number;
    },
    begin: Beginning = asSentence,
  ) {
    const off = `${count(Math.abs(lag), 'partial')} ${lag < 0 ? 'behind' : 'ahead'}`;
    const within = partial === 0 ? '' : `, partial ${partial + 1}`;
    const later = more === 0 ? '' : `, and ${count(more, 'more slip')} later`;
    return `${begin('the pattern slipped')}: ${off} from bar ${bar + 1}, beat ${beat + 1}${within}${later}.`;
  },
  /** @param also where else that hand leaks in it @param next the variation that comes next, with another fault */
  'weak bar': (
    {
      variation,
      reason,
      also = [],
      next,
    }: OfVariation & { readonly also?: readonly AlsoLeak[]; readonly next?: OfVariation },
    begin: Beginning = asSentence,
  ) => {
    const then =
      next === undefined ? '' : ` ${asSentence(next.variation)} comes next: ${reasonWords(next.reason)}.`;
    const beside = also.map(({ where, db }) => `, and the one ${leakPlaces[where]} by ${dB(db)}`).join('');
    return `${begin(variation)} is the weak bar: ${reasonWords(reason)}${beside}.${then}`;
  },
  /** @param worst the one of them that the reason is of */
  'weak bars': (
    {
      variations,
      worst,
      reason,
    }: { readonly variations: readonly string[]; readonly worst: string; readonly reason: Reason },
    begin: Beginning = asSentence,
  ) => `${begin(listed(variations))} are the weak bars: in ${worst}, ${reasonWords(reason)}.`,
  /** Of what doesn't lead. @param alike variations that are as bad */
  'in variation': (
    { variation, alike, reason }: OfVariation & { readonly alike: readonly string[] },
    begin: Beginning = asSentence,
  ) => {
    const beside = alike.length === 0 ? '' : `; ${listed(alike)} ${plural(alike.length, 'is', 'are')} alike`;
    return `${begin(`in ${variation}, ${reasonWords(reason)}`)}${beside}.`;
  },
  'out in many': (
    { where, reason }: { readonly where: keyof typeof places; readonly reason: Reason },
    begin: Beginning = asSentence,
  ) => `${begin(`${places[where]} ${reasonWords(reason)}`)}.`,
  /** Of a phrase of one variation. */
  'phrase out': ({ reason }: { readonly reason: Reason }, begin: Beginning = asSentence) =>
    `${begin(reasonWords(reason))}.`,
  /** @param single true of a phrase of one variation */
  'take out': (
    { single, holds, reason }: { readonly single: boolean; readonly holds: boolean; readonly reason: Reason },
    begin: Beginning = asSentence,
  ) => {
    const found = `over the whole take, ${reasonWords(reason)}`;
    if (!holds) return `${begin(found)}.`;
    return `${begin(single ? 'the phrase holds bar by bar' : 'every variation holds by itself')}; ${found}.`;
  },
  /** @param variations those with too few bars, empty for all @param only where half the take or more was left out */
  'good so far'(
    {
      variations,
      only,
    }: {
      readonly variations: readonly string[];
      readonly only?: { readonly bars: number; readonly due: number };
    },
    begin: Beginning = asSentence,
  ) {
    const played =
      only === undefined
        ? 'too few bars to say that it holds'
        : `only ${count(only.bars, 'bar')} of ${only.due} ${plural(only.bars, 'was', 'were')} played`;
    const which =
      variations.length === 0
        ? 'all of it looks'
        : `${listed(variations)} ${plural(variations.length, 'looks', 'look')}`;
    return `${begin(played)}: ${which} good so far.`;
  },
  /** @param polish what is least good, of which variations (none named of a phrase of one); none where all is near its ideal; left out
   * where something else comes first */
  holds(
    {
      which,
      sure,
      notPlayed,
      polish,
    }: {
      readonly which: keyof typeof holding;
      readonly sure: boolean;
      readonly notPlayed: readonly string[];
      readonly polish?: readonly { readonly variations: readonly string[]; readonly reason: Reason }[];
    },
    begin: Beginning = asSentence,
  ) {
    const doubt = sure ? '' : ', though these strokes leave some doubt';
    const left =
      notPlayed.length === 0
        ? ''
        : `; ${listed(notPlayed)} ${plural(notPlayed.length, 'was', 'were')} not played`;
    const holds = `${begin(holding[which])} holds${doubt}${left}.`;
    if (polish === undefined) return holds;
    if (polish.length === 0) return `${holds} Nothing measured asks for polish.`;
    const parts = polish.map(({ variations, reason }) =>
      variations.length === 0 ? reasonWords(reason) : `${listed(variations)}, where ${reasonWords(reason)}`,
    );
    return `${holds} To polish: ${parts.join('; and ')}.`;
  },
  'too few strokes': (_: object, begin: Beginning = asSentence) =>
    `${begin('too few strokes for a verdict')}. Play the phrase round a few more times.`,
  /** @param reason what is out over the whole take; left out where nothing is */
  'too few strokes of a variation': (
    { reason }: { readonly reason?: Reason },
    begin: Beginning = asSentence,
  ) =>
    `${begin('too few strokes to judge a variation by itself')}; over the whole take, ${
      reason === undefined ? 'what could be judged holds' : reasonWords(reason)
    }.`,
} as const;

/** Said wherever it leads. */
export const CHOSEN = 'Chosen by the teacher to come first.';

/** Beside it, what the report itself leads with. */
export const ofItself = (sentence: string): string => `The report itself leads with: ${sentence}`;

export type Finding = Sayings<typeof findingSentences>;
