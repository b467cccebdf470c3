import { isFault } from '../../grading/verdict';
import { limitOf } from '../../grading/figures/limits';
import { isParted } from '../../grading/measures';
import { judgedFigureOf } from '../../grading/figures/named-figures';
import { isCleanShare } from '../../grading/clean-share';
import type { Report } from '../../grading/types';
import type { Bpm } from '../../units';
import type { WeekTarget } from '../week-sheet';

/** A step of tempo that a week may bring; common practice, no source. */
const STEP_SHARE = 0.05;

/**
 * Targets for the week after a take: where something is out, that its measure holds, at the same tempo; where all holds and
 * four bars of five are clean, the next step of tempo. A teacher changes them as they like.
 * @param bpm the take's tempo
 * @example proposedTargets({ weakest: null }, 80) // => [{ kind: 'tempo', bpm: 80 }]
 */
export function proposedTargets(
  { weakest, settings, variations, bars }: Pick<Report, 'weakest' | 'settings' | 'variations' | 'bars'>,
  bpm: Bpm,
): readonly WeekTarget[] {
  if (weakest === null) return [{ kind: 'tempo', bpm }];
  const { variation, measure } = weakest;
  if (variations.every(({ band }) => !isFault(band))) {
    const played = bars.filter(({ role }) => role === undefined);
    const clean = played.filter((bar) => bar.clean);
    return [
      {
        kind: 'tempo',
        bpm: isCleanShare(clean.length, played.length) ? Math.round(bpm * (1 + STEP_SHARE)) : bpm,
      },
    ];
  }
  if (isParted(measure) || judgedFigureOf(measure).limitGoesBy !== undefined) {
    return [
      { kind: 'holds', variation },
      { kind: 'tempo', bpm },
    ];
  }
  const limit = limitOf(measure, settings, { gapMs: 0 });
  const side =
    limit.twoSided || limit.notYet > limit.holds ? { atMost: limit.holds } : { atLeast: limit.holds };
  return [
    { kind: 'measure', measure, variation, ...side },
    { kind: 'tempo', bpm },
  ];
}
