import type { Figure, Part } from './figure';
import { judgedMeasureOf, measureOf, type JudgedFigure, type JudgedKey, type MeasureKey } from '../measures';
import type { Measures } from '../types';

/** A figure of a report with the key it stands under; a measure of two parts stands twice, in ms and in dB. */
export interface NamedFigure {
  readonly key: MeasureKey;
  /** Set for the two parts of a measure. */
  readonly part: Part | null;
  readonly figure: Figure;
}

/** The figures of one key: none, one, or the two of its parts. */
export function figuresOf(measures: Measures, key: MeasureKey): NamedFigure[] {
  const found = measures[key];
  if (found === undefined) return [];
  if (!('ms' in found)) return [{ key, part: null, figure: found }];
  return measureOf(key).figures.flatMap(({ part }) =>
    part === null ? [] : [{ key, part, figure: found[part] }],
  );
}

/** The figure of one key that stands worst, with its part; undefined where the key does not apply. */
export function worstFigureOf(measures: Measures, key: MeasureKey): NamedFigure | undefined {
  return figuresOf(measures, key).reduce<NamedFigure | undefined>(
    (worst, next) =>
      worst === undefined || (next.figure.supported ?? Infinity) < (worst.figure.supported ?? Infinity)
        ? next
        : worst,
    undefined,
  );
}

/** The figure of a part, or the only one. */
export function partOf(measures: Measures, key: MeasureKey, part: Part | null): Figure | undefined {
  return figuresOf(measures, key).find((one) => one.part === part)?.figure;
}

/** What a judged measure says of one of its figures; of the first where the part is not its own. */
export function judgedFigureOf(key: JudgedKey, part: Part | null = null): JudgedFigure {
  const { figures } = judgedMeasureOf(key);
  return figures.find((one) => one.part === part) ?? figures[0];
}
