import type { Grid, Slot } from '../exercises/types';
import type { Settings } from '../settings';
import { align, type AlignOptions } from './align';
import { gracesOf, graceReach, mayBeGraces } from './graces';
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
  const candidates = hasGraces ? mayBeGraces(strokes, reach) : new Set<number>();
  const found = (reserved: ReadonlySet<number>): Found => {
    const alignment = alignedWithout(onsets.grid, strokes, reserved, settings, options);
    const free = hasGraces ? withoutPaired(candidates, alignment) : candidates;
    return {
      alignment,
      graces: hasGraces ? gracesOf(onsets.grid, strokes, alignment, free, reach) : [],
      others: onsets.hasUnisons ? othersOf(onsets, strokes, alignment, reserved, unisonMs) : new Map(),
    };
  };

  let reserved: ReadonlySet<number> = onsets.hasUnisons
    ? withOthers(strokes, candidates, unisonMs)
    : candidates;
  let last = found(reserved);
  for (let round = 1; round < MOST_ROUNDS; round += 1) {
    const used = new Set([...last.graces.flatMap((pair) => pair.strokes), ...last.others.values()]);
    if (used.size === reserved.size && [...used].every((stroke) => reserved.has(stroke))) break;
    reserved = used;
    last = found(reserved);
  }
  const { alignment, graces, others } = last;
  return {
    ...alignment,
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

/**
 * Rounds in which what is reserved may settle: a stroke before a grace may look like one itself, and its own grace is
 * found only when it is back in its slot.
 */
const MOST_ROUNDS = 4;

/** What answers a slot is no grace. */
function withoutPaired(candidates: ReadonlySet<number>, { outcomes }: Alignment): Set<number> {
  const free = new Set(candidates);
  for (const outcome of outcomes) if (outcome.status === 'matched') free.delete(outcome.stroke);
  return free;
}

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
