import type { Settings } from '../settings';
import { areApart, levelsFromLoudest, levelsOf, type Levels } from './accent-levels';
import { bestPath, evidenceFor, evidenceOf, padded, placeOn, type Due, type Evidence } from './best-path';
import { barCost, changeCost, readingsFor, type Reading, type Readings, type SlipInput } from './readings';

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

const MOST_FITS = 4;

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

  const readings = readingsFor(input, handsKnown, settings);
  const due = padded(input, mostLag(readings));
  let levels = start;
  let path: Int16Array = new Int16Array(input.level.length);
  for (let fit = 0; fit <= MOST_FITS; fit++) {
    const next = bestPath(input, due, readings, levels, settings);
    const same = fit > 0 && next.every((reading, i) => reading === path[i]);
    path = next;
    if (same || levels === undefined) break;
    levels = levelsAlong(input, due, readings, path, settings);
  }
  if (start !== undefined && (levels === undefined || !areApart(levels, settings))) {
    return { stretches: [], bars: [], notToldBecause: 'accents not told from taps' };
  }
  const evidence = evidenceOf(input, levels, settings);
  return { ...foundOn(path, input, due, readings, evidence, settings), notToldBecause: null };
}

const mostLag = ({ all }: Readings): number =>
  Math.max(...all.map((reading) => (reading.kind === 'lag' ? Math.abs(reading.lag) : 0)));

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

/** Levels when each stroke is taken for the kind due at the path's lag. */
function levelsAlong(
  input: SlipInput,
  due: Due,
  readings: Readings,
  path: Int16Array,
  settings: Settings,
): Levels | undefined {
  const accents = new Float64Array(path.length);
  const softs = new Float64Array(path.length);
  let accentCount = 0;
  let softCount = 0;
  for (let i = 0; i < path.length; i++) {
    if (Number.isNaN(input.level[i])) continue;
    const kind = due.kind[placeOn(readings, i, readings.all[path[i]], due.pad)];
    if (kind > 0) accents[accentCount++] = input.level[i];
    else if (kind < 0) softs[softCount++] = input.level[i];
  }
  return levelsOf(accents, accentCount, softs, softCount, settings);
}

const isStruck = ({ level, surface }: SlipInput, slot: number): boolean =>
  !Number.isNaN(level[slot]) || (surface?.played[slot] ?? 0) > 0;

const plain: Reading = { kind: 'lag', lag: 0 };

/** Runs of one reading, without those not enough better than lag 0; a run of a lag ends with its last stroke. */
function foundOn(
  path: Int16Array,
  input: SlipInput,
  due: Due,
  readings: Readings,
  evidence: Evidence,
  settings: Settings,
): { stretches: Stretch[]; bars: BarPlayed[] } {
  const stretches: Stretch[] = [];
  const bars: BarPlayed[] = [];
  const { all, barOf } = readings;
  let from = 0;
  while (from < path.length) {
    const reading = all[path[from]];
    let to = from + 1;
    while (
      to < path.length &&
      path[to] === path[from] &&
      (reading.kind === 'lag' || barOf[to] === barOf[from])
    )
      to++;
    const better = gainOf(evidence, due, readings, reading, from, to) - readings.costs[path[from]];
    let end = to;
    while (end > from && !isStruck(input, end - 1)) end--;
    if (reading.kind === 'bar') {
      const agrees = agreement(evidence, due, readings, reading, from, to) >= settings['bar.leastAgreement'];
      if (better >= settings['slip.leastGain'] && agrees && !isSame(readings, barOf[from], reading)) {
        bars.push({ bar: barOf[from], as: reading.as, mirrored: reading.mirrored });
      }
    } else if (reading.lag !== 0 && end > from && better >= settings['slip.leastGain']) {
      const bar = asBar(path, { from, to: end, lag: reading.lag }, due, readings, evidence, settings);
      if (bar === undefined) stretches.push({ from, to: end, lag: reading.lag });
      else bars.push(bar);
    }
    from = to;
  }
  return { stretches, bars };
}

/** True where a bar was due as it was played. */
function isSame(
  { barsPerCycle }: Readings,
  bar: number,
  reading: Extract<Reading, { kind: 'bar' }>,
): boolean {
  return !reading.mirrored && bar % barsPerCycle === reading.as;
}

function gainOf(
  evidence: Evidence,
  due: Due,
  readings: Readings,
  reading: Reading,
  from: number,
  to: number,
): number {
  let gain = 0;
  for (let i = from; i < to; i++)
    gain += evidenceFor(evidence, due, readings, i, reading) - evidenceFor(evidence, due, readings, i, plain);
  return gain;
}

/** What a bar says for a reading, of what it could say at most. */
function agreement(
  evidence: Evidence,
  due: Due,
  readings: Readings,
  reading: Reading,
  from: number,
  to: number,
): number {
  let sum = 0;
  let most = 0;
  for (let i = from; i < to; i++) {
    sum += evidenceFor(evidence, due, readings, i, reading);
    most += Math.abs(evidence.kind[i]) + Math.abs(evidence.hand[i]);
    if (evidence.surface !== undefined && evidence.surface.played[i] > 0) most += evidence.surface.worth;
  }
  return most > 0 ? sum / most : 0;
}

/** A lag that lies in one bar and covers three quarters of it, as another bar if that costs at most 1. */
function asBar(
  path: Int16Array,
  { from, to, lag }: Stretch,
  due: Due,
  readings: Readings,
  evidence: Evidence,
  settings: Settings,
): BarPlayed | undefined {
  const bar = readings.barOf[from];
  if (bar < 0 || readings.barOf[to - 1] !== bar) return undefined;
  const { firstSlot, slots } = readings.bars[bar];
  if (to - from < settings['bar.lagCovers'] * slots) return undefined;
  const last = firstSlot + slots;
  let along = -changeCost(lag, settings);
  for (let i = firstSlot; i < last; i++)
    along += evidenceFor(evidence, due, readings, i, readings.all[path[i]]);
  let best: BarPlayed | undefined;
  let most = along - settings['bar.lagCosts'];
  for (const reading of readings.all) {
    if (reading.kind !== 'bar' || isSame(readings, bar, reading)) continue;
    let value = -barCost(reading, settings);
    for (let i = firstSlot; i < last; i++) value += evidenceFor(evidence, due, readings, i, reading);
    if (
      value < most ||
      agreement(evidence, due, readings, reading, firstSlot, last) < settings['bar.leastAgreement']
    )
      continue;
    most = value;
    best = { bar, as: reading.as, mirrored: reading.mirrored };
  }
  return best;
}
