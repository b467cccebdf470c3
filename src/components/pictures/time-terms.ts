import type { Report } from '../../grading/types';
import { fixed } from '../shared/numbers';

const late = (ms: number): string => `${fixed(Math.abs(ms), 0)} ms ${ms < 0 ? 'early' : 'late'}`;
const isHeard = (ms: number | null | undefined): ms is number =>
  ms !== null && ms !== undefined && Math.abs(ms) >= 0.5;

/**
 * What of the times of a bar the take's time model explains, each by its name: the hands, the feel, the doubles, and the bar
 * as a whole. Empty where it explains nothing.
 */
export function timeTerms({ timeModel, variations }: Report, variation: string): readonly string[] {
  if (timeModel === undefined) return [];
  const { lag, feel, second, notToldApart } = timeModel;
  const arrival = variations.find(({ name }) => name === variation)?.measures.arrival?.value;
  const orSwing = notToldApart.length > 0 ? ', or it is swung' : '';
  return [
    ...(isHeard(lag?.value) ? [`the right hand ${late(lag.value)} against the left${orSwing}`] : []),
    ...(isHeard(feel?.value) ? [`off-beats ${late(feel.value)}`] : []),
    ...(isHeard(second?.value) ? [`second notes of doubles ${late(second.value)}`] : []),
    ...(isHeard(arrival) ? [`the whole bar ${late(arrival)} against the others`] : []),
  ];
}

/** The finding where the time model's term is the reason; undefined where it isn't. */
export function termTitle({ timeModel, weakest, course }: Report): string | undefined {
  const swing = course.find(({ kind }) => kind === 'swing');
  if (weakest?.measure === 'doubleGap' && isHeard(timeModel?.second?.value)) {
    return `The second notes of the doubles come ${late(timeModel.second.value)}, place by place`;
  }
  if (swing?.kind !== 'swing' || !isHeard(timeModel?.feel?.value)) return undefined;
  return `Every second note comes ${late(timeModel.feel.value)}, at ${fixed(swing.percent, 0)} % of its pair`;
}
