import type { Slot } from '../../exercises/types';
import type { Settings } from '../../settings';
import type { Hand } from '../../stroke';
import type { Db } from '../../units';
import { accentHeightLimit, softHeightLimit, type HeightLines } from '../evidence/heights';
import { isAsDue } from './facts';
import { distributionOf, median } from '../numbers/statistics';
import type { Report } from '../types';

/** Where strokes of a slot should land, in dB; null is open: as soft, or as loud, as one likes. */
export interface LevelBand {
  readonly fromDb: Db | null;
  readonly toDb: Db | null;
}

/** What bands depend on beside the limits: the same live, where it moves, and after. */
export interface BandContext {
  readonly settings: Settings;
  /** True where the phrase has ghost notes beside taps: softness is then judged on the ghosts. */
  readonly tapsBesideGhosts: boolean;
  /** Level of each hand's soft strokes away from any accent, dB; null before it is known. */
  readonly restDb: Readonly<Record<Hand, Db | null>>;
  /** Median of the soft strokes, dB; null before there are any. */
  readonly softDb: Db | null;
  /** The rig's own heights, where it has learned them; never the defaults. */
  readonly learned?: HeightLines;
}

/** A context before anything was played. */
export function bandContext(
  settings: Settings,
  tapsBesideGhosts: boolean,
  learned?: HeightLines,
): BandContext {
  const known = learned === undefined ? {} : { learned };
  return { settings, tapsBesideGhosts, restDb: { R: null, L: null }, softDb: null, ...known };
}

/** A band that jumps with the first strokes can't be read: a hand's median counts from here on. */
const FEWEST = 4;

/** Medians of the soft strokes of each hand and of both, dB; null under four strokes. */
export function softLevels(
  levels: Readonly<Record<Hand, readonly Db[]>>,
): Pick<BandContext, 'restDb' | 'softDb'> {
  const middle = (of: readonly Db[]): Db | null =>
    of.length < FEWEST ? null : (median(distributionOf(of)) ?? null);
  return {
    restDb: { R: middle(levels.R), L: middle(levels.L) },
    softDb: middle([...levels.R, ...levels.L]),
  };
}

/** What the bands of a whole take depend on: at its end the running medians are those of the take. */
export function bandsOfReport({ slots, settings, heights }: BandedReport): BandContext {
  const kinds = new Set(slots.map(({ kind }) => kind));
  const levels: Record<Hand, Db[]> = { R: [], L: [] };
  for (const slot of slots) {
    const { kind, hand, judgedLevel } = slot;
    if (kind !== 'accent' && isAsDue(slot) && judgedLevel !== null) levels[hand].push(judgedLevel);
  }
  const before = bandContext(settings, kinds.has('tap') && kinds.has('ghost'), heights);
  return { ...before, ...softLevels(levels) };
}

type BandedReport = Pick<Report, 'slots' | 'settings' | 'heights'>;

/**
 * The band that a slot is drawn with, live and after, under the limits in force, in dB (grading.md section 7). A soft
 * stroke: up to the *softness* limit, and no more than half-way between the two limits of a leak above its hand's
 * resting level (the running median of its soft strokes; before there is one, the learned low), so that a tap that leaks
 * is out of its band even where it is soft. An accent: from the soft strokes'
 * median and the *contrast* limit up; with learned heights from half-way from half to full. Beside ghosts, taps are due
 * `ghostContrast` above them. The bar's dynamics move all of it.
 * @example
 * slotBand(tap of the left, { settings: working, restDb: { R: -22, L: -22 }, softDb: -22, … }).toDb
 * // softness holds up to -16; half-way between leaks of 2 and 5 dB above -22 is -18.5, which is less: -18.5
 */
export function slotBand(
  { kind, hand, shiftDb }: Pick<Slot, 'kind' | 'hand' | 'shiftDb'>,
  context: BandContext,
): LevelBand {
  const { fromDb, toDb } = kind === 'accent' ? accentBand(context) : softBand(kind, hand, context);
  return {
    fromDb: fromDb === null ? null : fromDb + shiftDb,
    toDb: toDb === null ? null : toDb + shiftDb,
  };
}

function accentBand({ settings, softDb, learned }: BandContext): LevelBand {
  if (learned !== undefined) return { fromDb: accentHeightLimit(learned).holds, toDb: null };
  const soft = softDb ?? (settings['softness.ideal'] + settings['softness.holds']) / 2;
  return { fromDb: soft + settings['contrast.holds'], toDb: null };
}

function softBand(
  kind: 'tap' | 'ghost',
  hand: Hand,
  { settings, tapsBesideGhosts, restDb, learned }: BandContext,
): LevelBand {
  const { ideal, holds } =
    learned === undefined
      ? { ideal: settings['softness.ideal'], holds: settings['softness.holds'] }
      : softHeightLimit(learned);
  if (kind === 'tap' && tapsBesideGhosts) {
    const step = settings['ghostContrast.holds'];
    return { fromDb: ideal + step, toDb: holds + step };
  }
  const rest = restDb[hand] ?? learned?.low ?? null;
  if (rest === null) return { fromDb: null, toDb: holds };
  const leak = (settings['leakBefore.holds'] + settings['leakBefore.notYet']) / 2;
  return { fromDb: null, toDb: Math.min(holds, rest + leak) };
}

/**
 * How far a level lies outside its band, in dB: positive above it, negative under it, 0 inside.
 * @example outsideDb(-12, { fromDb: null, toDb: -16 }) // => 4
 */
export function outsideDb(level: Db, band: LevelBand): Db {
  if (band.toDb !== null && level > band.toDb) return level - band.toDb;
  if (band.fromDb !== null && level < band.fromDb) return level - band.fromDb;
  return 0;
}
