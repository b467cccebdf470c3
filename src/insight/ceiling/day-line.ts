import { exp, ln } from '../../exact';
import { chances, lnCleanAtMost, lnLapses, REACH, STEP, WIDTH } from './chances';
import { prior } from './prior';

/** Bars at one tempo. */
interface Row {
  readonly lnBpm: number;
  readonly clean: number;
  readonly broken: number;
}

/** Bars of one day, and its weeks from the middle of the time. */
export interface DayTried {
  readonly weeks: number;
  readonly rows: readonly Row[];
}

/** A lapse rate, by its place among the prior's, and the sd of a day's own ceiling. */
export interface Kind {
  readonly lapse: number;
  readonly sd: number;
  readonly lnWeight: number;
}

/** A day's log-likelihood along the logarithm of the line's tempo, for each kind. */
interface DayLine {
  readonly from: number;
  readonly step: number;
  /** Index node · kind; one node more than the line needs. */
  readonly values: Float64Array;
}

/** Sd at which a Normal day's own ceiling is looked at; their weights sum to 1. */
const DEVIATES = [-2.1, -1.4, -0.7, 0, 0.7, 1.4, 2.1];
const densities = DEVIATES.map((z) => exp((-z * z) / 2));
const sum = densities.reduce((all, one) => all + one, 0);
const shares = densities.map((one) => one / sum);
const LARGEST_SD = prior.days.reduce((most, { sd }) => Math.max(most, sd), 0);
/** Nodes are this near, and nearer where bars end steeply. */
const MOST_STEP = 0.02;
const STEP_SHARE = 0.3;
/** Beside the likeliest ceiling of the day one of this likelihood or less is as good as none. */
const LEAST = 1e-30;

/** The line between two logarithms of tempo, at one steepness. */
export function dayLine(
  day: DayTried,
  b: number,
  kinds: readonly Kind[],
  lowest: number,
  highest: number,
): DayLine {
  const step = Math.min(MOST_STEP, STEP_SHARE / b);
  const margin = Math.ceil((DEVIATES[DEVIATES.length - 1] * LARGEST_SD) / step) + 1;
  const inner = Math.ceil((highest - lowest) / step) + 2;
  const values = new Float64Array(kinds.length * inner);
  const own = new Float64Array(inner + 2 * margin);
  const spread = new Float64Array(inner);
  let [lapse, most] = [-1, 0];
  kinds.forEach((kind, at) => {
    if (kind.lapse !== lapse) {
      lapse = kind.lapse;
      most = likelihoodsInto(own, day, b, lapse, lowest - margin * step, step);
    }
    spreadOver(own, kind.sd / step, margin, spread);
    for (let node = 0; node < inner; node += 1) values[node * kinds.length + at] = most + ln(spread[node]);
  });
  return { from: lowest, step, values };
}

/** Likelihoods of a day's bars under its own ceiling, the largest of them 1; returns the logarithm of that one. */
function likelihoodsInto(
  into: Float64Array,
  { rows }: DayTried,
  b: number,
  lapse: number,
  from: number,
  step: number,
): number {
  const table = chances();
  into.fill(0);
  for (const { lnBpm, clean, broken } of rows) {
    const all = clean + broken;
    const atMost = clean * lnCleanAtMost[lapse];
    for (let node = 0; node < into.length; node += 1) {
      const x = b * (lnBpm - from - node * step);
      if (x >= REACH) into[node] += atMost - clean * x;
      else if (x <= -REACH) into[node] += atMost + broken * lnLapses[lapse];
      else {
        const place = (x + REACH) / STEP;
        const entry = Math.floor(place);
        const part = place - entry;
        const row = entry * WIDTH;
        const whole = table[row] + part * (table[row + WIDTH] - table[row]);
        const lnBroken = table[row + 1 + lapse];
        into[node] +=
          atMost - all * whole + broken * (lnBroken + part * (table[row + WIDTH + 1 + lapse] - lnBroken));
      }
    }
  }
  let most = -Infinity;
  for (const one of into) if (one > most) most = one;
  for (let node = 0; node < into.length; node += 1) into[node] = exp(into[node] - most);
  return most;
}

/** The mean of likelihoods over a Normal day of so many nodes' sd. */
function spreadOver(likelihoods: Float64Array, sdNodes: number, margin: number, into: Float64Array): void {
  into.fill(LEAST);
  DEVIATES.forEach((deviate, at) => {
    const place = margin + deviate * sdNodes;
    const first = Math.floor(place);
    const part = place - first;
    const [low, high] = [shares[at] * (1 - part), shares[at] * part];
    for (let node = 0; node < into.length; node += 1) {
      into[node] += low * likelihoods[first + node] + high * likelihoods[first + node + 1];
    }
  });
}
