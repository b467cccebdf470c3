import type { Settings } from '../settings';
import { accentEvidence, type Levels } from './accent-levels';
import type { Reading, Readings, SlipInput } from './readings';

/** Two ways this near in cost are the same way. */
const SAME = 1e-7;

/** What is due, wrapped round the cycle at both ends: ±1 (accent or soft, R or L), 0 where nobody can say. */
export interface Due {
  readonly pad: number;
  readonly kind: Int8Array;
  readonly hand: Int8Array;
  /** Number of the surface, 0 where nobody can say. */
  readonly surface: Int16Array;
}

export function padded(input: SlipInput, pad: number): Due {
  const slots = input.accent.length;
  const due = {
    pad,
    kind: new Int8Array(slots + 2 * pad),
    hand: new Int8Array(slots + 2 * pad),
    surface: new Int16Array(slots + 2 * pad),
  };
  for (let i = -pad; i < slots + pad; i++) {
    let slot = i;
    if (slot < 0) slot += input.slotsPerCycle;
    if (slot >= slots) slot -= input.slotsPerCycle;
    if (slot < 0 || slot >= slots) continue;
    due.kind[i + pad] = input.accent[slot] === 1 ? 1 : -1;
    due.hand[i + pad] = input.hand[slot];
    if (input.surface !== undefined) due.surface[i + pad] = input.surface.due[slot];
  }
  return due;
}

/** What each slot says: the sum over `kind` and `hand` of evidence × what is due at a lag. */
export interface Evidence {
  readonly kind: Float64Array;
  readonly hand: Float64Array;
  /** What agreeing in the surface is worth, and the surface struck (0: nobody can say); undefined without a voicing. */
  readonly surface: { readonly worth: number; readonly played: Int16Array } | undefined;
}

export function evidenceOf(input: SlipInput, levels: Levels | undefined, settings: Settings): Evidence {
  const slots = input.level.length;
  const perHand = settings['slip.knownHand'];
  const evidence: Evidence = {
    kind: new Float64Array(slots),
    hand: new Float64Array(slots),
    surface: input.surface === undefined ? undefined : { worth: perHand, played: input.surface.played },
  };
  const kindOf = levels === undefined ? () => 0 : accentEvidence(levels, settings);
  for (let i = 0; i < slots; i++) {
    evidence.hand[i] = perHand * input.playedHand[i];
    if (Number.isNaN(input.level[i])) continue;
    evidence.kind[i] = kindOf(input.level[i]);
  }
  return evidence;
}

/** Where in `due` a slot is looked up in a reading; −1 where it has no such place. */
export function placeOn({ barOf, bars }: Readings, i: number, reading: Reading, pad: number): number {
  if (reading.kind === 'lag') return i + reading.lag + pad;
  const bar = bars[barOf[i]];
  const as = bars[reading.as];
  return bar.slots === as.slots ? as.firstSlot + (i - bar.firstSlot) + pad : -1;
}

/** What a slot’s stroke says for a reading. */
export function evidenceFor(
  evidence: Evidence,
  due: Due,
  readings: Readings,
  i: number,
  reading: Reading,
): number {
  const there = placeOn(readings, i, reading, due.pad);
  if (there < 0) return -Infinity;
  const hand = reading.kind === 'bar' && reading.mirrored ? -due.hand[there] : due.hand[there];
  const sum = evidence.kind[i] * due.kind[there] + evidence.hand[i] * hand;
  if (evidence.surface === undefined) return sum;
  const { worth, played } = evidence.surface;
  if (played[i] === 0 || due.surface[there] === 0) return sum;
  return sum + (played[i] === due.surface[there] ? worth : -worth);
}

/** The reading of each slot with the most evidence less what changes cost. */
export function bestPath(
  input: SlipInput,
  due: Due,
  readings: Readings,
  levels: Levels | undefined,
  settings: Settings,
): Int16Array {
  const slots = input.level.length;
  const path = new Int16Array(slots);
  if (slots === 0) return path;
  const evidence = evidenceOf(input, levels, settings);
  const { all, costs, lags, barOf } = readings;
  const count = all.length;
  const from = new Int16Array(slots * count);
  let value = new Float64Array(count);
  let next = new Float64Array(count);
  for (let at = 0; at < count; at++) {
    value[at] = evidenceFor(evidence, due, readings, 0, all[at]) - (at === 0 ? 0 : costs[at]);
  }
  for (let i = 1; i < slots; i++) {
    const isBarLine = barOf[i] !== barOf[i - 1];
    const best = indexOfBest(value, isBarLine ? count : lags);
    for (let at = 0; at < count; at++) {
      const isBar = at >= lags;
      const stay = isBar && isBarLine ? -Infinity : value[at];
      // Out of another bar the way back to lag 0 is free.
      const cost = at === 0 && best >= lags ? 0 : costs[at];
      const change = isBar && !isBarLine ? -Infinity : value[best] - cost;
      // Of equal readings the one at lag 0 for longest: into a stretch late, out of it early.
      const changes = best === 0 && !isBar ? change >= stay - SAME : change > stay + SAME;
      const comes = changes && (best !== at || isBar);
      from[i * count + at] = comes ? best : at;
      next[at] = (comes ? change : stay) + evidenceFor(evidence, due, readings, i, all[at]);
    }
    const swap = value;
    value = next;
    next = swap;
  }
  let at = indexOfBest(value, count);
  for (let i = slots - 1; i >= 0; i--) {
    path[i] = at;
    at = from[i * count + at];
  }
  return path;
}

/** The first of the largest values, the earlier where they are the same. */
function indexOfBest(values: Float64Array, count: number): number {
  let best = 0;
  for (let i = 1; i < count; i++) if (values[i] > values[best] + SAME) best = i;
  return best;
}
