import { who, type Scope } from '../codes';
import { variationsOf, type Evidence } from '../evidence';
import { meanEstimate } from '../intervals';
import { limitOf } from '../limits';
import { carriedTerms } from '../phrase-facts';
import type { SeamFigure } from '../types';
import { unexplained } from '../unexplained';
import { judgedIfEnough } from '../verdict';
import { estimateOf } from './soft-strokes';

/**
 * What changes on the first stroke of a bar whose variation differs from the bar before: its deviation less that of
 * the same place in the pattern's next repeat in the bar (else its hand's mean in the bar), ms, negative early; the
 * same in level within the kind, dB, positive louder; means over such bars. The first stroke seldom has the same
 * neighbours as its like, for another variation went before: what the variation's own leaks, spill and fade make of
 * that is taken off the level (`unexplained`), or a spill would pass for a seam. A first stroke that was missed, slipped or
 * in the wrong hand is left out. Under 6 changes: too few.
 * @returns undefined where nothing changes in the scope
 * @example each first stroke 14 ms after the click, all others on it: +14 ms, close (10 holds, 20 is not yet)
 * Source: common practice.
 */
export function seam(evidence: Evidence, scope: Scope): SeamFigure | undefined {
  const seams = variationsOf(evidence, scope).map((v) => evidence.movement.seams[v]);
  if (seams.every(({ due }) => due === 0)) return undefined;
  const { settings } = evidence.graded;
  const ms = seams.flatMap((of) => of.ms);
  const dB = seams.flatMap((of) => of.dB);
  return {
    ms: judgedIfEnough(
      () => meanEstimate(ms),
      [ms.length],
      settings['few.changes'],
      () => limitOf('seamMs', settings, 0),
    ),
    dB: judgedIfEnough(
      () => {
        const found = meanEstimate(dB);
        return found && unexplained(found, explainedDb(evidence, scope) / dB.length);
      },
      [dB.length],
      settings['few.changes'],
      () => limitOf('seamDb', settings, 0),
    ),
  };
}

/** What terms of the soft-stroke model, as each variation has them, make of the other neighbours; summed, dB. */
function explainedDb(evidence: Evidence, scope: Scope): number {
  let sum = 0;
  for (const variation of variationsOf(evidence, scope)) {
    const { moved } = evidence.movement.seams[variation];
    for (const hand of ['R', 'L'] as const) {
      carriedTerms.forEach((term, t) => {
        const steps = moved[who[hand] * carriedTerms.length + t];
        if (steps === 0) return;
        const own = estimateOf(evidence, { variation }, hand, term) ?? evidence.models[hand].fit?.terms[term];
        sum += steps * (own?.value ?? 0);
      });
    }
  }
  return sum;
}
