import type { Grid } from '../exercises/types';
import type { Settings } from '../settings';
import type { Ms } from '../units';
import { align, type AlignOptions } from './align';
import type { AlignStroke, Alignment, GracePair, SlotOutcome } from './types';

/** Share of the smallest gap within which a soft stroke before a louder one may be a grace note at fast tempos. */
const MOST_OF_GAP = 0.6;
/** A grace may be this much louder than the stroke it leads to, and is still looked at as one. */
const LOUDER_DB = 6;

/**
 * {@link align} for a grid with grace notes. Strokes that come 8–80 ms (at fast tempos up to 0.6 of the gap) before
 * another are set aside, the rest are paired, and then each slot's graces are looked for before its own stroke: the last
 * 8–80 ms ahead of it, the one before as much ahead of that. What was set aside and is no grace after all is paired like
 * any other stroke.
 */
export function alignGraced(
  grid: Grid,
  strokes: readonly AlignStroke[],
  settings: Settings,
  options: AlignOptions = {},
): Alignment {
  const reachMs = Math.min(settings['grace.mostMs'], MOST_OF_GAP * grid.smallestGapMs);
  const aside = mayBeGraces(strokes, settings['grace.leastMs'], reachMs);
  const first = alignedWithout(grid, strokes, aside, settings, options);
  const graces = gracesOf(grid, strokes, first, aside, settings['grace.leastMs'], reachMs);
  const found = new Set(graces.flatMap((pair) => pair.strokes));
  if (found.size === aside.size) return { ...first, graces };
  const again = alignedWithout(grid, strokes, found, settings, options);
  return { ...again, graces: gracesOf(grid, strokes, again, found, settings['grace.leastMs'], reachMs) };
}

/** True where a stroke may be a grace of the one after it: near, and not clearly louder. */
export function mayLead(before: AlignStroke, after: AlignStroke, leastMs: Ms, mostMs: Ms): boolean {
  const aheadMs = after.atMs - before.atMs;
  return aheadMs >= leastMs && aheadMs <= mostMs && before.levelDb <= after.levelDb + LOUDER_DB;
}

function mayBeGraces(strokes: readonly AlignStroke[], leastMs: Ms, mostMs: Ms): Set<number> {
  const found = new Set<number>();
  for (let i = 0; i + 1 < strokes.length; i += 1) {
    if (mayLead(strokes[i], strokes[i + 1], leastMs, mostMs)) found.add(i);
  }
  return found;
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

function gracesOf(
  grid: Grid,
  strokes: readonly AlignStroke[],
  alignment: Alignment,
  aside: ReadonlySet<number>,
  leastMs: Ms,
  mostMs: Ms,
): GracePair[] {
  const pairs: GracePair[] = [];
  alignment.outcomes.forEach((outcome, slot) => {
    const due = grid.slots[slot].graces.length;
    if (due === 0 || outcome.status !== 'matched') return;
    const found: number[] = [];
    let next = outcome.stroke;
    for (let before = next - 1; before >= 0 && found.length < due; before -= 1) {
      if (!aside.has(before) || !mayLead(strokes[before], strokes[next], leastMs, mostMs)) break;
      found.unshift(before);
      next = before;
    }
    if (found.length > 0) pairs.push({ slot, strokes: found });
  });
  return pairs;
}
