import type { Settings } from '../settings';

/** The pattern and what was played on it, slot by slot. */
export interface SlipInput {
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

/** How strokes may be read: so many places on, or as another bar of the cycle. */
export type Reading =
  | { readonly kind: 'lag'; readonly lag: number }
  | { readonly kind: 'bar'; readonly as: number; readonly mirrored: boolean };

/** All readings, lag 0 first, lags before bars; what going to each costs; and where bars begin. */
export interface Readings {
  readonly all: readonly Reading[];
  readonly lags: number;
  readonly costs: readonly number[];
  /** For each slot the bar it is in, −1 where bars aren't told. */
  readonly barOf: Int32Array;
  readonly bars: readonly BarSlots[];
  readonly barsPerCycle: number;
}

/** Every reading that is looked for: lags, and each other bar of the cycle. */
export function readingsFor(input: SlipInput, handsKnown: boolean, settings: Settings): Readings {
  return readingsOf(input, lagsOf(input, handsKnown, settings), otherBarsOf(input, handsKnown), settings);
}

/** 0, +1, −1, +2, −2, +3, −3, and ± half a pattern where hands tell it apart. */
function lagsOf(input: SlipInput, handsKnown: boolean, settings: Settings): number[] {
  const lags = [0];
  const most = settings['slip.mostLag'];
  for (let lag = 1; lag <= most; lag++) lags.push(lag, -lag);
  if (handsKnown && input.halfPattern > most) lags.push(input.halfPattern, -input.halfPattern);
  return lags;
}

/** Each bar of the cycle that sounds unlike the others, once; with the other hand too where hands are known. */
function otherBarsOf(input: SlipInput, handsKnown: boolean): readonly Reading[] {
  const { bars = [], barsPerCycle = 0, accent, hand } = input;
  const seen = new Set<string>();
  const readings: Reading[] = [];
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
      readings.push({ kind: 'bar', as, mirrored });
    }
  }
  return readings.length > 1 ? readings : [];
}

function readingsOf(
  input: SlipInput,
  lags: readonly number[],
  others: readonly Reading[],
  settings: Settings,
): Readings {
  const { bars = [], barsPerCycle = 0 } = input;
  const barOf = new Int32Array(input.level.length).fill(-1);
  if (others.length > 0)
    bars.forEach(({ firstSlot, slots }, bar) => barOf.fill(bar, firstSlot, firstSlot + slots));
  const all: readonly Reading[] = [...lags.map((lag): Reading => ({ kind: 'lag', lag })), ...others];
  return {
    all,
    lags: lags.length,
    costs: all.map((reading) =>
      reading.kind === 'lag' ? changeCost(reading.lag, settings) : barCost(reading, settings),
    ),
    barOf,
    bars,
    barsPerCycle,
  };
}

export function changeCost(lag: number, settings: Settings): number {
  return settings['slip.change'] + settings['slip.perPlace'] * Math.abs(lag);
}

export function barCost({ mirrored }: Extract<Reading, { kind: 'bar' }>, settings: Settings): number {
  return mirrored ? settings['bar.enterMirrored'] : settings['bar.enter'];
}
