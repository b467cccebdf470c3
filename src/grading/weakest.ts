import {
  measureOrder,
  type Band,
  type Figure,
  type JudgedKey,
  type Measures,
  type VariationReport,
} from './types';

/** Shown under "all measures"; they name a variation only when nothing else is out. */
const secondary: readonly JudgedKey[] = ['clarity', 'softSpread', 'accentSpread'];
const primary: readonly JudgedKey[] = measureOrder.filter((key) => !secondary.includes(key));

/** A judged figure with its name. */
export interface Standing {
  readonly key: JudgedKey;
  readonly figure: Figure;
  readonly supported: number;
  readonly margin: number;
}

/** A variation's worst measure. */
export interface VariationStanding extends Standing {
  readonly variation: VariationReport;
}

/**
 * Keys that may name a variation: the main measures; where each of those holds in every variation but `clarity` or a
 * spread doesn't somewhere, those too.
 */
export function namingKeys(variations: readonly Measures[]): readonly JudgedKey[] {
  const isOut = (keys: readonly JudgedKey[]): boolean =>
    variations.some((measures) => standings(measures, keys).some(({ supported }) => supported < 0));
  return !isOut(primary) && isOut(secondary) ? measureOrder : primary;
}

/** The worst judged measure: smallest supported margin, ties by margin, then by teaching order. */
export function worstOf(measures: Measures, keys: readonly JudgedKey[]): Standing | undefined {
  return standings(measures, keys)[0];
}

/**
 * What is out (doesn't hold), worst first: the evidence under the sentence. Where `fade` is the reason, leaks are its
 * shadow and are left out.
 */
export function reasonsOf(measures: Measures, keys: readonly JudgedKey[] = measureOrder): JudgedKey[] {
  const out = standings(measures, keys)
    .filter(({ supported }) => supported < 0)
    .map(({ key }) => key);
  if (out[0] !== 'fade') return out;
  return out.filter((key) => key !== 'leakBefore' && key !== 'leakAfter');
}

/** Variations that could be judged, weakest first; ties by margin, teaching order, then phrase order. */
export function weakestFirst(variations: readonly VariationReport[]): VariationStanding[] {
  const keys = namingKeys(variations.map(({ measures }) => measures));
  return variations
    .flatMap((variation) => {
      const worst = worstOf(variation.measures, keys);
      return worst ? [{ ...worst, variation }] : [];
    })
    .sort(byStanding);
}

/** The band of what nothing could be judged of. */
export function bandWithout(measures: Measures): Band {
  const tooFew = measureOrder.some((key) =>
    figuresOf(measures, key).some((figure) => figure.band === 'too few strokes'),
  );
  return tooFew ? 'too few strokes' : 'not measured';
}

/** The figure behind a key; of the seam the worse of time and level. */
export function figureOf(measures: Measures, key: JudgedKey): Figure | undefined {
  const figures = figuresOf(measures, key);
  return figures.reduce<Figure | undefined>(
    (worst, next) =>
      worst === undefined || (next.supported ?? Infinity) < (worst.supported ?? Infinity) ? next : worst,
    undefined,
  );
}

function figuresOf(measures: Measures, key: JudgedKey): Figure[] {
  if (key === 'seam') return measures.seam ? [measures.seam.ms, measures.seam.dB] : [];
  const figure = measures[key];
  return figure ? [figure] : [];
}

function standings(measures: Measures, keys: readonly JudgedKey[]): Standing[] {
  return keys
    .flatMap((key) => {
      const figure = figureOf(measures, key);
      if (typeof figure?.supported !== 'number' || typeof figure.margin !== 'number') return [];
      return [{ key, figure, supported: figure.supported, margin: figure.margin }];
    })
    .sort(byStanding);
}

/** A stable sort keeps phrase order where all else ties. */
function byStanding(a: Standing, b: Standing): number {
  return (
    a.supported - b.supported ||
    a.margin - b.margin ||
    measureOrder.indexOf(a.key) - measureOrder.indexOf(b.key)
  );
}
