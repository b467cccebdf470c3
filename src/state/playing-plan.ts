import { plainLead } from '../click/schedule';
import type { Lead } from '../click/types';
import { InputError } from '../errors';
import { changedClick, plainClick, type ClickPlan } from '../exercises/click-plan';
import { gridOf } from '../exercises/grid';
import type { Phrase, Tempo } from '../exercises/types';
import type { Ms } from '../units';

/** How long a take is: the phrase's cycles, whole cycles for at least so many minutes, or until it is stopped. */
export type TakeLength =
  | { readonly kind: 'cycles' }
  | { readonly kind: 'minutes'; readonly minutes: number }
  | { readonly kind: 'open' };

/** How takes are played from now on: kept in the browser from one day to the next. */
export interface PlayingPlan {
  readonly click: ClickPlan;
  readonly lead: Lead;
  readonly length: TakeLength;
  /** Bars to play without a stroke after which a take ends by itself; null for never. */
  readonly silenceBars: number | null;
  /** After a take: open Review, or stay in Play for the next. */
  readonly then: 'review' | 'stay';
}

export const plainPlan: PlayingPlan = {
  click: plainClick,
  lead: plainLead,
  length: { kind: 'cycles' },
  silenceBars: 4,
  then: 'review',
};

const MOST_COUNT_IN = 4;
const MOST_SILENCE = 16;
const MOST_MINUTES = 60;
/** An open take lasts no longer: an hour without a rest is no practice. */
const OPEN_MS: Ms = 3_600_000;

/**
 * A plan with some of it changed.
 * @throws InputError for what is out of its range
 */
export function changedPlan(plan: PlayingPlan, change: Partial<PlayingPlan>): PlayingPlan {
  const next = { ...plan, ...change };
  const { countInBars } = next.lead;
  if (countInBars !== 'auto') whole('Count-in', countInBars, MOST_COUNT_IN, 'bars');
  if (next.length.kind === 'minutes') whole('Length', next.length.minutes, MOST_MINUTES, 'minutes');
  if (next.silenceBars !== null) whole('Silence', next.silenceBars, MOST_SILENCE, 'bars');
  return { ...next, click: changedClick(next.click, {}) };
}

/** A plan as a browser kept it; what is missing or makes no sense is as on the first day. */
export function planFrom(kept: unknown): PlayingPlan {
  if (typeof kept !== 'object' || kept === null) return plainPlan;
  try {
    return changedPlan(plainPlan, kept);
  } catch {
    return plainPlan;
  }
}

/** Cycles a take of that length has. At 96 bpm a bar of four lasts 2.5 s, so two minutes of one bar are 48 cycles. */
export function cyclesOf(length: TakeLength, phrase: Phrase, tempo: Tempo): number {
  if (length.kind === 'cycles') return phrase.cycles;
  const { bars } = gridOf(phrase, tempo, 0, phrase.bars.length);
  const cycleMs = bars[bars.length - 1].endMs;
  return length.kind === 'minutes'
    ? Math.max(1, Math.ceil((length.minutes * 60_000) / cycleMs - 1e-9))
    : Math.max(1, Math.ceil(OPEN_MS / cycleMs));
}

function whole(place: string, value: number, most: number, unit: string): void {
  if (!Number.isInteger(value) || value < 1 || value > most) {
    throw new InputError(place, `must be a whole number of ${unit} from 1 to ${most}`, value);
  }
}
