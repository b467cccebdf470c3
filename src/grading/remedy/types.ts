import type { Phrase } from '../../exercises/types';
import type { Hand } from '../../stroke';
import type { Bpm } from '../../units';
import type { StopRule } from './stop';
import type { RemedyRule } from './rules';
import type { Reason } from './table';
import type { JudgedKey } from '../types';

/** The figure a remedy answers. */
export interface RemedyEvidence {
  /** Null where only the whole take shows it. */
  readonly variation: string | null;
  readonly measure: JudgedKey;
  readonly hand?: Hand;
  readonly value: number | null;
  /** 90 %. */
  readonly interval: readonly [number, number] | null;
  readonly n: readonly number[];
  readonly unit: string;
  /** As a clause: what is out. */
  readonly words: string;
}

/** What to play next, why, and when to stop. Plain data. */
export interface Remedy {
  readonly rule: RemedyRule;
  readonly reason: Reason;
  /** What to play, as a teacher would say it. */
  readonly sentence: string;
  /** What it is for. */
  readonly purpose: string;
  readonly evidence: RemedyEvidence;
  /** About 30 s of it. */
  readonly phrase: Phrase;
  readonly bpm: Bpm;
  readonly stop: StopRule;
}
