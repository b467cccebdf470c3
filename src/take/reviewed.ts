import type { Report } from '../grading/types';
import type { Take } from '../sessions/types';

/** A take with its report. */
export interface Reviewed {
  readonly take: Take;
  readonly report: Report;
}
