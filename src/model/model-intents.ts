import type { Grid, Slot } from '../exercises/types';
import { otherHand } from '../stroke';
import type { Ms } from '../units';
import type { Fault } from './faults';
import { normal, seeded, type Random } from './random';

/** A stroke as the player means it. */
interface Intent {
  /** The slot of the phrase it is for. */
  readonly slot: Slot;
  /** What is played there: another slot's note in a slip or another bar, the other hand's in a mirror. */
  readonly meant: Slot;
  readonly atMs: Ms;
  /** True where the port was gone: played, and not heard. */
  readonly lost: boolean;
}

interface IntentOptions {
  readonly faults: readonly Fault[];
  readonly seed: number;
  /** Bars in which the click is silent; empty where none is. */
  readonly bare: readonly boolean[];
  /** Spread of a single stroke, which a time of one's own is made of too. */
  readonly timingSdMs: Ms;
}

/** What is to be played when: the grid, with what the faults do to the take as a whole. Strokes' own spread comes after. */
export function intentsOf(grid: Grid, options: IntentOptions): readonly Intent[] {
  const { faults } = options;
  let intents: readonly Intent[] = grid.slots.map((slot) => ({
    slot,
    meant: grid.slots[slot.index + lagAt(faults, grid, slot)] ?? slot,
    atMs: slot.atMs,
    lost: false,
  }));
  for (const fault of faults) intents = withFault(fault, intents, grid, options);
  return intents;
}

function withFault(
  fault: Fault,
  intents: readonly Intent[],
  grid: Grid,
  { bare, seed, timingSdMs }: IntentOptions,
): readonly Intent[] {
  const startMs = grid.bars[0].startMs;
  const endMs = grid.bars[grid.bars.length - 1].endMs;
  const moved = (by: (one: Intent, index: number) => Ms): readonly Intent[] =>
    intents.map((one, index) => ({ ...one, atMs: one.atMs + by(one, index) }));
  switch (fault.kind) {
    case 'latency':
      return moved(() => fault.ms);
    case 'late-start': {
      const bar = grid.bars[0];
      const byMs =
        fault.partials *
        (fault.inBars
          ? bar.endMs - bar.startMs
          : (bar.endMs - bar.startMs) / bar.partialsPerBeat.reduce((sum, partials) => sum + partials, 0));
      return moved(() => byMs).filter(({ atMs }) => atMs < endMs - 1);
    }
    case 'pause':
    case 'restart':
    case 'cable':
      return stopped(fault, intents, grid, endMs);
    case 'played-as':
    case 'swap':
      return intents.map((one) => {
        const as = barPlayed(fault, one.slot);
        const { barInCycle, bar, slot } = one.slot;
        if (as === barInCycle) return one;
        const meant = grid.slots[grid.bars[bar - barInCycle + as].firstSlot + slot];
        return meant === undefined ? one : { ...one, meant };
      });
    case 'mirror':
      return intents.map((one) => ({ ...one, meant: { ...one.meant, hand: otherHand(one.meant.hand) } }));
    case 'tempo':
      return moved(({ atMs }) => -((atMs - startMs) * fault.percent) / 100);
    case 'bare-rush':
      return moved(({ slot, atMs }) => -((atMs - bareSince(grid, bare, slot)) * fault.percent) / 100);
    case 'step':
      return moved(({ slot }) => (slot.bar >= fault.bar ? fault.ms : 0));
    case 'rate':
      return intents.map((one) => ({ ...one, atMs: startMs + (one.atMs - startMs) / fault.rate }));
    case 'swing':
      return moved(({ slot }) =>
        slot.partialInBeat % 2 === 1 ? (fault.percent / 50 - 1) * grid.smallestGapMs : 0,
      );
    case 'wander': {
      const drift = oneOverF(intents.length, seeded(seed + WANDER_SEED));
      return moved((_, index) => fault.ms * drift[index]);
    }
    case 'correction': {
      const drift = kept(intents.length, fault.share, seeded(seed + CORRECTION_SEED));
      return moved((_, index) => timingSdMs * drift[index]);
    }
    default:
      return intents;
  }
}

const WANDER_SEED = 0x1f;
const CORRECTION_SEED = 0xc0;

/** Places the played pattern is ahead of the grid at a slot: 1 in a slip, else 0. */
function lagAt(faults: readonly Fault[], grid: Grid, slot: Slot): number {
  return faults.some((fault) => {
    if (fault.kind !== 'slip') return false;
    const first = grid.bars[fault.bar].firstSlot + fault.slot;
    return slot.index >= first && slot.index < first + fault.slots;
  })
    ? 1
    : 0;
}

function stopped(
  fault: Extract<Fault, { kind: 'pause' | 'restart' | 'cable' }>,
  intents: readonly Intent[],
  { slots, bars }: Grid,
  endMs: Ms,
): readonly Intent[] {
  const first = (bars[fault.bar]?.firstSlot ?? slots.length) + fault.slot;
  const next = first + fault.slots;
  if (next >= slots.length) return intents.filter(({ slot }) => slot.index < first);
  const isOut = ({ slot }: Intent): boolean => slot.index >= first && slot.index < next;
  if (fault.kind === 'cable') return intents.map((one) => (isOut(one) ? { ...one, lost: true } : one));
  if (fault.kind === 'pause') return intents.filter((one) => !isOut(one));
  const laterMs = slots[next].atMs - slots[0].atMs;
  const again = intents.map((one) => ({ ...one, atMs: one.atMs + laterMs }));
  return [
    ...intents.filter(({ slot }) => slot.index < first),
    ...again.filter(({ atMs }) => atMs < endMs - 1),
  ];
}

function barPlayed(
  fault: Extract<Fault, { kind: 'played-as' | 'swap' }>,
  { barInCycle, cycle }: Slot,
): number {
  if (fault.kind === 'swap') {
    if (barInCycle === fault.bar) return fault.as;
    return barInCycle === fault.as ? fault.bar : barInCycle;
  }
  return barInCycle === fault.bar && (fault.cycle ?? cycle) === cycle ? fault.as : barInCycle;
}

/** When the click fell silent before a slot, or the slot's own time where it sounds. */
function bareSince({ bars }: Grid, bare: readonly boolean[], { bar, atMs }: Slot): Ms {
  if (bare[bar] !== true) return atMs;
  let first = bar;
  while (first > 0 && bare[first - 1] === true) first -= 1;
  return bars[first].startMs;
}

const OCTAVES = 12;

/** 1/f noise of standard deviation 1: a sum of octaves, each renewed half as often as the one before (Voss & McCartney, as of Gardner 1978). */
function oneOverF(count: number, random: Random): Float64Array {
  const octaves = Float64Array.from({ length: OCTAVES }, () => normal(random));
  return Float64Array.from({ length: count }, (_, index) => {
    for (let octave = 0; octave < OCTAVES; octave += 1) {
      if (index % 2 ** octave === 0) octaves[octave] = normal(random);
    }
    return octaves.reduce((sum, value) => sum + value, 0) / Math.sqrt(OCTAVES);
  });
}

/**
 * Errors of a player who goes by a time of their own and mends a share of each at the next stroke: the linear model of
 * phase correction (Vorberg & Wing 1996), its timekeeper's spread half that of a stroke. In spreads of a stroke.
 */
function kept(count: number, share: number, random: Random): Float64Array {
  let error = 0;
  return Float64Array.from({ length: count }, () => {
    error = (1 - share) * error + 0.5 * normal(random);
    return error;
  });
}
