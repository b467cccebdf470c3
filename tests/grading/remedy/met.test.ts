import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../../src/exercises/phrase';
import { isReached, remedyOf, type Remedy } from '../../../src/grading/remedy/remedy';
import type { Report } from '../../../src/grading/types';
import type { Fault } from '../../../src/model/faults';
import { modelTake } from '../../../src/model/model-player';
import { gradeTake } from '../../../src/take/grade-take';

// A remedy's target is one that the take that asked for it doesn't meet, nor one of the remedy with the fault still in it;
// and that a player without the fault does. What is planted is the model player's; which remedy fits is common practice.

const WALK = 'Single paradiddle, accent walk';
const ROTATIONS = 'Single paradiddle, rotations';
const TEMPI = [84, 112];

interface Case {
  readonly phrase: string;
  readonly faults: readonly Fault[];
  readonly reason: string;
  readonly says: RegExp;
}

const cases: Readonly<Record<string, Case>> = {
  'strokes left out': {
    phrase: WALK,
    faults: [{ kind: 'missed', share: 0.06 }],
    reason: 'complete',
    says: /slower, at \d+ bpm: say the sticking aloud, and give every letter its stroke/,
  },
  'strokes added': {
    phrase: WALK,
    faults: [{ kind: 'added', share: 0.06 }],
    reason: 'complete',
    says: /right hand alone, with the left hand alone, then with both .*let the hand that isn’t due lie still/,
  },
  'strokes in the other hand': {
    phrase: WALK,
    faults: [{ kind: 'wrong-hand', share: 0.06 }],
    reason: 'complete',
    says: /with the accents off .*say right and left aloud/,
  },
  'a pattern that slips': {
    phrase: WALK,
    faults: [{ kind: 'slip', bar: 3, slot: 4, slots: 20 }],
    reason: 'slip',
    says: /count aloud/,
  },
  'a leak before in one bar': {
    phrase: WALK,
    faults: [{ kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' }],
    reason: 'leakBefore',
    says: /^Play accent on 4 by itself/,
  },
  'a leak before in all': {
    phrase: WALK,
    faults: [{ kind: 'leak-before', hand: 'L', db: 6 }],
    reason: 'leakBefore',
    says: /then the whole phrase/,
  },
  'a leak after in one bar': {
    phrase: WALK,
    faults: [{ kind: 'leak-after', hand: 'R', db: 6, variation: 'accent on 2' }],
    reason: 'leakAfter',
    says: /the right hand of accent on 2 alone/,
  },
  'a spill in all': {
    phrase: WALK,
    faults: [{ kind: 'spill', hand: 'L', db: 6 }],
    reason: 'spill',
    says: /the left resting/,
  },
  'a fade in one bar': {
    phrase: WALK,
    faults: [{ kind: 'fade', db: -7, variation: 'accent on 2' }],
    reason: 'fade',
    says: /accent on 2 with the accents off/,
  },
  'a loud hand in one bar': {
    phrase: ROTATIONS,
    faults: [{ kind: 'balance', hand: 'R', db: 5, variation: 'RLLR LRRL' }],
    reason: 'balanceSoft',
    says: /^Play RLLR LRRL with the accents off/,
  },
  'a late hand in all': {
    phrase: ROTATIONS,
    faults: [{ kind: 'late', hand: 'L', ms: 20 }],
    reason: 'lag',
    says: /the whole phrase with the accents off/,
  },
  'a late hand in one bar': {
    phrase: WALK,
    faults: [{ kind: 'late', hand: 'L', ms: 24, variation: 'accent on 3' }],
    reason: 'lag',
    says: /accent on 3 with the accents off/,
  },
  'a late bar': {
    phrase: WALK,
    faults: [{ kind: 'arrival', ms: 40, variation: 'accent on 3' }],
    reason: 'arrival',
    says: / in turn, a bar of each at/,
  },
  'narrow doubles in one bar': {
    phrase: WALK,
    faults: [{ kind: 'double-gap', ms: -25, variation: 'accent on 3' }],
    reason: 'doubleGap',
    says: /accent on 3 between its neighbours/,
  },
  'flat accents in one bar': {
    phrase: WALK,
    faults: [{ kind: 'accents', db: -8, variation: 'accent on 3' }],
    reason: 'contrast',
    says: /accent on 3 by itself/,
  },
  'scatter in all': {
    phrase: WALK,
    faults: [{ kind: 'scatter', ms: 21 }],
    reason: 'scatter',
    says: /the whole phrase slower/,
  },
  'changes too early': {
    phrase: WALK,
    faults: [{ kind: 'seam', ms: -24 }],
    reason: 'seam',
    says: /the whole phrase at/,
  },
  'wide flams': {
    phrase: 'Flam accent',
    faults: [{ kind: 'flam-gap', ms: 75 }],
    reason: 'flamGap',
    says: /grace notes fall just ahead/,
  },
};

function graded(seed: number, phrase: Remedy['phrase'], bpm: number, faults: readonly Fault[]): Report {
  return gradeTake(modelTake({ phrase, bpm, seed, faults, surfaces: 2 }).take);
}

/** Faults of one variation, in whatever the remedy has made of it. */
function stillPlayed(faults: readonly Fault[], { bars }: Remedy['phrase']): readonly Fault[] {
  return faults.flatMap((fault): readonly Fault[] => {
    if (!('variation' in fault)) return [fault];
    const { variation = '' } = fault;
    const names = new Set(bars.map((bar) => bar.variation).filter((name) => name.startsWith(variation)));
    return [...names].map((name) => ({ ...fault, variation: name }));
  });
}

describe('a remedy', () => {
  const all = Object.entries(cases).flatMap(([name, one]) => TEMPI.map((bpm) => ({ name, bpm, ...one })));

  it.each(all)('$name, at $bpm bpm: its target is met without the fault, and not with it', (one) => {
    const { bpm, faults, reason, says } = one;
    const phrase = { ...phraseNamed(one.phrase), cycles: 8 };
    const report = graded(700, phrase, bpm, faults);
    const remedy = remedyOf(report, phrase, bpm)!;
    expect(remedy.reason).toBe(reason);
    expect(remedy.sentence).toMatch(says);
    const { stop } = remedy;
    expect(isReached(stop, report), 'the take that asks').toBe(false);
    for (const seed of [71, 72, 73]) {
      const ill = graded(seed, remedy.phrase, remedy.bpm, stillPlayed(faults, remedy.phrase));
      expect(isReached(stop, ill), 'with the fault').toBe(false);
      expect(isReached(stop, graded(seed, remedy.phrase, remedy.bpm, [])), 'without').toBe(true);
    }
  });

  it.each(all)('$name, at $bpm bpm: it is slower, or something else is played', ({ bpm, faults, phrase }) => {
    const asked = { ...phraseNamed(phrase), cycles: 8 };
    const { sentence, bpm: slower, phrase: made } = remedyOf(graded(701, asked, bpm, faults), asked, bpm)!;
    if (/slower/.test(sentence)) expect(slower).toBeLessThan(bpm);
    const bars = JSON.stringify(made.bars.map(({ sticking }) => sticking));
    expect(slower < bpm || bars !== JSON.stringify(asked.bars.map(({ sticking }) => sticking))).toBe(true);
  });
});
