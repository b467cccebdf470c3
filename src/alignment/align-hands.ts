import type { Grid, Slot } from '../exercises/types';
import type { Settings } from '../settings';
import { align, type AlignOptions } from './align';
import { gracesOf, graceReach, mayBeGraces, mostGraces } from './graces';
import { onsetsOf, type Onsets } from './onsets';
import type { AlignStroke, Alignment, SlotOutcome } from './types';
import { unisonReachMs, unisonOutcomes } from './unisons';

interface HandsOptions extends AlignOptions {
  /** True where the two notes of a unison go to two surfaces; left out: two strokes are taken, one isn't missed. */
  readonly apart?: (first: Slot, second: Slot) => boolean;
}

/**
 * {@link align} for the hands of any grid, grace notes and unisons too. Strokes that may be a grace of the next, or the
 * other note of a unison, are reserved; the rest are paired, onsets being the slots; then each slot's graces and each
 * unison's other stroke are looked for among what was reserved. What is neither is paired like any other stroke.
 */
export function alignHands(
  grid: Grid,
  strokes: readonly AlignStroke[],
  settings: Settings,
  options: HandsOptions = {},
): Alignment {
  const onsets = onsetsOf(grid);
  const hasGraces = grid.slots.some((slot) => slot.graces.length > 0);
  if (!hasGraces && !onsets.hasUnisons) return align(grid, strokes, settings, options);

  const reach = graceReach(grid, settings);
  const unisonMs = onsets.hasUnisons ? unisonReachMs(grid, settings) : 0;
  const candidates = hasGraces ? mayBeGraces(strokes, reach, mostGraces(grid)) : new Set<number>();
  const found = (reserved: ReadonlySet<number>): Found => {
    const alignment = alignedWithout(onsets.grid, strokes, reserved, settings, options);
    return {
      alignment,
      graces: hasGraces ? gracesOf(onsets.grid, strokes, alignment, settings) : [],
      others: onsets.hasUnisons ? othersOf(onsets, strokes, alignment, reserved, unisonMs) : new Map(),
    };
  };

  const settledFrom = (graces: ReadonlySet<number>): Found =>
    settled(found, onsets.hasUnisons ? withOthers(strokes, graces, unisonMs) : graces);
  const first = settledFrom(candidates);
  // A grace right behind another stroke may have taken its slot: with none reserved at first it can't.
  const isWhole = !hasGraces || leftOver(onsets, first) === 0;
  const second = isWhole ? first : settledFrom(new Set());
  const { alignment, graces, others } = leftOver(onsets, second) < leftOver(onsets, first) ? second : first;
  const isGrace = new Set(graces.flatMap((pair) => pair.strokes));
  return {
    ...alignment,
    extras: alignment.extras.filter(({ stroke }) => !isGrace.has(stroke)),
    echoes: alignment.echoes.filter((stroke) => !isGrace.has(stroke)),
    outcomes: onsets.hasUnisons
      ? spread(grid, onsets, alignment.outcomes, others, strokes, options)
      : alignment.outcomes,
    slips: onsets.hasUnisons
      ? alignment.slips.map((slip) => ({ ...slip, slots: slotsOf(grid, onsets, slip) }))
      : alignment.slips,
    otherBars: alignment.otherBars.map((other) => ({ ...other, slots: grid.bars[other.bar].slots })),
    ...(hasGraces ? { graces: graces.map((pair) => ({ ...pair, slot: onsets.firstSlot[pair.slot] })) } : {}),
  };
}

interface Found {
  /** By onsets. */
  readonly alignment: Alignment;
  readonly graces: readonly { readonly slot: number; readonly strokes: readonly number[] }[];
  /** By onset: the other stroke of a unison. */
  readonly others: ReadonlyMap<number, number>;
}

/** Found again and again with what is of use reserved, until that stays. */
function settled(found: (reserved: ReadonlySet<number>) => Found, atFirst: ReadonlySet<number>): Found {
  let reserved = atFirst;
  let last = found(reserved);
  for (let round = 1; round < MOST_ROUNDS; round += 1) {
    const used = new Set([...last.graces.flatMap((pair) => pair.strokes), ...last.others.values()]);
    if (used.size === reserved.size && [...used].every((stroke) => reserved.has(stroke))) break;
    reserved = used;
    last = found(reserved);
  }
  return last;
}

/** Slots and graces without a stroke, and strokes that are neither. */
function leftOver({ grid }: Onsets, { alignment, graces }: Found): number {
  const found = new Set(graces.flatMap((pair) => pair.strokes));
  let left = alignment.extras.filter(({ stroke }) => !found.has(stroke)).length - found.size;
  alignment.outcomes.forEach(({ status }, slot) => {
    left += status === 'matched' ? grid.slots[slot].graces.length : Number(status === 'missed');
  });
  return left;
}

/**
 * Rounds in which what is reserved may settle: a stroke before a grace may look like one itself, and its own grace is
 * found only when it is back in its slot.
 */
const MOST_ROUNDS = 4;

/** With them each stroke that comes as near after one that stays as the second stroke of a unison does. */
function withOthers(
  strokes: readonly AlignStroke[],
  graces: ReadonlySet<number>,
  unisonMs: number,
): Set<number> {
  const reserved = new Set(graces);
  let kept = -Infinity;
  strokes.forEach(({ atMs, echoLike }, index) => {
    if (echoLike || reserved.has(index)) return;
    if (atMs - kept <= unisonMs) reserved.add(index);
    else kept = atMs;
  });
  return reserved;
}

/** For each unison that has a stroke: the nearest of those reserved, on another surface before one on the same. */
function othersOf(
  { grid }: Onsets,
  strokes: readonly AlignStroke[],
  { outcomes }: Alignment,
  reserved: ReadonlySet<number>,
  unisonMs: number,
): Map<number, number> {
  const others = new Map<number, number>();
  outcomes.forEach((outcome, onset) => {
    if (outcome.status !== 'matched' || grid.slots[onset].together === 1) return;
    const { atMs, surface } = strokes[outcome.stroke];
    let best = -1;
    let bestMs = Infinity;
    for (const step of [-1, 1]) {
      for (let i = outcome.stroke + step; reserved.has(i); i += step) {
        const awayMs = Math.abs(strokes[i].atMs - atMs) + (strokes[i].surface === surface ? unisonMs : 0);
        if (Math.abs(strokes[i].atMs - atMs) > unisonMs || awayMs >= bestMs) continue;
        best = i;
        bestMs = awayMs;
      }
    }
    if (best >= 0) others.set(onset, best);
  });
  return others;
}

/** Outcomes of onsets as outcomes of slots. */
function spread(
  { slots }: Grid,
  { firstSlot }: Onsets,
  outcomes: readonly SlotOutcome[],
  others: ReadonlyMap<number, number>,
  strokes: readonly AlignStroke[],
  { apart = () => false }: HandsOptions,
): SlotOutcome[] {
  return outcomes.flatMap((outcome, onset): readonly SlotOutcome[] => {
    const first = slots[firstSlot[onset]];
    if (first.together === 1) return [outcome];
    const second = slots[first.index + 1];
    return unisonOutcomes(outcome, [first, second], others.get(onset) ?? -1, strokes, apart(first, second));
  });
}

/** Slots of a slip that is counted in onsets. */
function slotsOf(grid: Grid, onsets: Onsets, slip: Alignment['slips'][number]): number {
  const from = grid.bars[slip.bar].firstSlot + slip.slot;
  const onset = onsets.firstSlot.indexOf(from);
  return (onsets.firstSlot[onset + slip.slots] ?? grid.slots.length) - from;
}

/** Aligned without some strokes; the answer speaks of all strokes by their own numbers. */
function alignedWithout(
  grid: Grid,
  strokes: readonly AlignStroke[],
  without: ReadonlySet<number>,
  settings: Settings,
  options: AlignOptions,
): Alignment {
  const kept = strokes.map((_, index) => index).filter((index) => !without.has(index));
  const alignment = align(
    grid,
    kept.map((index) => strokes[index]),
    settings,
    options,
  );
  return {
    ...alignment,
    outcomes: alignment.outcomes.map((outcome) => renumbered(outcome, kept)),
    extras: alignment.extras.map((extra) => ({ ...extra, stroke: kept[extra.stroke] })),
    echoes: alignment.echoes.map((stroke) => kept[stroke]),
  };
}

function renumbered(outcome: SlotOutcome, kept: readonly number[]): SlotOutcome {
  if (!('stroke' in outcome) || outcome.stroke === null) return outcome;
  return { ...outcome, stroke: kept[outcome.stroke] } as SlotOutcome;
}
