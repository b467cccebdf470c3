import type { GridBar } from '../exercises/types';
import { square } from '../exact';
import { squaredDeviations } from './numbers/statistics';
import type { Hand } from '../stroke';
import type { Evidence } from './evidence/evidence';
import type { Figure, Part } from './figures/figure';
import { linesIn } from './evidence/heights';
import { limitOf, type Limit } from './figures/limits';
import { judgedMeasureOf, type JudgedKey } from './measures';
import { judgedFigureOf } from './figures/named-figures';
import type { BlameScope } from './types';
import type { VariationStanding } from './weakest';

/** Where a fault lives, and the variations that have it, the weakest among them, in phrase order. */
interface Blame {
  readonly scope: BlameScope;
  readonly variations: readonly string[];
}

/** What a variation shows of the fault: larger is worse. */
interface Shown {
  readonly variation: number;
  readonly value: number;
  readonly error: number;
}

/** Half the width of a normal 90 % interval in standard errors. */
const NORMAL_90 = 1.645;

/**
 * Where the weakest variation's fault lives (grading.md section 5). Another variation is as bad where it lies under it by
 * no more than noise (90 %, both errors) and a third of the step from *holds* to *not yet*. None as bad: the variation's
 * own fault. Up to half of them: theirs. More, or one bar of each only: the whole phrase's, of what the measure is about.
 * Errors are of bar values where a bar shows the measure by itself, for strokes of one bar lean on each other; else the
 * interval's.
 */
export function blameOf(evidence: Evidence, weakest: VariationStanding): Blame {
  const { key, part, figure } = weakest;
  const named = evidence.names.indexOf(weakest.variation.name);
  const shown = shownBy(evidence, key, part, figure);
  const own = shown.find(({ variation }) => variation === named);
  const whole = figure.hand === undefined ? judgedMeasureOf(key).about : 'hand';
  if (own === undefined) return { scope: 'variation', variations: [weakest.variation.name] };
  const least = leastStep(evidence, key, part, figure);
  const isAsBad = ({ value, error }: Shown): boolean =>
    own.value - value <= Math.max(NORMAL_90 * Math.sqrt(square(own.error) + square(error)), least);
  const bad = shown.filter((one) => one.variation === named || isAsBad(one));
  const variations = bad.map(({ variation }) => evidence.names[variation]);
  if (evidence.graded.variationsDue.length === 1) return { scope: whole, variations };
  if (shown.length === 1) return { scope: 'variation', variations };
  if (isOneBarEach(evidence) || 2 * bad.length > shown.length) return { scope: whole, variations };
  return { scope: bad.length === 1 ? 'variation' : 'variations', variations };
}

/** Then nothing tells a variation from a bar that went wrong. */
const isOneBarEach = ({ names, graded }: Evidence): boolean =>
  names.every((name) => graded.grid.bars.filter(({ variation }) => variation === name).length <= 1);

/** Each variation's value on the weakest's bad side, of its hand and its surfaces, where there is one. */
function shownBy(evidence: Evidence, key: JudgedKey, part: Part | null, figure: Figure): readonly Shown[] {
  const judged = judgedFigureOf(key, part);
  const { hand } = figure;
  const surface = evidence.surfaces.findIndex((name) => name === figure.surface);
  const scope = {
    ...(hand === undefined ? {} : { hand }),
    ...(figure.surface === undefined || surface < 0 ? {} : { surface }),
  };
  const sign = badSide(evidence, key, part, figure);
  const errors = errorsOfBars(evidence, key, part, hand);
  return evidence.names.flatMap((_, variation): readonly Shown[] => {
    const own = judged.estimate(evidence, { variation, ...scope });
    if (typeof own?.value !== 'number' || own.interval === null || own.interval === undefined) return [];
    const [low, high] = own.interval;
    const error = errors?.[variation] ?? (high - low) / (2 * NORMAL_90);
    return [{ variation, value: sign * judgedValue(own), error }];
  });
}

/** +1 where larger is worse. */
function badSide(evidence: Evidence, key: JudgedKey, part: Part | null, figure: Figure): 1 | -1 {
  const { twoSided, holds, notYet } = limitAt(evidence, key, part, figure);
  const isMore = twoSided ? judgedValue(figure) >= 0 : notYet >= holds;
  return isMore ? 1 : -1;
}

/** A third of the step from *holds* to *not yet*. */
function leastStep(evidence: Evidence, key: JudgedKey, part: Part | null, figure: Figure): number {
  const { holds, notYet } = limitAt(evidence, key, part, figure);
  return evidence.graded.settings['scope.leastStep'] * Math.abs(notYet - holds);
}

/** Where the rig has heights, contrast is judged by the accents' own level. */
const judgedValue = ({ value, accentDb }: Figure): number => accentDb ?? value ?? 0;

function limitAt(evidence: Evidence, key: JudgedKey, part: Part | null, figure: Figure): Limit {
  const { settings, grid } = evidence.graded;
  const heights = linesIn(evidence, {});
  const { beforeSoft } = figure;
  const at = {
    gapMs: grid.smallestGapMs,
    value: judgedValue(figure),
    ...(beforeSoft === true ? { beforeSoft } : {}),
  };
  return limitOf(key, settings, heights === undefined ? at : { ...at, heights }, part);
}

/** Standard error of each variation's mean of bar values, their spread pooled within variations; undefined without. */
function errorsOfBars(
  evidence: Evidence,
  key: JudgedKey,
  part: Part | null,
  hand: Hand | undefined,
): readonly (number | undefined)[] | undefined {
  const valuesOf = judgedFigureOf(key, part).inBar?.values(evidence);
  if (valuesOf === undefined) return undefined;
  const byVariation = evidence.names.map((name) =>
    evidence.graded.grid.bars.filter((bar) => bar.variation === name).flatMap((bar) => valueIn(bar)),
  );
  let [squares, free] = [0, 0];
  for (const values of byVariation) {
    squares += squaredDeviations(values);
    free += Math.max(0, values.length - 1);
  }
  if (free === 0) return undefined;
  return byVariation.map(({ length }) => (length === 0 ? undefined : Math.sqrt(squares / free / length)));

  function valueIn(bar: GridBar): readonly number[] {
    const own = (valuesOf?.(bar) ?? []).filter((one) => hand === undefined || one.hand === hand);
    return own.slice(0, 1).map(({ value }) => value);
  }
}
