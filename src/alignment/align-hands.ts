import type { Grid, Slot } from '../exercises/types';
import type { Settings } from '../settings';
import { align, type AlignOptions } from './align';
import { gracesOf, graceReach, mayBeGraces } from './graces';
import { momentsOf, type Moments } from './onsets';
import type { AlignStroke, Alignment, SlotOutcome } from './types';
import { twinReachMs, unisonOutcomes } from './unisons';

interface HandsOptions extends AlignOptions {
  /** True where the two notes of a unison go to two surfaces; left out: two strokes are taken, one isn't missed. */
  readonly apart?: (first: Slot, second: Slot) => boolean;
}

/**
 * {@link align} for the hands of any grid, grace notes and unisons too. Strokes that may be a grace of the next, or the
 * other note of a unison, are set aside; the rest are paired, moments being the slots; then each slot's graces and each
 * unison's other stroke are looked for among what was set aside. What is neither is paired like any other stroke.
 */
export function alignHands(
  grid: Grid,
  strokes: readonly AlignStroke[],
  settings: Settings,
  options: HandsOptions = {},
): Alignment {
  const moments = momentsOf(grid);
  const hasGraces = grid.slots.some((slot) => slot.graces.length > 0);
  if (!hasGraces && !moments.hasUnisons) return align(grid, strokes, settings, options);

  const reach = graceReach(grid, settings);
  const twinMs = moments.hasUnisons ? twinReachMs(grid, settings) : 0;
  const candidates = hasGraces ? mayBeGraces(strokes, reach) : new Set<number>();
  const found = (aside: ReadonlySet<number>): Found => {
    const alignment = alignedWithout(moments.grid, strokes, aside, settings, options);
    const free = hasGraces ? withoutPaired(candidates, alignment) : candidates;
    return {
      alignment,
      graces: hasGraces ? gracesOf(moments.grid, strokes, alignment, free, reach) : [],
      twins: moments.hasUnisons ? twinsOf(moments, strokes, alignment, aside, twinMs) : new Map(),
    };
  };

  let aside: ReadonlySet<number> = moments.hasUnisons ? withTwins(strokes, candidates, twinMs) : candidates;
  let last = found(aside);
  for (let round = 1; round < MOST_ROUNDS; round += 1) {
    const used = new Set([...last.graces.flatMap((pair) => pair.strokes), ...last.twins.values()]);
    if (used.size === aside.size && [...used].every((stroke) => aside.has(stroke))) break;
    aside = used;
    last = found(aside);
  }
  const { alignment, graces, twins } = last;
  return {
    ...alignment,
    outcomes: moments.hasUnisons
      ? spread(grid, moments, alignment.outcomes, twins, strokes, options)
      : alignment.outcomes,
    slips: moments.hasUnisons
      ? alignment.slips.map((slip) => ({ ...slip, slots: slotsOf(grid, moments, slip) }))
      : alignment.slips,
    ...(hasGraces ? { graces: graces.map((pair) => ({ ...pair, slot: moments.firstSlot[pair.slot] })) } : {}),
  };
}

interface Found {
  /** By moments. */
  readonly alignment: Alignment;
  readonly graces: readonly { readonly slot: number; readonly strokes: readonly number[] }[];
  /** By moment: the other stroke of a unison. */
  readonly twins: ReadonlyMap<number, number>;
}

/**
 * Rounds in which what is set aside may settle: a stroke before a grace may look like one itself, and its own grace is
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
function withTwins(
  strokes: readonly AlignStroke[],
  graces: ReadonlySet<number>,
  twinMs: number,
): Set<number> {
  const aside = new Set(graces);
  let kept = -Infinity;
  strokes.forEach(({ atMs, echoLike }, index) => {
    if (echoLike || aside.has(index)) return;
    if (atMs - kept <= twinMs) aside.add(index);
    else kept = atMs;
  });
  return aside;
}

/** For each unison that has a stroke: the nearest of those set aside, on another surface before one on the same. */
function twinsOf(
  { grid }: Moments,
  strokes: readonly AlignStroke[],
  { outcomes }: Alignment,
  aside: ReadonlySet<number>,
  twinMs: number,
): Map<number, number> {
  const twins = new Map<number, number>();
  outcomes.forEach((outcome, moment) => {
    if (outcome.status !== 'matched' || grid.slots[moment].together === 1) return;
    const { atMs, surface } = strokes[outcome.stroke];
    let best = -1;
    let bestMs = Infinity;
    for (const step of [-1, 1]) {
      for (let i = outcome.stroke + step; aside.has(i); i += step) {
        const awayMs = Math.abs(strokes[i].atMs - atMs) + (strokes[i].surface === surface ? twinMs : 0);
        if (Math.abs(strokes[i].atMs - atMs) > twinMs || awayMs >= bestMs) continue;
        best = i;
        bestMs = awayMs;
      }
    }
    if (best >= 0) twins.set(moment, best);
  });
  return twins;
}

/** Outcomes of moments as outcomes of slots. */
function spread(
  { slots }: Grid,
  { firstSlot }: Moments,
  outcomes: readonly SlotOutcome[],
  twins: ReadonlyMap<number, number>,
  strokes: readonly AlignStroke[],
  { apart = () => false }: HandsOptions,
): SlotOutcome[] {
  return outcomes.flatMap((outcome, moment): readonly SlotOutcome[] => {
    const first = slots[firstSlot[moment]];
    if (first.together === 1) return [outcome];
    const second = slots[first.index + 1];
    return unisonOutcomes(outcome, [first, second], twins.get(moment) ?? -1, strokes, apart(first, second));
  });
}

/** Slots of a slip that is told in moments. */
function slotsOf(grid: Grid, moments: Moments, slip: Alignment['slips'][number]): number {
  const from = grid.bars[slip.bar].firstSlot + slip.slot;
  const moment = moments.firstSlot.indexOf(from);
  return (moments.firstSlot[moment + slip.slots] ?? grid.slots.length) - from;
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
