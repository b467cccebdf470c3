import type { Hand } from '../stroke';
import type { Report, Weakest } from './types';

/** What a teacher has come first, as a take keeps it: of all that is out, a measure, and its hand where it has one. */
export interface Choice {
  readonly measure: string;
  readonly hand?: Hand;
}

/**
 * What was chosen to lead Review, remedy and note, of what is out beside what the report leads with.
 * @returns undefined where nothing was chosen, and where a report that is made otherwise has it no more: then its own leads
 */
export function chosenOf(
  { others }: Pick<Report, 'others'>,
  choice: Choice | undefined,
): Weakest | undefined {
  return choice === undefined
    ? undefined
    : others.find(({ measure, hand }) => measure === choice.measure && hand === choice.hand);
}

/** How a take keeps it. */
export const choiceOf = ({ measure, hand }: Weakest): Choice =>
  hand === undefined ? { measure } : { measure, hand };

/** A report with what leads in the place of its weakest: for pictures and tables, which point at one finding. */
export function ledBy(report: Report, lead: Weakest | undefined): Report {
  return lead === undefined ? report : { ...report, weakest: lead };
}
