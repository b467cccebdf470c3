import type { Settings } from '../settings';
import type { Hand } from '../stroke';
import type { Db } from '../units';
import { accentAimWords, heightWords, softAimWords, type Heights } from './heights';
import { dB, fixed, ms, percent, short } from './numbers';
import { attendToWrong, forWrong, wrongWords, type Wrong, type WrongKind } from './wrong';

/** What a reason is said from: the figure, and what it needs to know beside it. */
interface ReasonFacts {
  readonly value: number;
  readonly hand?: Hand;
  /** Which figure of a measure with two. */
  readonly part?: 'ms' | 'dB';
  /** Where the value is a lower bound. */
  readonly atLeast?: true;
  /** Median accent, where it is judged by the rig's heights. */
  readonly accentDb?: Db;
  /** The rig's own, where it has learned them. */
  readonly heights?: Heights;
  /** What is aimed at, where that belongs beside the figure: not where it is reached. */
  readonly aim?: number;
  /** The ideal of a measure with a limit either side of it. */
  readonly ideal?: number;
  /** True where the surfaces say which hand struck; else hands are those the sticking has due. */
  readonly handsKnown: boolean;
  /** Of `complete`: what went wrong, by kind. */
  readonly wrong?: Wrong;
  /** What the phrase's soft strokes are, and the softest of them. */
  readonly soft: SoftName;
  readonly softest: SoftName;
  /** Where nothing in the take can keep it apart from a swing. */
  readonly mayBeSwing?: true;
  /** Variations in the phrase. */
  readonly variations: number;
}

/** What a phrase's soft strokes are called. */
export type SoftName = 'tap' | 'ghost note' | 'soft stroke';

const handWord: Readonly<Record<Hand, string>> = { R: 'right', L: 'left' };

/** What an aim to be reached is said from. */
interface GoalFacts {
  readonly limit: number;
  readonly side: 'at most' | 'at least' | 'within';
  readonly part?: 'ms' | 'dB' | 'accentDb';
  readonly hand?: Hand;
  readonly handsKnown: boolean;
  readonly soft: SoftName;
  readonly softest: SoftName;
}

/** What is said of practising it is said from. */
export type Practised = Pick<GoalFacts, 'hand' | 'soft' | 'softest'> & {
  /** Of `complete`: what mostly went wrong. */
  readonly wrong?: WrongKind;
};

/** What is said of any measure. */
interface NamedWords {
  readonly name: string;
  /** '' where it has none. */
  readonly unit: string;
}

/** And of one that is judged. */
interface JudgedWords extends NamedWords {
  /** Head of its column, with its unit; left out where it has none. */
  readonly head?: string;
  /** Where it holds. @param heights the rig's, where it has learned them */
  readonly aim: (settings: Settings, heights?: Heights) => string;
  /**
   * Why a variation stands where it does: a clause a teacher would say, without capital or full stop.
   * For instance: the left hand's tap before its accent is 5.1 dB louder than its other taps
   */
  readonly reason: (facts: ReasonFacts) => string;
  /** When to stop practising it. */
  readonly goal: (facts: GoalFacts) => string;
  /** What to attend to while practising it, and what that is for. */
  readonly attend: (facts: Practised) => string;
  readonly purpose: (facts: Practised) => string;
}

/** Where a soft stroke leaks. */
const BEFORE = 'before its accent';
const AFTER = 'after its accent';
const BESIDE = 'beside the other hand’s accent';
export const leakPlaces = { leakBefore: BEFORE, leakAfter: AFTER, spill: BESIDE } as const;

/** All that is said of each measure. */
const table = {
  complete: {
    name: 'complete',
    unit: '%',
    head: 'complete %',
    aim: (settings) => `aim ${short(100 * settings['complete.holds'])} % or more`,
    reason: ({ value, wrong = {} }) => {
      const rest = wrongWords(wrong);
      return `${percent(100 * value, 1)} of the strokes are right${rest === '' ? '' : `: ${rest}`}`;
    },
    goal: ({ limit }) => `${percent(100 * limit)} of the strokes or more are right`,
    attend: ({ wrong }) => attendToWrong[wrong ?? 'slip'],
    purpose: ({ wrong }) => forWrong[wrong ?? 'slip'],
  },
  scatter: {
    name: 'scatter',
    unit: 'ms',
    head: 'scatter ms',
    aim: (settings) =>
      `aim under ${short(settings['scatter.holdsPercent'])} % of the gap, ${short(settings['scatter.holdsLeastMs'])} to ${short(settings['scatter.holdsMostMs'])} ms`,
    reason: ({ value }) => `the strokes scatter by ${ms(value)} about their own places`,
    goal: ({ limit }) => `the strokes scatter by ${ms(limit)} at most`,
    attend: () => 'let every stroke arrive with the click’s own steps, and breathe',
    purpose: () => 'so that the same place comes at the same time each round',
  },
  leakBefore: {
    name: 'leak before',
    unit: 'dB',
    head: 'leak before dB',
    aim: (settings) => `aim under ${short(settings['leakBefore.holds'])} dB`,
    reason: (facts) => leak(BEFORE, facts),
    goal: (facts) => leakGoal(BEFORE, facts),
    attend: ({ hand }) => `keep ${stick(hand)} low until the accent itself`,
    purpose: ({ soft, hand }) => `so that the ${soft}${ofThe(hand)} before an accent is as soft as the rest`,
  },
  leakAfter: {
    name: 'leak after',
    unit: 'dB',
    head: 'after dB',
    aim: (settings) => `aim under ${short(settings['leakAfter.holds'])} dB`,
    reason: (facts) => leak(AFTER, facts),
    goal: (facts) => leakGoal(AFTER, facts),
    attend: ({ soft, hand }) =>
      `stop ${stick(hand)} low after the accent, and start the next ${soft} from there`,
    purpose: ({ soft, hand }) => `so that the ${soft}${ofThe(hand)} after an accent is as soft as the rest`,
  },
  spill: {
    name: 'spill',
    unit: 'dB',
    head: 'spill dB',
    aim: (settings) => `aim under ${short(settings['spill.holds'])} dB`,
    reason: (facts) => leak(BESIDE, facts),
    goal: (facts) => leakGoal(BESIDE, facts),
    attend: ({ hand }) => `leave ${stick(hand)} low while the other hand accents`,
    purpose: ({ soft, hand }) => `so that a ${soft}${ofThe(hand)} stays soft beside the other hand’s accent`,
  },
  softRange: {
    name: 'range of soft places',
    unit: 'dB',
    head: 'soft range dB',
    aim: (settings) => `aim under ${short(settings['softRange.holds'])} dB`,
    reason: (facts) => `${ofHand(`${facts.soft}s`, facts)} differ by ${dB(facts.value)} from place to place`,
    goal: (facts) => `${softs(facts)}s differ by ${short(facts.limit)} dB at most from place to place`,
    attend: ({ softest }) => `start every ${softest} from one height`,
    purpose: ({ softest }) => `so that all ${softest}s are alike`,
  },
  softness: {
    name: 'softness',
    unit: 'dB',
    head: 'soft dB',
    aim: (settings, heights) =>
      heights === undefined
        ? `aim ${short(settings['softness.holds'])} dB or softer`
        : `aim ${softAimWords(heights)}`,
    reason: ({ value, softest, heights, aim }) =>
      heights !== undefined
        ? `the ${softest}s sit ${heightWords(value, heights)}${aim === undefined ? '' : theAim(softAimWords(heights))}`
        : `the ${softest}s sit at ${dB(value)}${aim === undefined ? '' : theAim(`${short(aim)} dB or softer`)}`,
    goal: ({ limit, softest }) => `the ${softest}s sit at ${dB(limit)} or softer`,
    attend: ({ softest }) => `start every ${softest} from low`,
    purpose: ({ softest }) => `so that the ${softest}s are soft enough`,
  },
  ghostContrast: {
    name: 'tap over ghost',
    unit: 'dB',
    head: 'ghost contrast dB',
    aim: (settings) => `aim ${short(settings['ghostContrast.holds'])} dB or more`,
    reason: ({ value, aim }) => `the ghost notes are ${louder(-value, 'the taps')}${orMore(aim)}`,
    goal: ({ limit }) => `the ghost notes are ${short(limit)} dB or more under the taps`,
    attend: () => 'start the ghost notes from lower than the taps',
    purpose: () => 'so that taps and ghost notes are two things',
  },
  contrast: {
    name: 'contrast',
    unit: 'dB',
    head: 'contrast dB',
    aim: (settings, heights) =>
      heights === undefined
        ? `aim ${short(settings['contrast.holds'])} dB or more`
        : `aim accents ${accentAimWords(heights)}`,
    reason({ value, soft, atLeast, accentDb, heights, aim }) {
      const apart = `${atLeast ? 'at least ' : ''}${louder(value, `the ${soft}s`)}`;
      return heights !== undefined && accentDb !== undefined
        ? `the accents sit ${heightWords(accentDb, heights)}, ${apart}${aim === undefined ? '' : theAim(accentAimWords(heights))}`
        : `the accents are ${apart}${orMore(aim)}`;
    },
    goal: ({ limit, part, soft }) =>
      part === 'accentDb'
        ? `the accents sit at ${dB(limit)} or louder`
        : `the accents are ${short(limit)} dB or more above the ${soft}s`,
    attend: ({ soft }) => `leave the ${soft}s where they are, and start the accents alone from high`,
    purpose: ({ soft }) => `so that the accents stand clear of the ${soft}s`,
  },
  clarity: {
    name: 'clarity',
    unit: '',
    head: 'clarity',
    aim: (settings) => `aim ${short(settings['clarity.holds'])} or more`,
    reason: ({ value, soft }) =>
      `an accent is louder than a ${soft} in ${fixed(100 * value, 0)} of 100 pairs`,
    goal: ({ limit, soft }) =>
      `an accent is louder than a ${soft} in ${short(100 * limit)} of 100 pairs or more`,
    attend: ({ soft }) => `leave the ${soft}s where they are, and start the accents alone from high`,
    purpose: ({ soft }) => `so that the accents stand clear of the ${soft}s`,
  },
  fade: {
    name: 'fade',
    unit: 'dB',
    head: 'fade dB',
    aim: (settings) => `aim within ${short(settings['fade.holds'])} dB`,
    reason: ({ value, hand, handsKnown }) =>
      handsKnown || hand === undefined
        ? `the second note of ${whose(hand)} doubles is ${louder(value, 'the first')}`
        : `the second note of the doubles due with the ${handWord[hand]} is ${louder(value, 'the first')}`,
    goal: ({ limit }) => `the second note of the doubles is within ${short(limit)} dB of the first`,
    attend: () => 'strike the second note of each double from where the first began',
    purpose: () => 'so that both notes of a double are alike',
  },
  doubleGap: {
    name: 'gap of doubles',
    unit: '%',
    head: 'double gap %',
    aim: (settings) =>
      `aim within ${short(settings['doubleGap.holdsPercent'])} % or ${short(settings['doubleGap.holdsMs'])} ms`,
    reason: ({ value, mayBeSwing }) =>
      value < 0
        ? `the doubles are ${percent(-value)} too narrow, the second note early`
        : `the doubles are ${percent(value)} too wide, the second note late${mayBeSwing ? ', or it is swung: play singles to know' : ''}`,
    goal: ({ limit }) => `the doubles are within ${percent(limit)} of their gap`,
    attend: () => 'give the second note of each double its own time',
    purpose: () => 'so that doubles are as wide as the other strokes',
  },
  balanceSoft: {
    name: 'balance of soft strokes',
    unit: 'dB',
    head: 'louder hand dB',
    aim: (settings) => `aim within ${short(settings['balanceSoft.holds'])} dB`,
    reason: (facts) => balance(`${facts.soft}s`, facts),
    goal: ({ limit, soft }) => `both hands’ ${soft}s are within ${short(limit)} dB of each other`,
    attend: () => 'bring the louder hand down to the softer one',
    purpose: ({ soft }) => `so that both hands’ ${soft}s are alike`,
  },
  balanceAccent: {
    name: 'balance of accents',
    unit: 'dB',
    head: 'louder accents dB',
    aim: (settings) => `aim within ${short(settings['balanceAccent.holds'])} dB`,
    reason: (facts) => balance('accents', facts),
    goal: ({ limit }) => `both hands’ accents are within ${short(limit)} dB of each other`,
    attend: () => 'start both hands’ accents from one height',
    purpose: () => 'so that both hands’ accents are alike',
  },
  lag: {
    name: 'lag',
    unit: 'ms',
    head: 'lag ms',
    aim: (settings) => `aim within ${short(settings['lag.holds'])} ms`,
    reason({ value, handsKnown, mayBeSwing }) {
      const by = `${ms(Math.abs(value))} ${value < 0 ? 'earlier' : 'later'}`;
      const either = mayBeSwing ? ', or it is swung: lead with the other hand to know' : '';
      return handsKnown
        ? `the right hand comes ${by} than the left${either}`
        : `the strokes due with the right come ${by} than those due with the left${either}`;
    },
    goal: ({ limit }) => `both hands come within ${ms(limit)} of each other`,
    attend: () => 'listen for each hand half-way between two strokes of the other',
    purpose: () => 'so that both hands keep the same time',
  },
  arrival: {
    name: 'arrival',
    unit: 'ms',
    head: 'arrival ms',
    aim: (settings) =>
      `aim within ${short(settings['arrival.holds'])} ms or ${short(settings['arrival.holdsPercent'])} % of the gap`,
    reason: ({ value, variations }) =>
      variations === 2
        ? `it comes ${ms(Math.abs(value))} ${value < 0 ? 'before' : 'after'} the other bar`
        : `its bars sit ${ms(Math.abs(value))} ${value < 0 ? 'ahead of' : 'behind'} the other bars`,
    goal: ({ limit }) => `that bar comes within ${ms(limit)} of the others`,
    attend: () =>
      'say the count aloud through the bar before and this one, and let its first stroke fall on its number',
    purpose: () => 'so that no bar is told from the others by when it comes',
  },
  feel: {
    name: 'feel',
    unit: '%',
    aim: (settings) =>
      `aim within ${short(settings['doubleGap.holdsPercent'])} % of the gap or ${short(settings['doubleGap.holdsMs'])} ms of where the phrase has it`,
    reason: ({ value }) =>
      `the off-beats come ${percent(Math.abs(value))} of a pair ${value < 0 ? 'early' : 'late'}`,
    goal: ({ limit }) => `every second note is within ${percent(limit)} of its place`,
    attend: () => 'let the click sound the off-beats, and strike with it',
    purpose: () => 'so that the off-beats lie where the phrase has them',
  },
  seam: {
    name: 'seam',
    unit: 'ms, dB',
    head: 'seam',
    aim: (settings) =>
      `aim within ${short(settings['seamMs.holds'])} ms and ${short(settings['seamDb.holds'])} dB`,
    reason: ({ value, part }) =>
      part === 'ms'
        ? `the first stroke after the change comes ${ms(Math.abs(value))} ${value < 0 ? 'early' : 'late'}`
        : `the first stroke after the change is ${louder(value, 'its like later in the bar')}`,
    goal: ({ limit, part }) =>
      part === 'dB'
        ? `the first stroke after a change is within ${short(limit)} dB of its like later in the bar`
        : `the first stroke after a change is within ${ms(limit)} of its time`,
    attend: () => 'hear the next bar’s first stroke before it comes, and don’t hurry to it',
    purpose: () => 'so that nothing tells where one variation gives way to the next',
  },
  graceEvenness: {
    name: 'evenness of graces',
    unit: 'ms',
    head: 'grace scatter ms',
    aim: (settings) => `aim under ${short(settings['graceEvenness.holds'])} ms`,
    reason: ({ value }) => `the grace notes are uneven: their gaps vary by ${ms(value)}`,
    goal: ({ limit }) => `the grace notes’ gaps vary by ${ms(limit)} at most`,
    attend: () => 'let the grace notes fall just ahead, the same each time',
    purpose: () => 'so that grace note and stroke sound as one figure each time',
  },
  graceHands: {
    name: 'graces of the hands',
    unit: 'ms',
    head: 'graces of hands ms',
    aim: (settings) => `aim within ${short(settings['graceHands.holds'])} ms`,
    reason: ({ value }) =>
      `the grace notes before ${value < 0 ? 'left' : 'right'} strokes come ${ms(Math.abs(value))} farther ahead than those before ${value < 0 ? 'right' : 'left'} strokes`,
    goal: ({ limit }) => `the grace notes of both hands are within ${ms(limit)} of each other`,
    attend: () => 'copy the flam of one hand with the other, first in a row of each, then in turn',
    purpose: () => 'so that grace note and stroke sound as one figure each time',
  },
  flamGap: {
    name: 'gap of flams',
    unit: 'ms',
    head: 'flam gap ms',
    aim: (settings) =>
      `aim ${short(settings['flamGap.holdsLeast'])} to ${short(settings['flamGap.holdsMost'])} ms`,
    reason: ({ value, ideal = 0 }) =>
      value < ideal
        ? `the flams’ grace notes come only ${ms(value)} apart`
        : `the flams’ grace notes come ${ms(value)} before their strokes, so that they stand apart`,
    goal: ({ limit, side }) =>
      `the grace notes come ${ms(limit)} or ${side === 'at least' ? 'more' : 'less'} before their strokes`,
    attend: () => 'let the grace notes fall just ahead, the same each time',
    purpose: () => 'so that grace note and stroke sound as one figure each time',
  },
  dragGap: {
    name: 'gap of drags',
    unit: 'ms',
    head: 'drag gap ms',
    aim: (settings) =>
      `aim ${short(settings['dragGap.holdsLeast'])} to ${short(settings['dragGap.holdsMost'])} ms`,
    reason: ({ value, ideal = 0 }) =>
      value < ideal
        ? `the drags’ notes come only ${ms(value)} apart`
        : `the drags’ notes stand ${ms(value)} apart`,
    goal: ({ limit, side }) =>
      `the notes of the drags are ${ms(limit)} or ${side === 'at least' ? 'more' : 'less'} apart`,
    attend: () => 'let the grace notes fall just ahead, the same each time',
    purpose: () => 'so that grace note and stroke sound as one figure each time',
  },
  graceSoftness: {
    name: 'grace against its stroke',
    unit: 'dB',
    head: 'grace dB',
    aim: (settings) =>
      `aim ${short(settings['graceSoftness.holds'])} dB or softer before an accent, ${short(settings['graceSoftness.softHolds'])} before a tap`,
    reason: ({ value }) =>
      value < 0
        ? `the grace notes are only ${dB(-value)} softer than the strokes they lead to`
        : `the grace notes are ${dB(value)} louder than the strokes they lead to`,
    goal: ({ limit }) =>
      `the grace notes are ${short(Math.abs(limit))} dB or more softer than the strokes they lead to`,
    attend: () => 'start the grace note from low and its stroke from high',
    purpose: () => 'so that grace note and stroke sound as one figure each time',
  },
  softSpread: {
    name: 'spread of soft strokes',
    unit: 'dB',
    head: 'soft spread dB',
    aim: (settings) => `aim under ${short(settings['softSpread.holds'])} dB`,
    reason: ({ value, softest }) => `the ${softest}s vary by ${dB(value)} from stroke to stroke`,
    goal: ({ limit, softest }) => `the ${softest}s vary by ${short(limit)} dB at most`,
    attend: ({ softest }) => `start every ${softest} from one height`,
    purpose: ({ softest }) => `so that all ${softest}s are alike`,
  },
  accentSpread: {
    name: 'spread of accents',
    unit: 'dB',
    head: 'accent spread dB',
    aim: (settings) => `aim under ${short(settings['accentSpread.holds'])} dB`,
    reason: ({ value }) => `the accents vary by ${dB(value)} from stroke to stroke`,
    goal: ({ limit }) => `the accents vary by ${short(limit)} dB at most`,
    attend: () => 'start every accent from one height',
    purpose: () => 'so that all accents are alike',
  },
  asynchrony: {
    name: 'asynchrony',
    unit: 'ms',
  },
  shape: {
    name: 'shape',
    unit: 'ms',
  },
  accentStretch: {
    name: 'stretch after accents',
    unit: '%',
  },
} as const satisfies Readonly<Record<string, NamedWords | JudgedWords>>;

type Table = typeof table;
/** Measures that can be a reason. */
type ReasonKey = { [Key in keyof Table]: Table[Key] extends JudgedWords ? Key : never }[keyof Table];

/** The words of every measure, and of those that are judged. */
export const measureWords: Readonly<Record<keyof Table, NamedWords>> = table;
export const judgedWords: Readonly<Record<ReasonKey, JudgedWords>> = table;

/** A measure that is out, with what its words are made of. */
export interface Reason {
  readonly measure: ReasonKey;
  readonly facts: ReasonFacts;
}

export function reasonWords({ measure, facts }: Reason): string {
  return judgedWords[measure].reason(facts);
}

const theAim = (words: string): string => `; the aim is ${words}`;
const orMore = (aim: number | undefined): string =>
  aim === undefined ? '' : theAim(`${short(aim)} dB or more`);

function leak(where: string, { value, hand, handsKnown, soft }: ReasonFacts): string {
  return handsKnown || hand === undefined
    ? `${whose(hand)} ${soft} ${where} is ${louder(value, `its other ${soft}s`)}`
    : `the ${soft} due with the ${handWord[hand]} ${where} is ${louder(value, `that hand’s other ${soft}s`)}`;
}

function balance(strokes: string, { value, handsKnown }: ReasonFacts): string {
  const [more, less] = value < 0 ? (['left', 'right'] as const) : (['right', 'left'] as const);
  return handsKnown
    ? `the ${more} hand’s ${strokes} are ${louder(Math.abs(value), `the ${less} hand’s`)}`
    : `the ${strokes} due with the ${more} are ${louder(Math.abs(value), `those due with the ${less}`)}`;
}

function ofHand(strokes: string, { hand, handsKnown }: ReasonFacts): string {
  return handsKnown || hand === undefined
    ? `${whose(hand)} ${strokes}`
    : `the ${strokes} due with the ${handWord[hand]}`;
}

function whose(hand: Hand | undefined): string {
  return hand === undefined ? 'the' : `the ${handWord[hand]} hand’s`;
}

/** As in "2.0 dB softer than the first". */
function louder(value: number, than: string): string {
  if (Number(value.toFixed(1)) === 0) return `as loud as ${than}`;
  return `${dB(Math.abs(value))} ${value < 0 ? 'softer' : 'louder'} than ${than}`;
}

function stick(hand: Hand | undefined): string {
  return hand === undefined ? 'the stick' : `the ${handWord[hand]} stick`;
}

function ofThe(hand: Hand | undefined): string {
  return hand === undefined ? '' : ` of the ${handWord[hand]}`;
}

function softs({ hand, handsKnown, soft }: GoalFacts): string {
  if (hand === undefined) return `the ${soft}`;
  return handsKnown ? `the ${handWord[hand]} hand’s ${soft}` : `the ${soft} due with the ${handWord[hand]}`;
}

function leakGoal(where: string, facts: GoalFacts): string {
  return `${softs(facts)} ${where} is at most ${short(facts.limit)} dB louder than that hand’s other ${facts.soft}s`;
}
