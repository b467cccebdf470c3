import { who, type Scope } from '../evidence/codes';
import { variationsOf, type Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { meanEstimate } from '../numbers/intervals';
import { aboutNought } from '../figures/limit';
import type { Seams } from '../evidence/movement';
import { carriedTerms } from '../facts/phrase-facts';
import { A_STEP_DOWN, CP } from '../remedy/rules';
import { estimateOf } from '../figures/term-figure';
import { unexplained } from '../numbers/unexplained';
import { judgedIfEnough } from '../verdict';
import type { JudgedMeasure, StrokeGroup } from './measure';

/**
 * What changes on the first stroke of a bar whose variation differs from the bar before: its deviation less that of
 * the same place in the pattern's next repeat in the bar (else its hand's mean in the bar), ms, negative early; the
 * same in level within the kind, dB, positive louder; means over such bars. The first stroke seldom has the same
 * neighbours as its like, for another variation went before: what the variation's own leaks, spill and fade make of
 * that is taken off the level (`unexplained`), or a spill would pass for a seam. A first stroke that was missed, slipped or
 * in the wrong hand is left out. Under 6 changes: too few.
 * @example each first stroke 14 ms after the click, all others on it: +14 ms, close (10 holds, 20 is not yet)
 * Source: common practice.
 */
export const seam: JudgedMeasure<'seam', 'ms' | 'dB'> = {
  key: 'seam',
  of: 'take and variations',
  verdict: 'names',
  about: 'seam',
  remedy: { rule: 'in turn', tempoShare: A_STEP_DOWN, source: `${CP}: a change is practised by changing` },
  live: 'early or late',
  column: { rank: 10, on: 'terminal' },
  figures: [
    {
      part: 'ms',
      unit: 'ms',
      madeOf: 'times',
      limit: (settings) => aboutNought(settings, 'seamMs'),
      estimate: (evidence, scope) => inTime(evidence, seamsIn(evidence, scope)),
      groups: (evidence) => firstStrokes(evidence, ({ slotsMs }) => slotsMs),
      badness: onTheFirst,
      picture: 'timing by place',
      mirrored: 'same',
      reversed: 'flips',
    },
    {
      part: 'dB',
      unit: 'dB',
      madeOf: 'levels',
      limit: (settings) => aboutNought(settings, 'seamDb'),
      estimate: (evidence, scope) => inLevel(evidence, scope, seamsIn(evidence, scope)),
      groups: (evidence) => firstStrokes(evidence, ({ slotsDb }) => slotsDb),
      badness: onTheFirst,
      picture: 'levels by place',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

function seamsIn(evidence: Evidence, scope: Scope): readonly Seams[] {
  return variationsOf(evidence, scope).map((v) => evidence.movement.seams[v]);
}

/** @returns undefined where nothing changes in the scope */
function inTime(evidence: Evidence, seams: readonly Seams[]): Figure | undefined {
  if (seams.every(({ due }) => due === 0)) return undefined;
  const { settings } = evidence.graded;
  const ms = seams.flatMap((of) => of.ms);
  return judgedIfEnough(
    () => meanEstimate(ms),
    [ms.length],
    'few.changes',
    () => aboutNought(settings, 'seamMs'),
    settings,
  );
}

/** @returns undefined where nothing changes in the scope */
function inLevel(evidence: Evidence, scope: Scope, seams: readonly Seams[]): Figure | undefined {
  if (seams.every(({ due }) => due === 0)) return undefined;
  const { settings } = evidence.graded;
  const dB = seams.flatMap((of) => of.dB);
  return judgedIfEnough(
    () => {
      const found = meanEstimate(dB);
      return found && unexplained(found, explainedDb(evidence, scope) / dB.length);
    },
    [dB.length],
    'few.changes',
    () => aboutNought(settings, 'seamDb'),
    settings,
  );
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

function firstStrokes(
  { movement }: Evidence,
  slotsOf: (seams: Seams) => readonly number[],
): readonly StrokeGroup[] {
  const slots = new Set(movement.seams.flatMap(slotsOf));
  return [{ name: 'after change', has: (i) => slots.has(i) }];
}

/** It is always the first slot of the bar that is named. */
function onTheFirst({ graded: { grid } }: Evidence): (i: number) => number | undefined {
  return (i) => (grid.slots[i].slot === 0 ? 0 : undefined);
}
