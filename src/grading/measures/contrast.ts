import type { Settings } from '../../settings';
import { soft, type Scope } from '../evidence/codes';
import { contrastInBar } from '../figures/bar-values';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { accentHeightLimit, linesIn, type HeightLines } from '../evidence/heights';
import { medianEstimate, type Estimate } from '../numbers/intervals';
import { accents, areDue, medianGap, withinSurface, withoutVerdict } from '../figures/levels-compared';
import { oneSided, type Limit } from '../figures/limit';
import { accentsAndSoft, ifStruck, isAccent } from '../figures/stroke-groups';
import { judged } from '../verdict';
import { A_STEP_DOWN, CP } from '../remedy/rules';
import type { JudgedMeasure, LimitAt } from './measure';

/** Of the contrast; where the rig has heights, of the accents' own level. */
const limit = (settings: Settings, { heights }: Pick<LimitAt, 'heights'>): Limit =>
  heights === undefined ? oneSided(settings, 'contrast') : accentHeightLimit(heights);

/**
 * Median accent minus median soft stroke (taps and ghosts), dB; positive: accents louder. Under 4 of either: too few.
 * Where the rig has heights the verdict is the accents' median's (`accentDb`): half-way from half to full holds, under
 * half is not yet. Where accents clip it is "at least" the value: it can hold, and has no verdict where it doesn't.
 * @example accents of velocity 127 over taps of 64: 11.9 dB, just short of the 12 that hold
 * Source: common practice.
 */
export const contrast: JudgedMeasure<'contrast', null> = {
  key: 'contrast',
  of: 'hands too',
  verdict: 'names',
  about: 'kind',
  remedy: {
    rule: 'that bar alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: accents are set against the same bar without them`,
  },
  live: 'contrast',
  column: { rank: 1, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'dB',
      madeOf: 'levels',
      limit,
      estimate,
      groups: accentsAndSoft,
      badness: (evidence) =>
        ifStruck(
          evidence,
          (i) => -evidence.levelDb[i],
          (i) => isAccent(evidence, i),
        ),
      inBar: contrastInBar,
      picture: 'accents and soft',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  if (!areDue(evidence, scope, accents, soft)) return undefined;
  const { settings } = evidence.graded;
  const figure = withinSurface(evidence, scope, [accents, soft], (within) => {
    const apart = medianGap(evidence, within, [accents, soft], limit(settings, {}));
    const heights = linesIn(evidence, within);
    if (heights === undefined) return apart;
    return byHeights(apart, medianEstimate(evidence.levels.select(within, accents)), settings, heights);
  });
  if (figure.value === null || !evidence.clipping.touches(scope)) return figure;
  if (figure.band === 'holds') return { ...figure, atLeast: true };
  return { ...withoutVerdict(figure), atLeast: true };
}

/** The contrast with the verdict that the accents' median has between the rig's heights. */
function byHeights(
  figure: Figure,
  accent: Estimate | undefined,
  settings: Settings,
  heights: HeightLines,
): Figure {
  if (figure.value === null || accent === undefined) return figure;
  const { value, interval, n } = figure;
  return {
    ...judged(accent, n, limit(settings, { heights }), settings),
    value,
    interval,
    accentDb: accent.value,
  };
}
