import type { Figure, Report } from '../../grading/types';
import { fixed } from '../shared/numbers';

type Term = Pick<Figure, 'value' | 'interval'>;
interface Estimate {
  readonly value: number;
  readonly interval: readonly [number, number];
}

const late = (ms: number): string => `${fixed(Math.abs(ms), 0)} ms ${ms < 0 ? 'early' : 'late'}`;

/** Terms of under a millisecond are none that anyone could hear. */
const LEAST_MS = 1;

/** Whether it is told from nought. */
function isTold(term: Term | null | undefined): term is Estimate {
  if (term?.value === null || term?.value === undefined || term.interval === null) return false;
  const [low, high] = term.interval;
  return (low > 0 || high < 0) && Math.abs(term.value) >= LEAST_MS;
}

/**
 * What of the times of a bar the take's time model explains, each by its name: the hands, the feel, the doubles, and the bar
 * as a whole. Empty where it explains nothing.
 */
export function timeTerms({ timeModel, variations }: Report, variation: string): readonly string[] {
  if (timeModel === undefined) return [];
  const { lag, feel, second, notToldApart } = timeModel;
  const arrival = variations.find(({ name }) => name === variation)?.measures.arrival;
  const orSwing = notToldApart.length > 0 ? ', or it is swung' : '';
  return [
    ...(isTold(lag) ? [`the right hand ${late(lag.value)} against the left${orSwing}`] : []),
    ...(isTold(feel) ? [`off-beats ${late(feel.value)}`] : []),
    ...(isTold(second) ? [`second notes of doubles ${late(second.value)}`] : []),
    ...(isTold(arrival) ? [`the whole bar ${late(arrival.value)} against the others`] : []),
  ];
}

/** The finding where the time model's term is the reason; undefined where it isn't. */
export function termTitle({ timeModel, weakest, course }: Report): string | undefined {
  const swing = course.find(({ kind }) => kind === 'swing');
  if (weakest?.measure === 'doubleGap' && isTold(timeModel?.second)) {
    return `The second notes of the doubles come ${late(timeModel.second.value)}, place by place`;
  }
  if (swing?.kind !== 'swing' || !isTold(timeModel?.feel)) return undefined;
  return `Every second note comes ${late(timeModel.feel.value)}, at ${fixed(swing.percent, 0)} % of its pair`;
}
