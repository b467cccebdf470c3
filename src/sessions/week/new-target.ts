import { limitOf } from '../../grading/limits';
import { measureOrder } from '../../grading/types';
import { settingsOf } from '../../settings';
import type { TargetMeasure, WeekSheet, WeekTarget } from '../week-sheet';

/** Measures that a target may name, in the order of reports. */
export const targetMeasures: readonly TargetMeasure[] = measureOrder.filter((key) => key !== 'seam');

/** A week's practice where nothing else is known; common practice, no source. */
const MINUTES = 60;
const FIRST_MEASURE: TargetMeasure = 'contrast';

/** A target of a kind as it is first written, for the teacher to change. */
export function newTarget(
  kind: WeekTarget['kind'],
  sheet: Pick<WeekSheet, 'bpm' | 'limits' | 'phrase'>,
): WeekTarget {
  switch (kind) {
    case 'tempo':
      return { kind, bpm: sheet.bpm };
    case 'holds':
      return { kind };
    case 'measure':
      return measureTarget(FIRST_MEASURE, sheet);
    case 'minutes':
      return { kind, minutes: MINUTES };
  }
}

/** A measure to be where it holds, under the sheet's limits and at its tempo. */
export function measureTarget(
  measure: TargetMeasure,
  { bpm, limits, phrase }: Pick<WeekSheet, 'bpm' | 'limits' | 'phrase'>,
  variation?: string,
): WeekTarget {
  const { partialsPerBeat } = phrase;
  const partials = typeof partialsPerBeat === 'number' ? partialsPerBeat : Math.max(...partialsPerBeat);
  const limit = limitOf(measure, settingsOf(limits), 60_000 / bpm / partials);
  const holds = Math.round(100 * limit.holds) / 100;
  const side = limit.twoSided || limit.notYet > limit.holds ? { atMost: holds } : { atLeast: holds };
  return { kind: 'measure', measure, ...(variation === undefined ? {} : { variation }), ...side };
}

/** The same target of a variation, or of the whole phrase where none is named. */
export function targetOf<Target extends Extract<WeekTarget, { kind: 'holds' | 'measure' }>>(
  target: Target,
  variation: string | undefined,
): Target {
  const rest = Object.fromEntries(Object.entries(target).filter(([key]) => key !== 'variation')) as Target;
  return variation === undefined ? rest : { ...rest, variation };
}
