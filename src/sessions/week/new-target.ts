import { limitOf } from '../../grading/figures/limits';
import { settingsOf } from '../../settings';
import type { Ms } from '../../units';
import type { TargetMeasure, WeekSheet, WeekTarget } from '../week-sheet';

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
  sheet: Pick<WeekSheet, 'bpm' | 'limits' | 'phrase'>,
  variation?: string,
): WeekTarget {
  const limit = limitOf(measure, settingsOf(sheet.limits), { gapMs: gapMsOf(sheet) });
  const holds = Math.round(100 * limit.holds) / 100;
  const side = limit.twoSided || limit.notYet > limit.holds ? { atMost: holds } : { atLeast: holds };
  return { kind: 'measure', measure, ...(variation === undefined ? {} : { variation }), ...side };
}

/** The smallest gap that a sheet's phrase asks for at its tempo. */
export function gapMsOf({ bpm, phrase: { partialsPerBeat } }: Pick<WeekSheet, 'bpm' | 'phrase'>): Ms {
  const partials = typeof partialsPerBeat === 'number' ? partialsPerBeat : Math.max(...partialsPerBeat);
  return 60_000 / bpm / partials;
}

/** The same target of a variation, or of the whole phrase where none is named. */
export function targetOf<Target extends Extract<WeekTarget, { kind: 'holds' | 'measure' }>>(
  target: Target,
  variation: string | undefined,
): Target {
  const rest = Object.fromEntries(Object.entries(target).filter(([key]) => key !== 'variation')) as Target;
  return variation === undefined ? rest : { ...rest, variation };
}
