import { exp, ln } from '../exact';
import type { Bpm } from '../units';

/** Bars of one variation tried at one tempo on one day: how many there were, and how many of them were clean. */
export interface TriedBars {
  readonly bpm: Bpm;
  readonly bars: number;
  readonly clean: number;
  /** Whole days on any one calendar, such as since 1 January 1970. */
  readonly day: number;
}

/** Tempi this near each other are one. Source: grading.md section 7. */
const LIKE = 1.03;

/**
 * Bars of like tempo together: from the slowest on, all within 3 % of the slowest of their group, at their mean tempo
 * (geometric, by bars). So a ramp's or a free take's bars count beside steady ones. Slowest first.
 * @example likeTempi([{ bpm: 100, bars: 4, clean: 4, day: 0 }, { bpm: 102, bars: 4, clean: 2, day: 0 }])
 * // => [{ bpm: 100.995, bars: 8, clean: 6, day: 0 }]
 */
export function likeTempi<Tried extends TriedBars>(tried: readonly Tried[]): readonly Tried[] {
  if (tried.length < 2) return tried;
  const groups: Tried[][] = [];
  for (const one of [...tried].sort((a, b) => a.bpm - b.bpm)) {
    const group = groups.at(-1);
    if (group === undefined || one.bpm > LIKE * group[0].bpm) groups.push([one]);
    else group.push(one);
  }
  return groups.map(together);
}

/** The same, each day by itself, in the order of days. */
export function byDay(tried: readonly TriedBars[]): readonly TriedBars[] {
  const days = new Map<number, TriedBars[]>();
  for (const one of tried) {
    const own = days.get(one.day);
    if (own === undefined) days.set(one.day, [one]);
    else own.push(one);
  }
  return [...days].sort(([a], [b]) => a - b).flatMap(([, own]) => likeTempi(own));
}

/** Bars in all. */
export function barsOf(tried: readonly TriedBars[]): number {
  return tried.reduce((sum, { bars }) => sum + bars, 0);
}

function together<Tried extends TriedBars>(group: readonly Tried[]): Tried {
  const [first] = group;
  if (group.every(({ bpm }) => bpm === first.bpm)) {
    return { ...first, bars: barsOf(group), clean: cleanOf(group) };
  }
  const bars = barsOf(group);
  const lnBpm = group.reduce((sum, one) => sum + one.bars * ln(one.bpm), 0) / bars;
  return { ...first, bpm: exp(lnBpm), bars, clean: cleanOf(group) };
}

function cleanOf(tried: readonly TriedBars[]): number {
  return tried.reduce((sum, { clean }) => sum + clean, 0);
}
