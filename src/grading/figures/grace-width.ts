import type { Settings } from '../../settings';
import type { Scope } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from './figure';
import {
  gapsOfKind,
  graceGapMs,
  gracesBySlot,
  gracesIn,
  isGraceDue,
  gapBeforeMs,
  type GraceKind,
} from './grace-gaps';
import { medianEstimate } from '../numbers/intervals';
import type { Limit } from './limit';
import type { Badness, LimitAt } from '../measures/measure';
import type { Ms } from '../../units';
import { distributionOf } from '../numbers/statistics';
import { judgedIfEnough, unjudged } from '../verdict';

const keyOf = { flam: 'flamGap', drag: 'dragGap' } as const satisfies Readonly<Record<GraceKind, string>>;

/**
 * Where flams, or drags, hold on the side of the ideal that a value is on: a grace may be too close or too far.
 * @param beforeMs time to the stroke before: a flam's upper limits are never over half of it
 */
export function widthLimit(
  kind: GraceKind,
  settings: Settings,
  { value = Infinity }: Pick<LimitAt, 'value'>,
  beforeMs = Infinity,
): Limit {
  const key = keyOf[kind];
  const share = shareOf(kind, settings, beforeMs);
  const ideal = share * settings[`${key}.ideal`];
  return value < ideal
    ? {
        ideal,
        holds: Math.min(ideal, settings[`${key}.holdsLeast`]),
        notYet: Math.min(ideal, settings[`${key}.notYetLeast`]),
        twoSided: false,
      }
    : {
        ideal,
        holds: share * settings[`${key}.holdsMost`],
        notYet: share * settings[`${key}.notYetMost`],
        twoSided: false,
      };
}

/** What is left of the upper limits. */
const shareOf = (kind: GraceKind, settings: Settings, beforeMs: Ms): number =>
  kind === 'flam' ? Math.min(1, beforeMs / 2 / settings['flamGap.notYetMost']) : 1;

/** Median gap from a grace to the next stroke of its group, ms. @returns undefined where none of the kind is due */
export function widthFigure(evidence: Evidence, scope: Scope, kind: GraceKind): Figure | undefined {
  const graces = gracesIn(evidence, scope);
  if (graces === undefined || !isGraceDue(evidence, scope, kind)) return undefined;
  const { settings } = evidence.graded;
  const gaps = gapsOfKind(graces, kind);
  if (graces.merged) return unjudged('not measured', [gaps.length]);
  const width = medianEstimate(distributionOf(gaps));
  const beforeMs = gapBeforeMs(evidence, kind);
  const figure = judgedIfEnough(
    () => width,
    [gaps.length],
    'few.group',
    () => widthLimit(kind, settings, { value: width?.value ?? 0 }, beforeMs),
    settings,
  );
  const isNarrower = beforeMs !== undefined && shareOf(kind, settings, beforeMs) < 1;
  return isNarrower && figure.value !== null ? { ...figure, beforeMs } : figure;
}

/** The farther out on the figure's side of the ideal, the worse. */
export function widthBadness(evidence: Evidence, { value, beforeMs }: Figure, kind: GraceKind): Badness {
  const found = gracesBySlot(evidence);
  const { ideal } = widthLimit(kind, evidence.graded.settings, {}, beforeMs);
  const side = (value ?? 0) < ideal ? -1 : 1;
  return (i) => {
    const gap = graceGapMs(evidence, found, i, kind);
    return gap === undefined ? undefined : side * gap;
  };
}
