import { exp } from '../../exact';
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

/** A lapse rate, by its place among the prior's, the sd of a day's own ceiling, and how likely both are. */
export interface Kind {
  readonly lapse: number;
  readonly sd: number;
  readonly weight: number;
}

/** A day's likelihood along the logarithm of the line's tempo, for each kind: the largest about 1. */
export interface DayLine {
  readonly from: number;
  readonly step: number;
  /** Index node · kind; one node more than the line needs. Good until the next line is laid. */
  readonly values: Float64Array;
  /** Logarithm of what all values are to be multiplied with. */
  readonly lnScale: number;
}

/** Sd at which a Normal day's own ceiling is looked at; their weights sum to 1. */
const DEVIATES = [-2.1, -1.4, -0.7, 0, 0.7, 1.4, 2.1];
const densities = DEVIATES.map((z) => exp((-z * z) / 2));
const sum = densities.reduce((all, one) => all + one, 0);
const shares = densities.map((one) => one / sum);
const LARGEST_SD = prior.days.reduce((most, { sd }) => Math.max(most, sd), 0);
/** Nodes are this near, and nearer where bars end steeply. */
const MOST_STEP = 0.015;
const STEP_SHARE = 0.3;
/** Beside the likeliest ceiling of the day one of this likelihood or less is as good as none. */
const LEAST = 1e-30;
/** exp of less is under `LEAST`. */
const LN_LEAST = -70;

/** What lines are laid in, used again and again: there are thousands of them, one at a time. */
interface Buffers {
  readonly own: Float64Array;
  readonly spread: Float64Array;
  readonly values: Float64Array;
  readonly most: Float64Array;
}

/** Lays lines between two logarithms of tempo at one steepness, one at a time, each in the buffers of the one before. */
export function dayLines(
  kinds: readonly Kind[],
): (day: DayTried, b: number, lowest: number, highest: number) => DayLine {
  let buffers = buffersFor(0, 0, kinds.length);
  return ({ rows }, b, lowest, highest) => {
    const step = Math.min(MOST_STEP, STEP_SHARE / b);
    const margin = Math.ceil((DEVIATES[DEVIATES.length - 1] * LARGEST_SD) / step) + 1;
    const inner = Math.ceil((highest - lowest) / step) + 2;
    if (buffers.own.length < inner + 2 * margin || buffers.spread.length < inner) {
      buffers = buffersFor(inner, margin, kinds.length);
    }
    const { own, spread, values, most } = buffers;
    const along = { from: lowest - margin * step, step, nodes: inner + 2 * margin };
    kinds.forEach(({ lapse, sd }, at) => {
      most[at] =
        at > 0 && kinds[at - 1].lapse === lapse ? most[at - 1] : likelihoodsInto(own, rows, b, lapse, along);
      spreadOver(own, sd / step, margin, spread, inner);
      for (let node = 0; node < inner; node += 1) values[node * kinds.length + at] = spread[node];
    });
    let lnScale = -Infinity;
    for (const one of most) if (one > lnScale) lnScale = one;
    most.forEach((one, at) => {
      const scale = exp(one - lnScale);
      if (scale === 1) return;
      for (let node = 0; node < inner; node += 1) values[node * kinds.length + at] *= scale;
    });
    return { from: lowest, step, values, lnScale };
  };
}

function buffersFor(inner: number, margin: number, kinds: number): Buffers {
  return {
    own: new Float64Array(inner + 2 * margin),
    spread: new Float64Array(inner),
    values: new Float64Array(kinds * inner),
    most: new Float64Array(kinds),
  };
}

/** Likelihoods of a day's bars under its own ceiling, the largest of them 1; returns the logarithm of that one. */
function likelihoodsInto(
  into: Float64Array,
  rows: DayTried['rows'],
  b: number,
  lapse: number,
  { from, step, nodes }: { readonly from: number; readonly step: number; readonly nodes: number },
): number {
  const table = chances();
  into.fill(0, 0, nodes);
  for (const { lnBpm, clean, broken } of rows) {
    const all = clean + broken;
    const atMost = clean * lnCleanAtMost[lapse];
    for (let node = 0; node < nodes; node += 1) {
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
  for (let node = 0; node < nodes; node += 1) if (into[node] > most) most = into[node];
  for (let node = 0; node < nodes; node += 1) {
    const ln = into[node] - most;
    into[node] = ln < LN_LEAST ? 0 : exp(ln);
  }
  return most;
}

/** The mean of likelihoods over a Normal day of so many nodes' sd. */
function spreadOver(
  likelihoods: Float64Array,
  sdNodes: number,
  margin: number,
  into: Float64Array,
  nodes: number,
): void {
  into.fill(LEAST, 0, nodes);
  DEVIATES.forEach((deviate, at) => {
    const place = margin + deviate * sdNodes;
    const first = Math.floor(place);
    const part = place - first;
    const [low, high] = [shares[at] * (1 - part), shares[at] * part];
    for (let node = 0; node < nodes; node += 1) {
      into[node] += low * likelihoods[first + node] + high * likelihoods[first + node + 1];
    }
  });
}
