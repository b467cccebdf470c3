import { square } from '../exact';
import type { Settings } from '../settings';
import { MAD_TO_SD, medianInPlace, select } from '../ordered';

/** The pattern and what was played on it, slot by slot. */
interface SlipInput {
  /** Kind due: 1 accent, 0 soft. */
  readonly accent: Uint8Array;
  /** Hand due: R +1, L −1. */
  readonly hand: Int8Array;
  /** Level of the stroke paired with each slot, NaN where there is none or it can't be compared (`slipEvidence`). */
  readonly level: Float64Array;
  /** Hand that stroke is known to be of: R +1, L −1, 0 where none or not known. */
  readonly playedHand: Int8Array;
  readonly slotsPerCycle: number;
  /** Bars in order: first slot and slots. Left out: no bar is looked for in the place of another. */
  readonly bars?: readonly BarSlots[];
  readonly barsPerCycle?: number;
  /** Half a pattern in slots, 0 where it has no half. */
  readonly halfPattern: number;
  /** Surface due and struck at each slot, as numbers from 1, 0 where nobody can say; left out without a voicing. */
  readonly surface?: { readonly due: Int16Array; readonly played: Int16Array };
}

interface BarSlots {
  readonly firstSlot: number;
  readonly slots: number;
}

/** A bar of the take was played as bar `as` of the cycle, hands swapped or not. */
export interface BarPlayed {
  readonly bar: number;
  readonly as: number;
  readonly mirrored: boolean;
}

/** Slots `from` up to and without `to` were played `lag` places ahead (+) or behind (−). */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly lag: number;
}

export interface SlipSearch {
  readonly stretches: readonly Stretch[];
  readonly bars: readonly BarPlayed[];
  readonly notToldBecause: 'no accents' | 'accents not told from taps' | null;
}

/** Middles of accents and softs, and their pooled spread, in dB. */
interface Levels {
  readonly accent: number;
  readonly soft: number;
  readonly spread: number;
}

const MOST_FITS = 4;
/** Two ways this near in cost are the same way. */
const SAME = 1e-7;

/**
 * **Slips and other bars**: a stroke dropped or added, and on with the pattern shifted; a bar played as another. The played
 * accents (and known hands) are held against the pattern at lags −3 to +3 (and ± half a pattern where hands are known), and
 * against each other bar of the phrase (mirrored too, where hands are known), by one best path, slot by slot.
 * A stroke gives ±½·min(3, |(A − S)(x − (A + S)/2)/σ²|) for agreeing or not with the kind of its slot there, and ±2.5 for a
 * known hand, and for the surface a voicing sends it to; going to a lag costs 5 + ½·|lag|. Another bar is entered at a bar
 * line, for 5 (mirrored 6), and left at the next. What is less than 9 better than lag 0, the way there counted and the way
 * back not, is dropped; so is a bar whose own evidence is under half of what it could be. A lag that lies in one bar and
 * covers three quarters of it is a bar if that costs at most 1. On equal cost a stretch is the shortest.
 * Not looked for without accents and known hands, and where (A − S)/σ < 2.5.
 */
export function findSlips(input: SlipInput, settings: Settings): SlipSearch {
  const handsKnown = input.playedHand.some((hand) => hand !== 0);
  const start = loudestFirst(input, settings);
  if (start === undefined && !handsKnown && input.surface === undefined) {
    return { stretches: [], bars: [], notToldBecause: 'no accents' };
  }

  const lags = lagsOf(input, handsKnown, settings);
  const due = padded(input, Math.max(...lags.map(Math.abs)));
  const walk = walkOf(input, lags, otherBarsOf(input, handsKnown), settings);
  let levels = start;
  let path: Int16Array = new Int16Array(input.level.length);
  for (let fit = 0; fit <= MOST_FITS; fit++) {
    const next = bestPath(input, due, walk, levels, settings);
    const same = fit > 0 && next.every((way, i) => way === path[i]);
    path = next;
    if (same || levels === undefined) break;
    levels = levelsAlong(input, due, walk, path, settings);
  }
  if (start !== undefined && !toldApart(levels, settings)) {
    return { stretches: [], bars: [], notToldBecause: 'accents not told from taps' };
  }
  const evidence = evidenceOf(input, levels, settings);
  return { ...toldOn(path, input, due, walk, evidence, settings), notToldBecause: null };
}

function toldApart(levels: Levels | undefined, settings: Settings): boolean {
  if (levels === undefined) return false;
  return (levels.accent - levels.soft) / levels.spread >= settings['slip.leastSeparation'];
}

/** 0, +1, −1, +2, −2, +3, −3, and ± half a pattern where hands tell it apart. */
function lagsOf(input: SlipInput, handsKnown: boolean, settings: Settings): number[] {
  const lags = [0];
  const most = settings['slip.mostLag'];
  for (let lag = 1; lag <= most; lag++) lags.push(lag, -lag);
  if (handsKnown && input.halfPattern > most) lags.push(input.halfPattern, -input.halfPattern);
  return lags;
}

/** What is due, wrapped round the cycle at both ends: ±1 (accent or soft, R or L), 0 where nobody can say. */
interface Due {
  readonly pad: number;
  readonly kind: Int8Array;
  readonly hand: Int8Array;
  /** Number of the surface, 0 where nobody can say. */
  readonly surface: Int16Array;
}

function padded(input: SlipInput, pad: number): Due {
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

/** Levels when the loudest n strokes are taken for the accents, n the accents due; undefined without both kinds. */
function loudestFirst(input: SlipInput, settings: Settings): Levels | undefined {
  const levels = new Float64Array(input.level.length);
  let played = 0;
  let accents = 0;
  for (let i = 0; i < levels.length; i++) {
    if (Number.isNaN(input.level[i])) continue;
    levels[played++] = input.level[i];
    accents += input.accent[i];
  }
  return levelsFromLoudest(levels.subarray(0, played), accents, settings);
}

/** Levels of both kinds when the loudest are the accents. @returns undefined where all are of one kind */
export function levelsFromLoudest(
  all: Float64Array,
  accents: number,
  settings: Settings,
): Levels | undefined {
  if (accents <= 0 || accents >= all.length) return undefined;
  const levels = all.slice();
  const softs = levels.length - accents;
  select(levels, levels.length, softs);
  return levelsOf(levels.slice(softs), accents, levels, softs, settings);
}

/** Levels when each stroke is taken for the kind due at the path's lag. */
function levelsAlong(
  input: SlipInput,
  due: Due,
  walk: Walk,
  path: Int16Array,
  settings: Settings,
): Levels | undefined {
  const accents = new Float64Array(path.length);
  const softs = new Float64Array(path.length);
  let accentCount = 0;
  let softCount = 0;
  for (let i = 0; i < path.length; i++) {
    if (Number.isNaN(input.level[i])) continue;
    const kind = due.kind[placeOn(walk, i, walk.ways[path[i]], due.pad)];
    if (kind > 0) accents[accentCount++] = input.level[i];
    else if (kind < 0) softs[softCount++] = input.level[i];
  }
  return levelsOf(accents, accentCount, softs, softCount, settings);
}

/** Medians of both, and 1.4826 × the median of all distances from the own median, at least 1.5 dB. */
function levelsOf(
  accents: Float64Array,
  accentCount: number,
  softs: Float64Array,
  softCount: number,
  settings: Settings,
): Levels | undefined {
  const accent = medianInPlace(accents, accentCount);
  const soft = medianInPlace(softs, softCount);
  if (accent === undefined || soft === undefined) return undefined;
  const distances = new Float64Array(accentCount + softCount);
  for (let i = 0; i < accentCount; i++) distances[i] = Math.abs(accents[i] - accent);
  for (let i = 0; i < softCount; i++) distances[accentCount + i] = Math.abs(softs[i] - soft);
  const spread = MAD_TO_SD * (medianInPlace(distances) ?? 0);
  return { accent, soft, spread: Math.max(settings['slip.leastSpreadDb'], spread) };
}

/** What each slot says: the sum over `kind` and `hand` of evidence × what is due at a lag. */
interface Evidence {
  readonly kind: Float64Array;
  readonly hand: Float64Array;
  /** What agreeing in the surface is worth, and the surface struck (0: nobody can say); undefined without a voicing. */
  readonly surface: { readonly worth: number; readonly played: Int16Array } | undefined;
}

function evidenceOf(input: SlipInput, levels: Levels | undefined, settings: Settings): Evidence {
  const slots = input.level.length;
  const perHand = settings['slip.knownHand'];
  const evidence: Evidence = {
    kind: new Float64Array(slots),
    hand: new Float64Array(slots),
    surface: input.surface === undefined ? undefined : { worth: perHand, played: input.surface.played },
  };
  const most = settings['slip.mostEvidence'];
  const middle = levels === undefined ? 0 : (levels.accent + levels.soft) / 2;
  const slope = levels === undefined ? 0 : (levels.accent - levels.soft) / square(levels.spread);
  for (let i = 0; i < slots; i++) {
    evidence.hand[i] = perHand * input.playedHand[i];
    if (Number.isNaN(input.level[i])) continue;
    evidence.kind[i] = 0.5 * Math.max(-most, Math.min(most, slope * (input.level[i] - middle)));
  }
  return evidence;
}

/** One way of reading the strokes: so many places on, or as another bar of the cycle. */
type Way =
  | { readonly kind: 'lag'; readonly lag: number }
  | { readonly kind: 'bar'; readonly as: number; readonly mirrored: boolean };

/** All ways, lag 0 first, lags before bars; what going to each costs; and where bars begin. */
interface Walk {
  readonly ways: readonly Way[];
  readonly lags: number;
  readonly costs: readonly number[];
  /** For each slot the bar it is in, −1 where bars aren't told. */
  readonly barOf: Int32Array;
  readonly bars: readonly BarSlots[];
  readonly barsPerCycle: number;
}

/** Each bar of the cycle that sounds unlike the others, once; with the other hand too where hands are known. */
function otherBarsOf(input: SlipInput, handsKnown: boolean): readonly Way[] {
  const { bars = [], barsPerCycle = 0, accent, hand } = input;
  const seen = new Set<string>();
  const ways: Way[] = [];
  for (let as = 0; as < Math.min(barsPerCycle, bars.length); as += 1) {
    const { firstSlot, slots } = bars[as];
    for (const mirrored of handsKnown ? [false, true] : [false]) {
      const sign = mirrored ? -1 : 1;
      const notes = Array.from({ length: slots }, (_, i) => {
        const led = handsKnown ? hand[firstSlot + i] * sign : 0;
        return `${accent[firstSlot + i]}${led}`;
      }).join(' ');
      if (slots === 0 || seen.has(notes)) continue;
      seen.add(notes);
      ways.push({ kind: 'bar', as, mirrored });
    }
  }
  return ways.length > 1 ? ways : [];
}

function walkOf(input: SlipInput, lags: readonly number[], others: readonly Way[], settings: Settings): Walk {
  const { bars = [], barsPerCycle = 0 } = input;
  const barOf = new Int32Array(input.level.length).fill(-1);
  if (others.length > 0)
    bars.forEach(({ firstSlot, slots }, bar) => barOf.fill(bar, firstSlot, firstSlot + slots));
  const ways: readonly Way[] = [...lags.map((lag): Way => ({ kind: 'lag', lag })), ...others];
  return {
    ways,
    lags: lags.length,
    costs: ways.map((way) => (way.kind === 'lag' ? changeCost(way.lag, settings) : barCost(way, settings))),
    barOf,
    bars,
    barsPerCycle,
  };
}

function barCost({ mirrored }: Extract<Way, { kind: 'bar' }>, settings: Settings): number {
  return mirrored ? settings['bar.enterMirrored'] : settings['bar.enter'];
}

/** Where in `due` a slot is looked up on a way; −1 where the way has no such place. */
function placeOn({ barOf, bars }: Walk, i: number, way: Way, pad: number): number {
  if (way.kind === 'lag') return i + way.lag + pad;
  const bar = bars[barOf[i]];
  const as = bars[way.as];
  return bar.slots === as.slots ? as.firstSlot + (i - bar.firstSlot) + pad : -1;
}

function said(evidence: Evidence, due: Due, walk: Walk, i: number, way: Way): number {
  const there = placeOn(walk, i, way, due.pad);
  if (there < 0) return -Infinity;
  const hand = way.kind === 'bar' && way.mirrored ? -due.hand[there] : due.hand[there];
  const told = evidence.kind[i] * due.kind[there] + evidence.hand[i] * hand;
  if (evidence.surface === undefined) return told;
  const { worth, played } = evidence.surface;
  if (played[i] === 0 || due.surface[there] === 0) return told;
  return told + (played[i] === due.surface[there] ? worth : -worth);
}

/** The way of each slot with the most evidence less what changes cost. */
function bestPath(
  input: SlipInput,
  due: Due,
  walk: Walk,
  levels: Levels | undefined,
  settings: Settings,
): Int16Array {
  const slots = input.level.length;
  const path = new Int16Array(slots);
  if (slots === 0) return path;
  const evidence = evidenceOf(input, levels, settings);
  const { ways, costs, lags, barOf } = walk;
  const count = ways.length;
  const from = new Int16Array(slots * count);
  let value = new Float64Array(count);
  let next = new Float64Array(count);
  for (let way = 0; way < count; way++) {
    value[way] = said(evidence, due, walk, 0, ways[way]) - (way === 0 ? 0 : costs[way]);
  }
  for (let i = 1; i < slots; i++) {
    const isBarLine = barOf[i] !== barOf[i - 1];
    const best = indexOfBest(value, isBarLine ? count : lags);
    for (let way = 0; way < count; way++) {
      const isBar = way >= lags;
      const stay = isBar && isBarLine ? -Infinity : value[way];
      // Out of another bar the way back to lag 0 is free.
      const cost = way === 0 && best >= lags ? 0 : costs[way];
      const change = isBar && !isBarLine ? -Infinity : value[best] - cost;
      // Of equal ways the one at lag 0 for longest: into a stretch late, out of it early.
      const changes = best === 0 && !isBar ? change >= stay - SAME : change > stay + SAME;
      const comes = changes && (best !== way || isBar);
      from[i * count + way] = comes ? best : way;
      next[way] = (comes ? change : stay) + said(evidence, due, walk, i, ways[way]);
    }
    const swap = value;
    value = next;
    next = swap;
  }
  let way = indexOfBest(value, count);
  for (let i = slots - 1; i >= 0; i--) {
    path[i] = way;
    way = from[i * count + way];
  }
  return path;
}

/** The first of the largest values, the earlier where they are the same. */
function indexOfBest(values: Float64Array, count: number): number {
  let best = 0;
  for (let i = 1; i < count; i++) if (values[i] > values[best] + SAME) best = i;
  return best;
}

function changeCost(lag: number, settings: Settings): number {
  return settings['slip.change'] + settings['slip.perPlace'] * Math.abs(lag);
}

const isStruck = ({ level, surface }: SlipInput, slot: number): boolean =>
  !Number.isNaN(level[slot]) || (surface?.played[slot] ?? 0) > 0;

const plain: Way = { kind: 'lag', lag: 0 };

/** Runs of one way, without those not enough better than lag 0; a run of a lag ends with its last stroke. */
function toldOn(
  path: Int16Array,
  input: SlipInput,
  due: Due,
  walk: Walk,
  evidence: Evidence,
  settings: Settings,
): { stretches: Stretch[]; bars: BarPlayed[] } {
  const stretches: Stretch[] = [];
  const bars: BarPlayed[] = [];
  const { ways, barOf } = walk;
  let from = 0;
  while (from < path.length) {
    const way = ways[path[from]];
    let to = from + 1;
    while (to < path.length && path[to] === path[from] && (way.kind === 'lag' || barOf[to] === barOf[from]))
      to++;
    const better = gainOf(evidence, due, walk, way, from, to) - walk.costs[path[from]];
    let end = to;
    while (end > from && !isStruck(input, end - 1)) end--;
    if (way.kind === 'bar') {
      const agrees = agreement(evidence, due, walk, way, from, to) >= settings['bar.leastAgreement'];
      if (better >= settings['slip.leastGain'] && agrees && !isSame(walk, barOf[from], way)) {
        bars.push({ bar: barOf[from], as: way.as, mirrored: way.mirrored });
      }
    } else if (way.lag !== 0 && end > from && better >= settings['slip.leastGain']) {
      const bar = asBar(path, { from, to: end, lag: way.lag }, due, walk, evidence, settings);
      if (bar === undefined) stretches.push({ from, to: end, lag: way.lag });
      else bars.push(bar);
    }
    from = to;
  }
  return { stretches, bars };
}

/** True where a bar was due as it was played. */
function isSame({ barsPerCycle }: Walk, bar: number, way: Extract<Way, { kind: 'bar' }>): boolean {
  return !way.mirrored && bar % barsPerCycle === way.as;
}

function gainOf(evidence: Evidence, due: Due, walk: Walk, way: Way, from: number, to: number): number {
  let gain = 0;
  for (let i = from; i < to; i++)
    gain += said(evidence, due, walk, i, way) - said(evidence, due, walk, i, plain);
  return gain;
}

/** What a bar says for a way, of what it could say at most. */
function agreement(evidence: Evidence, due: Due, walk: Walk, way: Way, from: number, to: number): number {
  let told = 0;
  let most = 0;
  for (let i = from; i < to; i++) {
    told += said(evidence, due, walk, i, way);
    most += Math.abs(evidence.kind[i]) + Math.abs(evidence.hand[i]);
    if (evidence.surface !== undefined && evidence.surface.played[i] > 0) most += evidence.surface.worth;
  }
  return most > 0 ? told / most : 0;
}

/** A lag that lies in one bar and covers three quarters of it, as another bar if that costs at most 1. */
function asBar(
  path: Int16Array,
  { from, to, lag }: Stretch,
  due: Due,
  walk: Walk,
  evidence: Evidence,
  settings: Settings,
): BarPlayed | undefined {
  const bar = walk.barOf[from];
  if (bar < 0 || walk.barOf[to - 1] !== bar) return undefined;
  const { firstSlot, slots } = walk.bars[bar];
  if (to - from < settings['bar.lagCovers'] * slots) return undefined;
  const last = firstSlot + slots;
  let along = -changeCost(lag, settings);
  for (let i = firstSlot; i < last; i++) along += said(evidence, due, walk, i, walk.ways[path[i]]);
  let best: BarPlayed | undefined;
  let most = along - settings['bar.lagCosts'];
  for (const way of walk.ways) {
    if (way.kind !== 'bar' || isSame(walk, bar, way)) continue;
    let value = -barCost(way, settings);
    for (let i = firstSlot; i < last; i++) value += said(evidence, due, walk, i, way);
    if (value < most || agreement(evidence, due, walk, way, firstSlot, last) < settings['bar.leastAgreement'])
      continue;
    most = value;
    best = { bar, as: way.as, mirrored: way.mirrored };
  }
  return best;
}
