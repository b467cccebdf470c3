import type { Hand } from '../stroke';
import type { Db } from '../units';
import { accentAimWords, heightWords, softAimWords, type Heights } from './heights';
import { dB, fixed, ms, percent, short } from './numbers';

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
  /** True where strokes in the wrong hand are counted. */
  readonly wrongHandsCounted: boolean;
  /** What the phrase's soft strokes are, and the softest of them. */
  readonly soft: SoftName;
  readonly softest: SoftName;
  /** Where nothing in the take can keep it apart from a swing. */
  readonly mayBeSwing?: true;
  /** Variations in the phrase. */
  readonly variations: number;
}

export type SoftName = 'tap' | 'ghost note' | 'soft stroke';

const handWord: Readonly<Record<Hand, string>> = { R: 'right', L: 'left' };

/**
 * Why a variation stands where it does, by the measure that is out: a clause a teacher would say, without capital or full
 * stop. For instance: the left hand's tap before its accent is 5.1 dB louder than its other taps
 */
/** Where a soft stroke leaks. */
export const leakPlaces = {
  leakBefore: 'before its accent',
  leakAfter: 'after its accent',
  spill: 'beside the other hand’s accent',
} as const;

const reasons = {
  complete: ({ value, wrongHandsCounted }: ReasonFacts) =>
    `${percent(100 * value, 1)} of the strokes are right, the rest missed, added${
      wrongHandsCounted ? ', slipped or in the wrong hand' : ' or slipped'
    }`,
  scatter: ({ value }: ReasonFacts) => `the strokes scatter by ${ms(value)} about their own places`,
  leakBefore: (facts: ReasonFacts) => leak(leakPlaces.leakBefore, facts),
  leakAfter: (facts: ReasonFacts) => leak(leakPlaces.leakAfter, facts),
  spill: (facts: ReasonFacts) => leak(leakPlaces.spill, facts),
  softRange: (facts: ReasonFacts) =>
    `${ofHand(`${facts.soft}s`, facts)} differ by ${dB(facts.value)} from place to place`,
  softness: ({ value, softest, heights, aim }: ReasonFacts) =>
    heights !== undefined
      ? `the ${softest}s sit ${heightWords(value, heights)}${aim === undefined ? '' : theAim(softAimWords(heights))}`
      : `the ${softest}s sit at ${dB(value)}${aim === undefined ? '' : theAim(`${short(aim)} dB or softer`)}`,
  ghostContrast: ({ value, aim }: ReasonFacts) =>
    `the ghost notes are ${louder(-value, 'the taps')}${orMore(aim)}`,
  contrast({ value, soft, atLeast, accentDb, heights, aim }: ReasonFacts) {
    const apart = `${atLeast ? 'at least ' : ''}${louder(value, `the ${soft}s`)}`;
    return heights !== undefined && accentDb !== undefined
      ? `the accents sit ${heightWords(accentDb, heights)}, ${apart}${aim === undefined ? '' : theAim(accentAimWords(heights))}`
      : `the accents are ${apart}${orMore(aim)}`;
  },
  clarity: ({ value, soft }: ReasonFacts) =>
    `an accent is louder than a ${soft} in ${fixed(100 * value, 0)} of 100 pairs`,
  fade: ({ value, hand, handsKnown }: ReasonFacts) =>
    handsKnown || hand === undefined
      ? `the second note of ${whose(hand)} doubles is ${louder(value, 'the first')}`
      : `the second note of the doubles due with the ${handWord[hand]} is ${louder(value, 'the first')}`,
  doubleGap: ({ value, mayBeSwing }: ReasonFacts) =>
    value < 0
      ? `the doubles are ${percent(-value)} too narrow, the second note early`
      : `the doubles are ${percent(value)} too wide, the second note late${mayBeSwing ? ', or it is swung: play singles to know' : ''}`,
  balanceSoft: (facts: ReasonFacts) => balance(`${facts.soft}s`, facts),
  balanceAccent: (facts: ReasonFacts) => balance('accents', facts),
  lag({ value, handsKnown, mayBeSwing }: ReasonFacts) {
    const by = `${ms(Math.abs(value))} ${value < 0 ? 'earlier' : 'later'}`;
    const either = mayBeSwing ? ', or it is swung: lead with the other hand to know' : '';
    return handsKnown
      ? `the right hand comes ${by} than the left${either}`
      : `the strokes due with the right come ${by} than those due with the left${either}`;
  },
  arrival: ({ value, variations }: ReasonFacts) =>
    variations === 2
      ? `it comes ${ms(Math.abs(value))} ${value < 0 ? 'before' : 'after'} the other bar`
      : `its bars sit ${ms(Math.abs(value))} ${value < 0 ? 'ahead of' : 'behind'} the other bars`,
  feel: ({ value }: ReasonFacts) =>
    `the off-beats come ${percent(Math.abs(value))} of a pair ${value < 0 ? 'early' : 'late'}`,
  seam: ({ value, part }: ReasonFacts) =>
    part === 'ms'
      ? `the first stroke after the change comes ${ms(Math.abs(value))} ${value < 0 ? 'early' : 'late'}`
      : `the first stroke after the change is ${louder(value, 'its like later in the bar')}`,
  graceEvenness: ({ value }: ReasonFacts) => `the grace notes are uneven: their gaps vary by ${ms(value)}`,
  graceHands: ({ value }: ReasonFacts) =>
    `the grace notes before ${value < 0 ? 'left' : 'right'} strokes come ${ms(Math.abs(value))} farther ahead than those before ${value < 0 ? 'right' : 'left'} strokes`,
  flamGap: ({ value, ideal = 0 }: ReasonFacts) =>
    value < ideal
      ? `the flams’ grace notes come only ${ms(value)} apart`
      : `the flams’ grace notes come ${ms(value)} before their strokes, so that they stand apart`,
  dragGap: ({ value, ideal = 0 }: ReasonFacts) =>
    value < ideal
      ? `the drags’ notes come only ${ms(value)} apart`
      : `the drags’ notes stand ${ms(value)} apart`,
  graceSoftness: ({ value }: ReasonFacts) =>
    value < 0
      ? `the grace notes are only ${dB(-value)} softer than the strokes they lead to`
      : `the grace notes are ${dB(value)} louder than the strokes they lead to`,
  softSpread: ({ value, softest }: ReasonFacts) =>
    `the ${softest}s vary by ${dB(value)} from stroke to stroke`,
  accentSpread: ({ value }: ReasonFacts) => `the accents vary by ${dB(value)} from stroke to stroke`,
} as const;

/** Measures that can be a reason. */
type ReasonKey = keyof typeof reasons;

/** A measure that is out, with what its words are made of. */
export interface Reason {
  readonly measure: ReasonKey;
  readonly facts: ReasonFacts;
}

export function reasonWords({ measure, facts }: Reason): string {
  return reasons[measure](facts);
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
