import type { Figure } from '../figures/figure';
import { judgedMeasureOf, type JudgedKey } from '../measures';
import { CP, TWO_STEPS_DOWN, type RemedyRow } from './rules';

/** What may be out: a judged measure, or the pattern that slipped. */
export type Reason = JudgedKey | 'slip';

const slip: RemedyRow = {
  rule: 'slower',
  tempoShare: TWO_STEPS_DOWN,
  source: `${CP}: the order of hands is lost where it isn't yet known slower`,
};

/**
 * Which reason gets which rule: a measure's own file says.
 * @param figure what is out; null where there is none
 */
export function remedyFor(reason: Reason, figure: Figure | null = null): RemedyRow {
  if (reason === 'slip') return slip;
  const { remedy, remedyIf } = judgedMeasureOf(reason);
  return (figure === null ? undefined : remedyIf?.(figure)) ?? remedy;
}
