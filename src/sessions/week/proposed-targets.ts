import { FASTEST } from '../../exercises/tempo';
import { chosenOf } from '../../grading/chosen';
import { findingOf, type Finding } from '../../grading/finding';
import { limitOf } from '../../grading/figures/limits';
import { judgedFigureOf } from '../../grading/figures/named-figures';
import { isParted } from '../../grading/measures';
import type { Bpm } from '../../units';
import type { WeekTarget } from '../week-sheet';
import { gapMsOf } from './new-target';
import { targetsMet, type Returned } from './targets-met';

/** A step of tempo that a week may bring; common practice, no source. */
const STEP_SHARE = 0.05;

/**
 * Targets for the week after a take, none of which it meets already: where something is out, that the measure of what leads holds, and
 * the take's own tempo where too few bars were clean at it; where nothing is out and enough were, the next step of tempo. A
 * teacher changes them as they like.
 * @param bpm the take's tempo
 */
export function proposedTargets(returned: Returned, bpm: Bpm): readonly WeekTarget[] {
  const { phrase, limits, first } = returned.take;
  const isNew = (target: WeekTarget): boolean =>
    targetsMet({ targets: [target], phrase, bpm, limits }, [returned]).every(
      ({ outcome }) => outcome !== 'met',
    );
  const asItWas: WeekTarget = { kind: 'tempo', bpm };
  const finding = findingOf(returned.report, chosenOf(returned.report, first));
  if (finding === undefined) {
    return [isNew(asItWas) ? asItWas : nextTempo(bpm, isNew)];
  }
  const mended = mendedBy(finding, returned, bpm).find(isNew);
  return [...(mended === undefined ? [] : [mended]), ...(isNew(asItWas) ? [asItWas] : [])];
}

/** The first step of tempo that the take doesn't meet: in free time it may have been played faster than it was set. */
function nextTempo(bpm: Bpm, isNew: (target: WeekTarget) => boolean): WeekTarget {
  let target: WeekTarget;
  let next = bpm;
  do {
    next *= 1 + STEP_SHARE;
    target = { kind: 'tempo', bpm: Math.round(next) };
  } while (!isNew(target) && next < FASTEST);
  return target;
}

/** That what is out holds, in the order of what says it best: its measure within a limit, then the variation, then all of it. */
function mendedBy(
  { reason, variation, figure }: Finding,
  { take, report: { settings } }: Returned,
  bpm: Bpm,
): readonly WeekTarget[] {
  const of = variation === null ? {} : { variation };
  const holding: readonly WeekTarget[] = [{ kind: 'holds', ...of }, { kind: 'holds' }];
  // One slip is one fault of hundreds of strokes.
  if (reason === 'slip') return [{ kind: 'measure', measure: 'complete', atLeast: 1 }];
  const { limitGoesBy } = judgedFigureOf(reason);
  if (isParted(reason) || (limitGoesBy !== undefined && variation !== null)) return holding;
  const gapMs = gapMsOf({ bpm, phrase: take.phrase });
  const limit = limitOf(reason, settings, {
    gapMs,
    value: figure?.value ?? 0,
    ...(figure?.beforeSoft === true ? { beforeSoft: figure.beforeSoft } : {}),
  });
  const holds = limitGoesBy === 'the gap' ? Math.floor(limit.holds) : limit.holds;
  const isMost = limit.twoSided || limit.notYet > limit.holds;
  const limited = isMost ? { atMost: holds } : { atLeast: holds };
  return [{ kind: 'measure', measure: reason, ...of, ...limited }, ...holding];
}
