import type { Scope } from '../evidence/codes';
import { dueOfKinds, variationsOf, type Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { meanEstimate } from '../numbers/intervals';
import { plainIfEnough } from '../verdict';
import type { PlainMeasure } from './measure';

/**
 * Mean interval beginning with an accent, against nominal, %; positive: the accent is held longer. To the next slot,
 * both matched. No verdict. Under 4 intervals: too few.
 */
export const accentStretch: PlainMeasure<'accentStretch'> = {
  key: 'accentStretch',
  of: 'take and variations',
  verdict: 'none',
  figures: [
    {
      part: null,
      unit: '%',
      madeOf: 'times',
      estimate,
      groups: ({ movement }) => {
        const slots = new Set(movement.stretches.flatMap((of) => of.slots));
        return [{ name: 'accent', has: (i) => slots.has(i) }];
      },
      mirrored: 'same',
      reversed: 'flips',
    },
  ],
};

/** @returns undefined where no accent is due */
function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  if (dueOfKinds(evidence, scope, ['accent']) === 0) return undefined;
  const percent = ([] as number[]).concat(
    ...variationsOf(evidence, scope).map((v) => evidence.movement.stretches[v].percent),
  );
  return plainIfEnough(() => meanEstimate(percent), [percent.length], evidence.graded.settings['few.group']);
}
