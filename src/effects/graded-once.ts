import { InputError } from '../errors';
import { gradedRecord } from '../insight/graded-record';
import { gradeTake } from '../take/grade-take';
import type { Graded } from '../sessions/take-record';
import type { Take } from '../sessions/types';

/** A cache, by the very take: a take is never changed, and is forgotten with its report. */
const reports = new WeakMap<Take, ReturnType<typeof gradeTake>>();

/** A take's report, made when it is first asked for: the sentence, the list and Review ask one after the other. @throws as gradeTake */
export function reportOnce(take: Take): ReturnType<typeof gradeTake> {
  const report = reports.get(take) ?? gradeTake(take);
  reports.set(take, report);
  return report;
}

/** A report that was made elsewhere: beside the page, say. */
export function remember(take: Take, report: ReturnType<typeof gradeTake>): void {
  reports.set(take, report);
}

/** What lists and History keep of a take: its sentence, or why it has none. */
export function describedTake(take: Take): { readonly sentence: string; readonly graded: Graded | null } {
  try {
    const report = reportOnce(take);
    return { sentence: report.sentence, graded: gradedRecord(take, report) };
  } catch (error) {
    if (error instanceof InputError) return { sentence: `Not graded: ${error.message}`, graded: null };
    throw error;
  }
}
