import { square } from '../exact';
import type { Settings } from '../settings';
import { MAD_TO_SD, medianInPlace, select } from './median';

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
  /** Half a pattern in slots, 0 where it has no half. */
  readonly halfPattern: number;
  /** Surface due and struck at each slot, as numbers from 1, 0 where nobody can say; left out without a voicing. */
  readonly surface?: { readonly due: Int16Array; readonly played: Int16Array };
}

/** Slots `from` up to and without `to` were played `lag` places ahead (+) or behind (−). */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly lag: number;
}

export interface SlipSearch {
  readonly stretches: readonly Stretch[];
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
 * **Slips**: a stroke dropped or added, and on with the pattern shifted. The played accents (and known hands) are held
 * against the pattern at lags −3 to +3 (and ± half a pattern where hands are known) by one best path, slot by slot.
 * A stroke gives ±½·min(3, |(A − S)(x − (A + S)/2)/σ²|) for agreeing or not with the kind of the slot `lag` places on,
 * and ±1.5 for a known hand, and for the surface a voicing sends it to; going to a lag costs 5 + ½·|lag|. A stretch less than 9 better than lag 0, the way there
 * counted and the way back not, is dropped. On equal cost a stretch is the shortest.
 * Not looked for without accents and known hands, and where (A − S)/σ < 1.5.
 */
export function findSlips(input: SlipInput, settings: Settings): SlipSearch {
  const handsKnown = input.playedHand.some((hand) => hand !== 0);
  const start = loudestFirst(input, settings);
  if (start === undefined && !handsKnown && input.surface === undefined) {
    return { stretches: [], notToldBecause: 'no accents' };
  }

  const lags = lagsOf(input, handsKnown, settings);
  const due = padded(input, Math.max(...lags.map(Math.abs)));
  let levels = start;
  let path = new Int8Array(input.level.length);
  for (let fit = 0; fit <= MOST_FITS; fit++) {
    const next = bestPath(input, due, lags, levels, settings);
    const same = fit > 0 && next.every((lag, i) => lag === path[i]);
    path = next;
    if (same || levels === undefined) break;
    levels = levelsAlong(input, due, path, settings);
  }
  if (start !== undefined && !toldApart(levels, settings)) {
    return { stretches: [], notToldBecause: 'accents not told from taps' };
  }
  const evidence = evidenceOf(input, levels, settings);
  return { stretches: stretchesOf(path, input, due, evidence, settings), notToldBecause: null };
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
  if (accents === 0 || accents === played) return undefined;
  const softs = played - accents;
  select(levels, played, softs);
  return levelsOf(levels.slice(softs, played), accents, levels, softs, settings);
}

/** Levels when each stroke is taken for the kind due at the path's lag. */
function levelsAlong(input: SlipInput, due: Due, path: Int8Array, settings: Settings): Levels | undefined {
  const accents = new Float64Array(path.length);
  const softs = new Float64Array(path.length);
  let accentCount = 0;
  let softCount = 0;
  for (let i = 0; i < path.length; i++) {
    if (Number.isNaN(input.level[i])) continue;
    const kind = due.kind[i + path[i] + due.pad];
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

function said(evidence: Evidence, due: Due, i: number, lag: number): number {
  const there = i + lag + due.pad;
  const told = evidence.kind[i] * due.kind[there] + evidence.hand[i] * due.hand[there];
  if (evidence.surface === undefined) return told;
  const { worth, played } = evidence.surface;
  if (played[i] === 0 || due.surface[there] === 0) return told;
  return told + (played[i] === due.surface[there] ? worth : -worth);
}

/** The lag of each slot on the way with the most evidence less what changes cost. */
function bestPath(
  input: SlipInput,
  due: Due,
  lags: readonly number[],
  levels: Levels | undefined,
  settings: Settings,
): Int8Array<ArrayBuffer> {
  const slots = input.level.length;
  const path = new Int8Array(slots);
  if (slots === 0) return path;
  const evidence = evidenceOf(input, levels, settings);
  const ways = lags.length;
  const costs = lags.map((lag) => changeCost(lag, settings));
  const from = new Int8Array(slots * ways);
  let value = new Float64Array(ways);
  let next = new Float64Array(ways);
  for (let way = 0; way < ways; way++) {
    value[way] = said(evidence, due, 0, lags[way]) - (way === 0 ? 0 : costs[way]);
  }
  for (let i = 1; i < slots; i++) {
    const best = indexOfBest(value);
    for (let way = 0; way < ways; way++) {
      const stay = value[way];
      const change = value[best] - costs[way];
      // Of equal ways the one at lag 0 for longest: into a stretch late, out of it early.
      const changes = best === 0 ? change >= stay - SAME : change > stay + SAME;
      const comes = changes && best !== way;
      from[i * ways + way] = comes ? best : way;
      next[way] = (comes ? change : stay) + said(evidence, due, i, lags[way]);
    }
    const swap = value;
    value = next;
    next = swap;
  }
  let way = indexOfBest(value);
  for (let i = slots - 1; i >= 0; i--) {
    path[i] = lags[way];
    way = from[i * ways + way];
  }
  return path;
}

/** The first of the largest values, the earlier where they are the same. */
function indexOfBest(values: Float64Array): number {
  let best = 0;
  for (let i = 1; i < values.length; i++) if (values[i] > values[best] + SAME) best = i;
  return best;
}

function changeCost(lag: number, settings: Settings): number {
  return settings['slip.change'] + settings['slip.perPlace'] * Math.abs(lag);
}

const isStruck = ({ level, surface }: SlipInput, slot: number): boolean =>
  !Number.isNaN(level[slot]) || (surface?.played[slot] ?? 0) > 0;

/** Runs of one lag, without those not enough better than lag 0, each ending with its last stroke. */
function stretchesOf(
  path: Int8Array,
  input: SlipInput,
  due: Due,
  evidence: Evidence,
  settings: Settings,
): Stretch[] {
  const stretches: Stretch[] = [];
  let from = 0;
  while (from < path.length) {
    const lag = path[from];
    let to = from;
    let better = -changeCost(lag, settings);
    while (to < path.length && path[to] === lag) {
      better += said(evidence, due, to, lag) - said(evidence, due, to, 0);
      to++;
    }
    let end = to;
    while (end > from && !isStruck(input, end - 1)) end--;
    if (lag !== 0 && end > from && better >= settings['slip.leastGain'])
      stretches.push({ from, to: end, lag });
    from = to;
  }
  return stretches;
}
