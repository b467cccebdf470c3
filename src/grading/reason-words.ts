import type { Hand } from '../stroke';
import { accentAimWords, heightWords, softAimWords, type HeightLines } from './heights';
import { dB, fixed, ms, percent, short } from './number-words';
import type { Figure, JudgedKey, Measures, Report } from './types';
import type { LikeSwing } from './time-model/types';
import { figureOf } from './weakest';

/** What a reason needs to know beside its figure. */
export interface Telling {
  /** True where the surfaces say which hand struck; else hands are those the sticking has due. */
  readonly handsKnown: boolean;
  /** True where strokes in the wrong hand are counted. */
  readonly wrongHandsTold: boolean;
  /** True where the aim belongs beside the figure: not where it is reached. */
  readonly aims: boolean;
  /** What the phrase's soft strokes are. */
  readonly soft: 'tap' | 'ghost note' | 'soft stroke';
  /** What `softness` and `softSpread` speak of: the ghost notes where the phrase has both. */
  readonly softest: 'tap' | 'ghost note' | 'soft stroke';
  /** What of hands and doubles may as well be swing. */
  readonly mayBeSwing: readonly LikeSwing[];
  /** Variations in the phrase. */
  readonly variations: number;
  readonly settings: Report['settings'];
  /** Where the rig has learned them: then softness and contrast speak of them first. */
  readonly heights?: HeightLines;
}

const handWord: Readonly<Record<Hand, string>> = { R: 'right', L: 'left' };

/**
 * Why a variation stands where it does, as a clause a teacher would say, without capital or full stop.
 * For instance: the left hand's tap before its accent is 5.1 dB louder than its other taps
 */
export function reasonWords(key: JudgedKey, measures: Measures, telling: Telling): string {
  const figure = figureOf(measures, key);
  if (figure?.value === undefined || figure.value === null) return '';
  if (key === 'seam') return seamWords(measures, figure.value);
  return wordsOf(key, figure, figure.value, telling);
}

function wordsOf(key: Exclude<JudgedKey, 'seam'>, figure: Figure, value: number, telling: Telling): string {
  const { soft, softest, settings, heights } = telling;
  const aim = (words: string): string => (telling.aims ? `; the aim is ${words}` : '');
  switch (key) {
    case 'complete':
      return `${percent(100 * value, 1)} of the strokes are right, the rest missed, added${
        telling.wrongHandsTold ? ', slipped or in the wrong hand' : ' or slipped'
      }`;
    case 'scatter':
      return `the strokes scatter by ${ms(value)} about their own places`;
    case 'leakBefore':
      return leakWords('before its accent', figure, value, telling);
    case 'leakAfter':
      return leakWords('after its accent', figure, value, telling);
    case 'spill':
      return leakWords('beside the other hand’s accent', figure, value, telling);
    case 'softRange':
      return `${ofHand(`${soft}s`, figure.hand, telling)} differ by ${dB(value)} from place to place`;
    case 'softness':
      if (heights !== undefined) {
        return `the ${softest}s sit ${heightWords(value, heights)}${aim(softAimWords(heights))}`;
      }
      return `the ${softest}s sit at ${dB(value)}${aim(`${short(settings['softness.holds'])} dB or softer`)}`;
    case 'ghostContrast':
      return `the ghost notes are ${louder(-value, 'the taps')}${aim(`${short(settings['ghostContrast.holds'])} dB or more`)}`;
    case 'contrast':
      if (heights !== undefined && figure.accentDb !== undefined) {
        const apart = `${figure.atLeast ? 'at least ' : ''}${louder(value, `the ${soft}s`)}`;
        return `the accents sit ${heightWords(figure.accentDb, heights)}, ${apart}${aim(accentAimWords(heights))}`;
      }
      return `the accents are ${figure.atLeast ? 'at least ' : ''}${louder(value, `the ${soft}s`)}${aim(`${short(settings['contrast.holds'])} dB or more`)}`;
    case 'clarity':
      return `an accent is louder than a ${soft} in ${fixed(100 * value, 0)} of 100 pairs`;
    case 'fade':
      return telling.handsKnown || figure.hand === undefined
        ? `the second note of ${whose(figure.hand)} doubles is ${louder(value, 'the first')}`
        : `the second note of the doubles due with the ${handWord[figure.hand]} is ${louder(value, 'the first')}`;
    case 'doubleGap':
      return value < 0
        ? `the doubles are ${percent(-value)} too narrow, the second note early`
        : `the doubles are ${percent(value)} too wide, the second note late${orSwung('doubleGap', telling)}`;
    case 'balanceSoft':
      return balanceWords(`${soft}s`, value, telling);
    case 'balanceAccent':
      return balanceWords('accents', value, telling);
    case 'lag':
      return lagWords(value, telling);
    case 'arrival':
      return telling.variations === 2
        ? `it comes ${ms(Math.abs(value))} ${value < 0 ? 'before' : 'after'} the other bar`
        : `its bars sit ${ms(Math.abs(value))} ${value < 0 ? 'ahead of' : 'behind'} the other bars`;
    case 'feel':
      return `the off-beats come ${percent(Math.abs(value))} of a pair ${value < 0 ? 'early' : 'late'}`;
    case 'graceEvenness':
      return `the grace notes are uneven: their gaps vary by ${ms(value)}`;
    case 'graceHands':
      return `the grace notes before ${value < 0 ? 'left' : 'right'} strokes come ${ms(Math.abs(value))} farther ahead than those before ${value < 0 ? 'right' : 'left'} strokes`;
    case 'flamGap':
    case 'dragGap':
      return value < settings[`${key}.ideal`]
        ? `the ${key === 'flamGap' ? 'flams’ grace notes' : 'drags’ notes'} come only ${ms(value)} apart`
        : `the ${key === 'flamGap' ? 'flams’ grace notes come' : 'drags’ notes stand'} ${ms(value)} ${key === 'flamGap' ? 'before their strokes, so that they stand apart' : 'apart'}`;
    case 'graceSoftness':
      return value < 0
        ? `the grace notes are only ${dB(-value)} softer than the strokes they lead to`
        : `the grace notes are ${dB(value)} louder than the strokes they lead to`;
    case 'softSpread':
      return `the ${softest}s vary by ${dB(value)} from stroke to stroke`;
    case 'accentSpread':
      return `the accents vary by ${dB(value)} from stroke to stroke`;
  }
}

function leakWords(where: string, { hand }: Figure, value: number, { handsKnown, soft }: Telling): string {
  if (handsKnown || hand === undefined) {
    return `${whose(hand)} ${soft} ${where} is ${louder(value, `its other ${soft}s`)}`;
  }
  return `the ${soft} due with the ${handWord[hand]} ${where} is ${louder(value, `that hand’s other ${soft}s`)}`;
}

function balanceWords(strokes: string, value: number, { handsKnown }: Telling): string {
  const [more, less] = value < 0 ? (['left', 'right'] as const) : (['right', 'left'] as const);
  return handsKnown
    ? `the ${more} hand’s ${strokes} are ${louder(Math.abs(value), `the ${less} hand’s`)}`
    : `the ${strokes} due with the ${more} are ${louder(Math.abs(value), `those due with the ${less}`)}`;
}

function lagWords(value: number, telling: Telling): string {
  const when = value < 0 ? 'earlier' : 'later';
  const either = orSwung('lag', telling);
  return telling.handsKnown
    ? `the right hand comes ${ms(Math.abs(value))} ${when} than the left${either}`
    : `the strokes due with the right come ${ms(Math.abs(value))} ${when} than those due with the left${either}`;
}

/** Where nothing in the take tells a late hand or wide doubles from a swing: that, and what would. */
function orSwung(key: LikeSwing, { mayBeSwing }: Telling): string {
  if (!mayBeSwing.includes(key)) return '';
  return key === 'lag'
    ? ', or it is swung: lead with the other hand to know'
    : ', or it is swung: play singles to know';
}

function seamWords({ seam }: Measures, value: number): string {
  const inTime = seam !== undefined && figureOf({ seam }, 'seam') === seam.ms;
  return inTime
    ? `the first stroke after the change comes ${ms(Math.abs(value))} ${value < 0 ? 'early' : 'late'}`
    : `the first stroke after the change is ${louder(value, 'its like later in the bar')}`;
}

function ofHand(strokes: string, hand: Hand | undefined, { handsKnown }: Telling): string {
  if (handsKnown || hand === undefined) return `${whose(hand)} ${strokes}`;
  return `the ${strokes} due with the ${handWord[hand]}`;
}

function whose(hand: Hand | undefined): string {
  return hand === undefined ? 'the' : `the ${handWord[hand]} hand’s`;
}

/** As in "2.0 dB softer than the first". */
function louder(value: number, than: string): string {
  if (Number(value.toFixed(1)) === 0) return `as loud as ${than}`;
  return `${dB(Math.abs(value))} ${value < 0 ? 'softer' : 'louder'} than ${than}`;
}
