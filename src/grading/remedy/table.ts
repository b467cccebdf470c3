import type { JudgedKey } from '../types';

/** What may be played to mend a fault. */
export const remedyRules = [
  'accents off',
  'that bar alone',
  'accenting hand alone',
  'other hand resting',
  'slower',
  'in turn',
] as const;
export type RemedyRule = (typeof remedyRules)[number];

/** What may be out: a judged measure, or the pattern that slipped. */
export type Reason = JudgedKey | 'slip';

export interface RemedyRow {
  readonly rule: RemedyRule;
  /** Tempo of the remedy as a share of the take's; a ceiling under it goes first. */
  readonly tempoShare: number;
  /** Why this rule for this reason. */
  readonly source: string;
}

const CP = 'common practice, no source';

/** As written, and a step of the climb down (7 %), and two of them. */
const AS_IT_WAS = 1;
const A_STEP_DOWN = 0.93;
const TWO_STEPS_DOWN = 0.865;

/** Which reason gets which rule. */
export const remedyTable: Readonly<Record<Reason, RemedyRow>> = {
  slip: {
    rule: 'slower',
    tempoShare: TWO_STEPS_DOWN,
    source: `${CP}: the order of hands is lost where it isn't yet known slower`,
  },
  complete: {
    rule: 'slower',
    tempoShare: TWO_STEPS_DOWN,
    source: `${CP}: what isn't all there yet is learned slower`,
  },
  scatter: {
    rule: 'slower',
    tempoShare: A_STEP_DOWN,
    source: `${CP}; spread of timing grows with the effort`,
  },
  leakBefore: {
    rule: 'that bar alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: the up stroke is heard beside the same bar without accents`,
  },
  leakAfter: {
    rule: 'accenting hand alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: the down stroke is practised by its own hand`,
  },
  spill: {
    rule: 'other hand resting',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: the hand that comes along learns to wait`,
  },
  softRange: {
    rule: 'accents off',
    tempoShare: AS_IT_WAS,
    source: `${CP}: taps are levelled without accents`,
  },
  softness: { rule: 'accents off', tempoShare: AS_IT_WAS, source: `${CP}: taps are set low without accents` },
  ghostContrast: {
    rule: 'accents off',
    tempoShare: AS_IT_WAS,
    source: `${CP}: two soft heights are told apart without accents`,
  },
  contrast: {
    rule: 'that bar alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: accents are set against the same bar without them`,
  },
  clarity: {
    rule: 'that bar alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: accents are set against the same bar without them`,
  },
  fade: { rule: 'accents off', tempoShare: A_STEP_DOWN, source: `${CP}: doubles are evened at one height` },
  doubleGap: { rule: 'slower', tempoShare: TWO_STEPS_DOWN, source: `${CP}: doubles are opened slower` },
  balanceSoft: {
    rule: 'accents off',
    tempoShare: AS_IT_WAS,
    source: `${CP}: hands are matched at one height`,
  },
  balanceAccent: {
    rule: 'accenting hand alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: each hand's accent is heard by itself, then against the other's`,
  },
  lag: { rule: 'accents off', tempoShare: A_STEP_DOWN, source: `${CP}: hands are evened at one height` },
  seam: { rule: 'in turn', tempoShare: A_STEP_DOWN, source: `${CP}: a change is practised by changing` },
  flamEvenness: { rule: 'slower', tempoShare: TWO_STEPS_DOWN, source: CP },
  flamGap: { rule: 'slower', tempoShare: TWO_STEPS_DOWN, source: CP },
  graceSoftness: { rule: 'slower', tempoShare: TWO_STEPS_DOWN, source: CP },
  softSpread: {
    rule: 'accents off',
    tempoShare: AS_IT_WAS,
    source: `${CP}: taps are levelled without accents`,
  },
  accentSpread: {
    rule: 'that bar alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: accents are set against the same bar without them`,
  },
};
