import type { Grid } from '../exercises/types';
import type { Settings } from '../settings';
import { levelDb, type Db, type Ms } from '../units';
import { echoFor } from './echoes';
import { misfitOf } from './fit';
import { settleOffset, type Settled } from './offset';
import { pair } from './pairing';
import { slipEvidence } from './slip-evidence';
import { findSlips, type BarPlayed, type SlipSearch, type Stretch } from './slips';
import { playedOf, targetsOf, type Played, type Targets } from './targets';
import { tooSoftSlots } from './too-soft';
import type { AlignStroke, Alignment, Extra, OtherBar, Slip, SlotOutcome } from './types';

export interface AlignOptions {
  /** Level the pad still reports, as the rig learned it; without it the level of `tooSoft.velocity`. */
  readonly thresholdDb?: Db;
  /** Offset and limit taken as given instead of estimated. */
  readonly fixed?: { readonly offsetMs: Ms; readonly limitGaps: number };
  /** Slots that were not played, by their index in the whole grid. */
  readonly notPlayed?: Uint8Array;
}

/**
 * Which stroke answers which slot, for a whole take: offset, pairing, echoes that fill an empty slot, slips, fit.
 * Strokes come in time order, echo-like ones among them, one voice. Hands and levels are judged on the pairs.
 * @throws InputError where times go backwards
 */
export function align(
  grid: Grid,
  strokes: readonly AlignStroke[],
  settings: Settings,
  options: AlignOptions = {},
): Alignment {
  const targets = targetsOf(grid);
  const played = playedOf(strokes, false);
  const echoes = playedOf(strokes, true);
  const settled = options.fixed
    ? { ...options.fixed, slotOf: pair(targets, played.at, options.fixed.offsetMs, options.fixed.limitGaps) }
    : settleOffset(targets, played, settings);

  const answers = answersOf(targets, played, echoes, settled, settings);
  const search = slipsIn(grid, targets, strokes, answers.strokeOf, settings);
  const slipped = slippedSlots(targets.count, search.stretches);
  const other = otherSlots(grid, search.bars);
  const isOut = (slot: number): boolean =>
    answers.strokeOf[slot] < 0 && options.notPlayed?.[grid.slots[slot].index] === 1;
  const out = grid.slots.reduce((sum, _, slot) => sum + Number(isOut(slot)), 0);
  const threshold = options.thresholdDb ?? levelDb(settings['tooSoft.velocity']);
  const tooSoft = tooSoftSlots(
    targets,
    (slot) => levelOf(strokes, answers.strokeOf[slot]),
    threshold,
    settings['tooSoft.windowDb'],
  );

  return {
    offsetMs: settled.offsetMs,
    limitGaps: settled.limitGaps,
    outcomes: outcomesOf(grid, strokes, answers.strokeOf, { slipped, other, tooSoft, isOut }),
    extras: extrasOf(grid, played, settled),
    echoes: answers.echoesLeft,
    slips: search.stretches.map((stretch) => slipOf(grid, stretch)),
    otherBars: search.bars.map((bar) => otherBarOf(grid, bar)),
    course: [],
    doubles: [],
    slipsNotToldBecause: search.notToldBecause,
    misfit: misfitOf(
      {
        grid,
        targets,
        at: played.at,
        slotOf: settled.slotOf,
        offsetMs: settled.offsetMs,
        slotsDue: targets.count - out,
        slotsPaired: answers.paired,
        strokesPaired: answers.paired,
        strokes: played.count + answers.filled,
      },
      settings,
    ),
  };
}

interface Answers {
  /** For each slot the stroke that answers it, among the strokes given, or −1. */
  readonly strokeOf: Int32Array;
  readonly echoesLeft: readonly number[];
  readonly paired: number;
  /** Slots an echo-like stroke filled. */
  readonly filled: number;
}

function answersOf(
  targets: Targets,
  played: Played,
  echoes: Played,
  settled: Settled,
  settings: Settings,
): Answers {
  const strokeOf = new Int32Array(targets.count).fill(-1);
  let paired = 0;
  for (let i = 0; i < played.count; i++) {
    if (settled.slotOf[i] < 0) continue;
    strokeOf[settled.slotOf[i]] = played.index[i];
    paired++;
  }
  const left = new Set(echoes.index);
  let filled = 0;
  const fillGaps = settings['echo.fillGaps'];
  for (let slot = 0; slot < targets.count && left.size > 0; slot++) {
    if (strokeOf[slot] >= 0) continue;
    const echo = echoFor(slot, targets, echoes, played, settled.slotOf, settled.offsetMs, fillGaps);
    if (echo < 0) continue;
    strokeOf[slot] = echoes.index[echo];
    left.delete(echoes.index[echo]);
    filled++;
  }
  return { strokeOf, echoesLeft: [...left], paired: paired + filled, filled };
}

function slipsIn(
  grid: Grid,
  targets: Targets,
  strokes: readonly AlignStroke[],
  strokeOf: Int32Array,
  settings: Settings,
): SlipSearch {
  const { level, surface } = slipEvidence(grid, strokes, strokeOf);
  const playedHand = new Int8Array(targets.count);
  for (let slot = 0; slot < targets.count; slot++) {
    const hand = strokeOf[slot] < 0 ? null : strokes[strokeOf[slot]].hand;
    playedHand[slot] = hand === null ? 0 : hand === 'R' ? 1 : -1;
  }
  const { accent, hand } = targets;
  const { slotsPerCycle } = grid;
  return findSlips(
    {
      accent,
      hand,
      level,
      playedHand,
      slotsPerCycle,
      bars: grid.bars,
      barsPerCycle: grid.barsPerCycle,
      halfPattern: halfPattern(grid),
      ...(surface === undefined ? {} : { surface }),
    },
    settings,
  );
}

/** Half of the pattern in slots, where all bars are of patterns as long and without rests; else 0. */
function halfPattern(grid: Grid): number {
  const length = grid.slots.length === 0 ? 0 : grid.slots[0].patternLength;
  const same = grid.slots.every((slot) => slot.patternLength === length && slot.partial === slot.slot);
  return same && length % 2 === 0 ? length / 2 : 0;
}

function slippedSlots(slots: number, stretches: readonly Stretch[]): Uint8Array {
  const slipped = new Uint8Array(slots);
  for (const { from, to } of stretches) slipped.fill(1, from, to);
  return slipped;
}

function otherSlots({ bars, slots }: Grid, played: readonly BarPlayed[]): Uint8Array {
  const other = new Uint8Array(slots.length);
  for (const { bar } of played) other.fill(1, bars[bar].firstSlot, bars[bar].firstSlot + bars[bar].slots);
  return other;
}

function otherBarOf({ bars }: Grid, { bar, as, mirrored }: BarPlayed): OtherBar {
  const { slots } = bars[bar];
  return { bar, slots, played: bars[as].variation, ...(mirrored ? { mirrored } : {}) };
}

function slipOf(grid: Grid, { from, to, lag }: Stretch): Slip {
  const first = grid.slots[from];
  return { bar: first.bar, slot: first.slot, slots: to - from, lag };
}

function levelOf(strokes: readonly AlignStroke[], stroke: number): number {
  return stroke < 0 ? NaN : strokes[stroke].levelDb;
}

/** What is known of slots beside their strokes. */
interface Judged {
  readonly slipped: Uint8Array;
  readonly other: Uint8Array;
  readonly tooSoft: Uint8Array;
  readonly isOut: (slot: number) => boolean;
}

function outcomesOf(
  grid: Grid,
  strokes: readonly AlignStroke[],
  strokeOf: Int32Array,
  { slipped, other, tooSoft, isOut }: Judged,
): SlotOutcome[] {
  return grid.slots.map((slot, i): SlotOutcome => {
    const stroke = strokeOf[i];
    if (stroke < 0) {
      if (isOut(i)) return { status: 'notPlayed' };
      if (other[i] === 1) return { status: 'otherBar', stroke: null, deviationMs: null };
      if (slipped[i] === 1) return { status: 'slipped', stroke: null, deviationMs: null };
      return { status: tooSoft[i] === 1 ? 'tooSoft' : 'missed' };
    }
    const { atMs, hand } = strokes[stroke];
    const deviationMs = atMs - slot.atMs;
    if (other[i] === 1) return { status: 'otherBar', stroke, deviationMs };
    if (slipped[i] === 1) return { status: 'slipped', stroke, deviationMs };
    return { status: 'matched', stroke, deviationMs, wrongHand: hand !== null && hand !== slot.hand };
  });
}

/** A stroke belongs to the bar it falls in, offset off; before the first to the first, after the last to the last. */
function extrasOf(grid: Grid, played: Played, settled: Settled): Extra[] {
  const extras: Extra[] = [];
  let bar = 0;
  for (let i = 0; i < played.count; i++) {
    if (settled.slotOf[i] >= 0) continue;
    const time = played.at[i] - settled.offsetMs;
    while (bar + 1 < grid.bars.length && grid.bars[bar + 1].startMs <= time) bar++;
    extras.push({ stroke: played.index[i], bar });
  }
  return extras;
}
