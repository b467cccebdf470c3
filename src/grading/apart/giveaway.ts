import { square } from '../../exact';
import { seeded } from '../../exercises/seeded';
import type { Phrase, Tempo } from '../../exercises/types';
import type { Hand } from '../../stroke';
import { alikeBars, type AlikeBars } from './alike';
import { apartnessOf, NOT_ENOUGH, type NotTold } from './apartness';
import type { Estimate } from '../numbers/intervals';
import { relabelled, shuffledP } from '../numbers/relabel';
import { studentQuantile } from '../numbers/statistics';
import type { Report } from '../types';

/** The place that tells one variation from the others it is meant to sound like. */
export interface Giveaway {
  readonly kind: 'told';
  readonly variation: string;
  /** The ones it is told from. */
  readonly others: readonly string[];
  /** Partial of the pattern, and its first slot in the bar, from 0. */
  readonly place: number;
  readonly slot: number;
  readonly hand: Hand;
  readonly dimension: 'level' | 'time';
  /** dB louder or ms later than the same place of the others, with its own 90 % interval. */
  readonly difference: Estimate;
  readonly unit: 'dB' | 'ms';
  readonly t: number;
  /** Family-wise: chance that the largest of all places, variations and dimensions is as large without a difference. */
  readonly p: number;
  /** Bars of the variation, and of the others. */
  readonly n: readonly [number, number];
  /** From here a listener may notice: 1 dB, or 6 ms or 2.5 % of the gap. */
  readonly audibleFrom: number;
  readonly audible: boolean;
  /** Whether it does give the variation away: p under 0.05 and audible. */
  readonly gives: boolean;
  readonly cycles: number;
  /** True under 8 cycles: it could miss what is there. */
  readonly couldMiss: boolean;
}

const SHUFFLES = 500;
const SEED = 6;
/** Where chance is called unlikely. */
const ALPHA = 0.05;
const HIGH = 0.95;

/** A level difference that can be heard. Common practice, no source. */
const AUDIBLE_DB = 1;
/** One tone displaced in an even run: 6 ms, above gaps of 240 ms 2.5 % of them. Source: Friberg & Sundberg 1995. */
const AUDIBLE_MS = 6;
const AUDIBLE_SHARE = 0.025;

/**
 * The largest |t| of a variation's place against the same place in the others, in level or in time, with its p by the
 * maximum statistic over labels shuffled within cycles (Nichols & Holmes 2002).
 * @param tempo the take's: the timing threshold goes by the gap
 * @param shuffles 500 is what the figures of DEVELOPERS.md are for
 * @returns why it cannot be told: no variations meant to sound alike, under 4 cycles, or no grade
 */
export function giveawayOf(
  report: Report,
  phrase: Phrase,
  tempo: Tempo,
  shuffles = SHUFFLES,
  seed = SEED,
): Giveaway | NotTold {
  const apartness = apartnessOf(report, alikeBars(report, phrase, tempo));
  if (apartness.kind === 'not told') return apartness;
  const { groups, cycles, couldMiss } = apartness;
  const largest = groups.map((group) => largestT(group, group.labels));
  const winner = largest.reduce((most, next, i) => (next.size > largest[most].size ? i : most), 0);
  const found = largest[winner];
  if (!(found.size > 0)) return NOT_ENOUGH;
  const random = seeded(seed);
  const chance = Array.from({ length: shuffles }, () =>
    groups.reduce(
      (most, group) => Math.max(most, largestT(group, relabelled(group.labels, group.cycles, random)).size),
      0,
    ),
  );
  return worded(groups[winner], found, shuffledP(found.size, chance), cycles, couldMiss);
}

interface LargestT {
  /** |t|; 0 where there is none. */
  readonly size: number;
  readonly t: number;
  readonly variation: number;
  readonly dimension: number;
  readonly difference: number;
  readonly error: number;
  readonly df: number;
  readonly n: readonly [number, number];
}

/** Over all variations and dimensions: variation less the others, over the pooled spread within variations. */
function largestT({ variations, values, dimensions }: AlikeBars, labels: Uint16Array): LargestT {
  const k = variations.length;
  const bars = labels.length;
  const count = new Float64Array(k);
  const sum = new Float64Array(k);
  const squares = new Float64Array(k);
  let best: LargestT = {
    size: 0,
    t: 0,
    variation: 0,
    dimension: 0,
    difference: 0,
    error: 0,
    df: 0,
    n: [0, 0],
  };
  for (let d = 0; d < dimensions; d++) {
    count.fill(0);
    sum.fill(0);
    squares.fill(0);
    for (let bar = 0; bar < bars; bar++) {
      const value = values[bar * dimensions + d];
      if (Number.isNaN(value)) continue;
      const label = labels[bar];
      count[label]++;
      sum[label] += value;
      squares[label] += value * value;
    }
    let [n, total, within, groups] = [0, 0, 0, 0];
    for (let v = 0; v < k; v++) {
      if (count[v] === 0) continue;
      groups++;
      n += count[v];
      total += sum[v];
      within += squares[v] - square(sum[v]) / count[v];
    }
    const df = n - groups;
    const variance = within / df;
    if (!(df > 0) || !(variance > LEAST_VARIANCE)) continue;
    for (let v = 0; v < k; v++) {
      const rest = n - count[v];
      if (count[v] === 0 || rest === 0) continue;
      const difference = sum[v] / count[v] - (total - sum[v]) / rest;
      const error = Math.sqrt(variance * (1 / count[v] + 1 / rest));
      const size = Math.abs(difference) / error;
      if (size > best.size) {
        best = {
          size,
          t: difference / error,
          variation: v,
          dimension: d,
          difference,
          error,
          df,
          n: [count[v], rest],
        };
      }
    }
  }
  return best;
}

/** What rounding leaves of levels that are all the same. */
const LEAST_VARIANCE = 1e-12;

function worded(group: AlikeBars, found: LargestT, p: number, cycles: number, couldMiss: boolean): Giveaway {
  const { places, variations } = group;
  const inTime = found.dimension >= places.length;
  const { place, slot, hands, gapMs } = places[found.dimension % places.length];
  const audibleFrom = inTime ? Math.max(AUDIBLE_MS, AUDIBLE_SHARE * gapMs) : AUDIBLE_DB;
  const audible = Math.abs(found.difference) > audibleFrom;
  const reach = studentQuantile(HIGH, found.df) * found.error;
  return {
    kind: 'told',
    variation: variations[found.variation],
    others: variations.filter((_, v) => v !== found.variation),
    place,
    slot,
    hand: hands[found.variation],
    dimension: inTime ? 'time' : 'level',
    difference: { value: found.difference, interval: [found.difference - reach, found.difference + reach] },
    unit: inTime ? 'ms' : 'dB',
    t: found.t,
    p,
    n: found.n,
    audibleFrom,
    audible,
    gives: p < ALPHA && audible,
    cycles,
    couldMiss,
  };
}
