/** What may be played to mend a fault. */
export type RemedyRule =
  'accents off' | 'that bar alone' | 'accenting hand alone' | 'other hand resting' | 'slower' | 'in turn';

export interface RemedyRow {
  readonly rule: RemedyRule;
  /** Tempo of the remedy as a share of the take's; a ceiling under it goes first. */
  readonly tempoShare: number;
  /** Why this rule for this reason. */
  readonly source: string;
}

export const CP = 'common practice, no source';

/** As written, and a step of the climb down (7 %), and two of them. */
export const AS_IT_WAS = 1;
export const A_STEP_DOWN = 0.93;
export const TWO_STEPS_DOWN = 0.865;
