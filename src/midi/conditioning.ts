import type { Settings } from '../settings';
import type { RawHit, Stroke } from '../stroke';
import type { Rig, Surface } from '../sessions/types';
import type { Ms } from '../units';
import { strokeOf, surfaceFinder } from './rig';
import type { Conditioned, Label } from './types';
import { windowsOf, type PairWindow } from './windows';

/** What conditioning knows after a hit; the first is {@link noHits}. */
export interface HitState {
  /** Hits so far. */
  readonly hits: number;
  /** What the newest hit is; it may still be taken back by a hit up to 10 ms later. Null before the first. */
  readonly label: Label | null;
  /** The stroke that the newest hit is, or null where it is none. */
  readonly added: Stroke | null;
  /** Earlier strokes that the newest hit shows to have been none. */
  readonly takenBack: readonly TakenBack[];
  /** Strokes that still stand and are near enough to matter to the next hit, oldest first. */
  readonly recent: readonly RecentStroke[];
}

/** A stroke that was none after all. `hit` is the index of its raw hit. */
interface TakenBack {
  readonly hit: number;
  readonly label: 'zone' | 'forerunner' | 'crosstalk';
}

/** A standing stroke with what its raw hit said. */
interface RecentStroke {
  readonly stroke: Stroke;
  readonly raw: RawHit;
}

interface ConditioningOptions {
  /**
   * True at a time where the phrase has a slot for these two surfaces at once (a unison, a foot under a hand): neither
   * is the other's crosstalk there. The time has the rig's delays still in it; surfaces by id. Left out: nowhere.
   */
  readonly bothDue?: (atMs: Ms, surface: string, other: string) => boolean;
}

/**
 * Strokes that are held against the next hit, the newest. Two hands, two feet and what echoes and bleeds make a dozen in
 * the longest window; whatever comes in, a hit costs no more than this.
 */
const MOST_RECENT = 64;

const nothingTaken: readonly TakenBack[] = [];
const noStrokes: readonly RecentStroke[] = [];

/** Before the first hit. */
export const noHits: HitState = {
  hits: 0,
  label: null,
  added: null,
  takenBack: nothingTaken,
  recent: noStrokes,
};

/**
 * One raw hit further: labels it and, where it is louder than a false note just before it, takes that back.
 * `scan(nextHit(rig, settings), noHits)` conditions a stream; {@link condition} is the same over a whole take.
 *
 * *zone*: the softer of two different notes of one surface up to 10 ms apart. *forerunner*: the same note
 * under 8 ms before a louder stroke. *crosstalk*: on another surface up to 6 ms either side of a stroke and
 * under 35 % of its velocity. *unmapped*: a note no surface owns. A stroke is *echo-like* within 100 ms after a
 * stroke of its surface that is not itself echo-like, under 35 % of that one's velocity: it stays a stroke, and
 * pairing decides. Equal velocities: the earlier stands. Velocities are raw, trims play no part.
 * These windows are the settings'; where the rig has learned its own for a surface, or for an ordered pair of
 * surfaces (also late ones), those hold instead. Source: grading.md section 2.
 */
export function nextHit(
  rig: Rig,
  settings: Settings,
  options: ConditioningOptions = {},
): (state: HitState, hit: RawHit) => HitState {
  const surfaceOf = surfaceFinder(rig);
  const zoneMs = settings['zone.windowMs'];
  const { own, pair, memoryMs } = windowsOf(rig, settings);

  return (state, hit) => {
    const index = state.hits;
    const surface = surfaceOf(hit);
    const recent = stillNear(state.recent, hit.atMs - memoryMs);
    if (surface === undefined) return notAStroke(index, 'unmapped', recent);

    const mayBleed = (other: string): boolean => options.bothDue?.(hit.atMs, surface.id, other) !== true;
    const { forerunnerMs, forerunnerRatio, echoFromMs, echoToMs, echoRatio } = own(surface);
    let loudestBefore = 0;
    let takes = false;
    for (const before of recent) {
      const apartMs = Math.abs(hit.atMs - before.raw.atMs);
      const itsVelocity = before.stroke.velocity;
      if (before.stroke.surface !== surface.id) {
        const other = before.stroke.surface;
        if (bled(pair(other, surface.id), before.raw, hit) && mayBleed(other)) {
          return notAStroke(index, 'crosstalk', recent);
        }
        takes ||= bled(pair(surface.id, other), hit, before.raw) && mayBleed(other);
        continue;
      }
      if (before.raw.note !== hit.note && apartMs <= zoneMs) {
        if (hit.velocity <= itsVelocity) return notAStroke(index, 'zone', recent);
        takes = true;
      } else if (
        before.raw.note === hit.note &&
        apartMs < forerunnerMs &&
        itsVelocity < forerunnerRatio * hit.velocity
      ) {
        takes = true;
      }
      if (!before.stroke.echoLike && apartMs <= echoToMs && apartMs >= echoFromMs) {
        loudestBefore = Math.max(loudestBefore, itsVelocity);
      }
    }
    const added = strokeOf(rig, surface, hit, index, hit.velocity < echoRatio * loudestBefore);
    const newest = { stroke: added, raw: hit };
    if (!takes) {
      return {
        hits: index + 1,
        label: 'stroke',
        added,
        takenBack: nothingTaken,
        recent: withNewest(recent, newest),
      };
    }

    const takenBack: TakenBack[] = [];
    const left: RecentStroke[] = [];
    for (const before of recent) {
      const label = falseBefore(before, hit, surface, mayBleed);
      if (label === undefined) left.push(before);
      else takenBack.push({ hit: before.stroke.hit, label });
    }
    return { hits: index + 1, label: 'stroke', added, takenBack, recent: withNewest(left, newest) };
  };

  /** What a stroke turns out to have been now that this louder hit is known, or undefined where it stands. */
  function falseBefore(
    { raw, stroke }: RecentStroke,
    hit: RawHit,
    surface: Surface,
    mayBleed: (other: string) => boolean,
  ) {
    const apartMs = Math.abs(hit.atMs - raw.atMs);
    if (stroke.surface !== surface.id) {
      const isFalse = bled(pair(surface.id, stroke.surface), hit, raw) && mayBleed(stroke.surface);
      return isFalse ? 'crosstalk' : undefined;
    }
    if (raw.velocity >= hit.velocity) return undefined;
    if (raw.note !== hit.note) return apartMs <= zoneMs ? 'zone' : undefined;
    const { forerunnerMs, forerunnerRatio } = own(surface);
    const isFalse = apartMs < forerunnerMs && raw.velocity < forerunnerRatio * hit.velocity;
    return isFalse ? 'forerunner' : undefined;
  }
}

/** Whether `shaken` is what a stroke on another surface made it report. */
function bled({ fromMs, toMs, ratio }: PairWindow, cause: RawHit, shaken: RawHit): boolean {
  const afterMs = shaken.atMs - cause.atMs;
  return afterMs >= fromMs && afterMs <= toMs && shaken.velocity < ratio * cause.velocity;
}

/**
 * A whole take conditioned: a label for every hit, and the strokes in time order. Nothing is dropped; what is
 * not a stroke has its label.
 * @param hits in time order
 */
export function condition(
  rig: Rig,
  settings: Settings,
  hits: readonly RawHit[],
  options: ConditioningOptions = {},
): Conditioned {
  const step = nextHit(rig, settings, options);
  const labels: Label[] = [];
  const strokes: Stroke[] = [];
  let state = noHits;
  for (const hit of hits) {
    state = step(state, hit);
    labels.push(state.label ?? 'unmapped');
    if (state.takenBack.length > 0) {
      for (const taken of state.takenBack) {
        labels[taken.hit] = taken.label;
        removeNearEnd(strokes, taken.hit);
      }
    }
    if (state.added !== null) strokes.push(state.added);
  }
  return { labels, strokes };
}

function notAStroke(index: number, label: Label, recent: readonly RecentStroke[]): HitState {
  return { hits: index + 1, label, added: null, takenBack: nothingTaken, recent };
}

function withNewest(recent: readonly RecentStroke[], newest: RecentStroke): readonly RecentStroke[] {
  if (recent.length === 0) return [newest];
  return [...(recent.length < MOST_RECENT ? recent : recent.slice(1 - MOST_RECENT)), newest];
}

function stillNear(recent: readonly RecentStroke[], sinceMs: Ms): readonly RecentStroke[] {
  const last = recent.length;
  let from = 0;
  while (from < last && recent[from].raw.atMs < sinceMs) from += 1;
  if (from === 0) return recent;
  return from === last ? noStrokes : recent.slice(from);
}

function removeNearEnd(strokes: Stroke[], hit: number): void {
  for (let i = strokes.length - 1; i >= 0; i -= 1) {
    if (strokes[i].hit === hit) {
      strokes.splice(i, 1);
      return;
    }
  }
}
