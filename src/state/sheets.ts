import type { TargetOutcome } from '../sessions/week/targets-met';
import type { WeekSheet } from '../sessions/week-sheet';

/** A week sheet as the page shows it, with what the takes played to it have reached so far. */
export interface SheetShown {
  readonly sheet: WeekSheet;
  readonly takes: number;
  readonly outcomes: readonly TargetOutcome[];
}
