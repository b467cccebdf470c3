import { measureName } from '../../grading/words';
import type { TakeSummary } from '../../sessions/take-record';

/**
 * Why a take is as it is, in about three words: the measure that its weakest variation is weak in.
 * @example reasonIn({ graded: null, sentence: '' }) // => 'not graded yet'
 */
export function reasonIn({ graded, sentence }: Pick<TakeSummary, 'graded' | 'sentence'>): string {
  if (graded === null) return sentence === '' ? 'not graded yet' : 'doesn’t fit its grid';
  const { weakest } = graded;
  if (weakest === null) return 'nothing judged';
  return weakest.margin >= 0 ? 'all bars hold' : measureName(weakest.measure);
}
