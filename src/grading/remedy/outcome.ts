import { difference, spansNought } from '../numbers/difference';
import { dB, fixed, ms, percent } from '../../words/numbers';
import type { Remedy } from './types';
import { stopFigure } from './stop';
import type { Estimate } from '../numbers/intervals';
import type { Figure, JudgedKey, Report } from '../types';
import { figureOf, measureName } from '../words';
import { measuresOver } from '../weakest';
import { partOf } from '../figures/named-figures';

/** A remedy's measure before it and in a take of it. */
interface RemedyOutcome {
  readonly measure: JudgedKey;
  readonly unit: string;
  readonly before: Figure;
  readonly after: Figure;
  /** After less before, with 90 % interval; null where either has none. */
  readonly change: Estimate | null;
  /** True where the interval spans nought: the change may be chance. Null where nothing can be said. */
  readonly insideNoise: boolean | null;
  readonly words: string;
}

/**
 * The measure a remedy is for, in the take that asked for it and in one of the remedy itself.
 * @returns undefined where the first take doesn't have it any more, or the second doesn't have it at all
 */
export function remedyOutcome(
  before: Report,
  after: Report,
  { evidence, stop }: Remedy,
): RemedyOutcome | undefined {
  const measures =
    evidence.variation === null
      ? measuresOver(before, evidence.measure, evidence.hand)
      : (before.variations.find(({ name }) => name === evidence.variation)?.measures ?? {});
  const was =
    stop.part === undefined || stop.part === 'accentDb'
      ? figureOf(measures, evidence.measure)
      : partOf(measures, evidence.measure, stop.part);
  const is = stopFigure(stop, after);
  if (was === undefined || is === undefined) return undefined;
  const [earlier, later] = [estimateOf(was), estimateOf(is)];
  const change = earlier && later ? difference(later, earlier) : null;
  const insideNoise = change === null ? null : spansNought(change);
  return {
    measure: evidence.measure,
    unit: evidence.unit,
    before: was,
    after: is,
    change,
    insideNoise,
    words: outcomeWords(evidence.measure, stop.part, was, is, insideNoise),
  };
}

function estimateOf({ value, interval }: Figure): Estimate | null {
  return value === null || interval === null ? null : { value, interval };
}

function outcomeWords(
  key: JudgedKey,
  part: Remedy['stop']['part'],
  was: Figure,
  is: Figure,
  insideNoise: boolean | null,
): string {
  const name = measureName(key);
  if (was.value === null || is.value === null || insideNoise === null) {
    return `${name}: ${is.value === null ? 'too few strokes in this take to say' : 'nothing to hold it against'}.`;
  }
  const noise = insideNoise ? ', a difference that chance alone may make' : '';
  return `${name}: ${shown(key, part, was.value)} before, ${shown(key, part, is.value)} now${noise}.`;
}

/** A value in its measure's unit. */
function shown(key: JudgedKey, part: Remedy['stop']['part'], value: number): string {
  switch (key) {
    case 'complete':
      return percent(100 * value, 1);
    case 'clarity':
      return fixed(value, 3);
    case 'doubleGap':
    case 'feel':
      return percent(value);
    case 'scatter':
    case 'lag':
    case 'arrival':
    case 'graceHands':
    case 'graceEvenness':
    case 'flamGap':
    case 'dragGap':
      return ms(value);
    case 'seam':
      return part === 'dB' ? dB(value) : ms(value);
    default:
      return dB(value);
  }
}
