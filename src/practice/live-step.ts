import { follow, type FollowChange, type FollowEvent, type FollowState } from '../alignment/follow';
import { mayLead } from '../alignment/graces';
import type { SlotOutcome } from '../alignment/types';
import type { Grid } from '../exercises/types';
import { nextHit, noHits, type HitState } from '../midi/conditioning';
import { thresholdDbOf } from '../midi/rig';
import type { Rig } from '../sessions/types';
import type { Settings } from '../settings';
import type { RawHit, Stroke } from '../stroke';
import type { Db, Ms } from '../units';
import { contrastOf, enter, leave, rollingContrast, type RollingContrast } from './rolling-contrast';
import type { LiveEvent, LiveExtra, LivePass, LiveState } from './types';

/** Passes of a slot that are shown, and cycles whose extras are. */
const SHOWN_CYCLES = 8;
/** Share of the smallest gap within which a stroke may be a grace of the next. */
const GRACE_OF_GAP = 0.6;
/** Passes of a slot that the contrast is of. */
const CONTRAST_CYCLES = 2;

/**
 * A running take: what is shown, and what the next step needs. As with `follow`, what grows with the take is
 * written to, so step from the newest only (as `scan` does).
 */
export interface LiveRun {
  readonly shown: LiveState;
  readonly hits: HitState;
  readonly follow: FollowState;
  readonly memory: Memory;
}

interface Memory {
  /** By raw hit: the number of its stroke in `follow`, or −1. */
  readonly numberOfHit: number[];
  /** By number: levels, and times with the rig's delays off. */
  readonly levelDb: Db[];
  readonly atMs: Ms[];
  /** Strokes that were graces of the one after them. */
  readonly graces: Set<number>;
  readonly contrast: RollingContrast;
}

export interface LiveSteps {
  readonly start: LiveRun;
  readonly step: (run: LiveRun, event: LiveEvent) => LiveRun;
}

/**
 * A take followed a hit or a tick at a time: conditions, pairs, and keeps the figures that are shown. The cost of
 * a step is that of what it changes. `shown` is a new object where something changed and the same where nothing
 * did; its arrays are never written to again.
 * @param grid long enough for as long as the player goes on: strokes after its end are not shown, nor are those
 *   more than a gap before its downbeat (playing along with the count-in)
 */
export function liveSteps(grid: Grid, rig: Rig, settings: Settings): LiveSteps {
  const follower = follow(grid, settings, { thresholdDb: thresholdDbOf(rig, settings) });
  const conditionNext = nextHit(rig, settings);
  const delayMs = rig.inputDelayMs + rig.outputDelayMs;
  const fromMs = grid.bars[0].startMs - grid.smallestGapMs;
  const toMs = grid.bars[grid.bars.length - 1].endMs + grid.smallestGapMs;
  const hasGraces = grid.slots.some((slot) => slot.graces.length > 0);
  const graceMs = Math.min(settings['grace.mostMs'], GRACE_OF_GAP * grid.smallestGapMs);
  /** Number of the stroke that turns out to be a grace of the newest one, or −1: it takes no slot and is no extra. */
  function leadOf(memory: Memory, stroke: Stroke): number {
    const last = memory.atMs.length - 1;
    if (last < 0 || memory.graces.has(last)) return -1;
    const before = { atMs: memory.atMs[last], levelDb: memory.levelDb[last], hand: null, echoLike: false };
    if (!mayLead(before, stroke, settings['grace.leastMs'], graceMs)) return -1;
    memory.graces.add(last);
    return last;
  }

  const start: LiveRun = {
    shown: {
      strokes: 0,
      offsetMs: follower.start.offsetMs,
      passes: Array.from({ length: grid.slotsPerCycle }, () => []),
      extras: [],
      contrastDb: null,
      unmapped: 0,
    },
    hits: noHits,
    follow: follower.start,
    memory: { numberOfHit: [], levelDb: [], atMs: [], graces: new Set(), contrast: rollingContrast() },
  };

  function followed(run: LiveRun, events: readonly FollowEvent[], hits: HitState): LiveRun {
    let state = run.follow;
    let { passes } = run.shown;
    let extras: readonly LiveExtra[] = run.shown.extras;
    for (const event of events) {
      state = follower.step(state, event);
      for (const change of state.changed) {
        if (change.kind === 'slot') {
          if (passes === run.shown.passes) passes = passes.slice();
          tellPass(grid, run.memory, passes as (readonly LivePass[])[], change, state.offsetMs);
        } else {
          extras = withExtra(grid, run.memory, extras, change, state.offsetMs);
        }
      }
    }
    const unmapped = run.shown.unmapped + Number(hits !== run.hits && hits.label === 'unmapped');
    const same =
      passes === run.shown.passes &&
      extras === run.shown.extras &&
      state.strokes === run.shown.strokes &&
      state.offsetMs === run.shown.offsetMs &&
      unmapped === run.shown.unmapped;
    const shown: LiveState = same
      ? run.shown
      : {
          strokes: state.strokes,
          offsetMs: state.offsetMs,
          passes,
          extras,
          contrastDb: contrastOf(run.memory.contrast),
          unmapped,
        };
    return { shown, hits, follow: state, memory: run.memory };
  }

  function hitStep(run: LiveRun, hit: RawHit): LiveRun {
    const { memory } = run;
    const hits = conditionNext(run.hits, hit);
    const events: FollowEvent[] = [];
    for (const taken of hits.takenBack) {
      const stroke = memory.numberOfHit[taken.hit];
      if (stroke >= 0) events.push({ kind: 'retract', stroke });
    }
    const stroke = hits.added;
    const inGrid = stroke !== null && stroke.atMs >= fromMs && stroke.atMs < toMs;
    if (inGrid && hasGraces) {
      const lead = leadOf(memory, stroke);
      if (lead >= 0) events.push({ kind: 'retract', stroke: lead });
    }
    memory.numberOfHit.push(inGrid ? remember(memory, stroke) : -1);
    if (inGrid) events.push({ kind: 'stroke', stroke });
    return followed(run, events, hits);
  }

  return {
    start,
    step: (run, event) =>
      event.kind === 'hit'
        ? hitStep(run, event.hit)
        : followed(run, [{ kind: 'tick', atMs: event.atMs - delayMs }], run.hits),
  };
}

function remember(memory: Memory, stroke: Stroke): number {
  memory.atMs.push(stroke.atMs);
  return memory.levelDb.push(stroke.levelDb) - 1;
}

/** Puts what became of a slot in its place among the passes, or takes it out where the slot is open again. */
function tellPass(
  grid: Grid,
  memory: Memory,
  passes: (readonly LivePass[])[],
  change: FollowChange & { readonly kind: 'slot' },
  offsetMs: Ms,
): void {
  const place = change.slot % grid.slotsPerCycle;
  const { cycle, kind } = grid.slots[change.slot];
  const before = passes[place];
  const others = before.filter((pass) => pass.cycle !== cycle);
  const now = change.outcome === null ? undefined : passOf(memory, change.outcome, cycle, offsetMs);
  if (now !== undefined) {
    const after = others.findIndex((pass) => pass.cycle > cycle);
    others.splice(after < 0 ? others.length : after, 0, now);
  }
  const next = others.slice(-SHOWN_CYCLES);
  passes[place] = next;
  const levels = kind === 'accent' ? memory.contrast.accents : memory.contrast.softs;
  for (const pass of before.slice(-CONTRAST_CYCLES)) if (pass.levelDb !== null) leave(levels, pass.levelDb);
  for (const pass of next.slice(-CONTRAST_CYCLES)) if (pass.levelDb !== null) enter(levels, pass.levelDb);
}

function passOf(memory: Memory, outcome: SlotOutcome, cycle: number, offsetMs: Ms): LivePass | undefined {
  switch (outcome.status) {
    case 'matched': {
      const { stroke, deviationMs, wrongHand } = outcome;
      const levelDb = memory.levelDb[stroke];
      return { cycle, status: 'matched', levelDb, deviationMs: deviationMs - offsetMs, wrongHand };
    }
    case 'missed':
    case 'tooSoft':
      return { cycle, status: outcome.status, levelDb: null, deviationMs: null, wrongHand: false };
    case 'slipped':
    case 'notMeasured':
      // Slips are told by the whole take; while it runs nothing is known to have slipped.
      return undefined;
  }
}

/** An extra that knows its stroke, so that it can be taken back. */
interface KnownExtra extends LiveExtra {
  readonly stroke: number;
}

function withExtra(
  grid: Grid,
  memory: Memory,
  extras: readonly LiveExtra[],
  change: Exclude<FollowChange, { readonly kind: 'slot' }>,
  offsetMs: Ms,
): readonly LiveExtra[] {
  const others = (extras as readonly KnownExtra[]).filter((extra) => extra.stroke !== change.stroke);
  if (change.kind === 'notExtra') return others;
  const { cycle, barInCycle, startMs, endMs } = grid.bars[change.bar];
  const share = (memory.atMs[change.stroke] - offsetMs - startMs) / (endMs - startMs);
  const at = Math.min(1, Math.max(0, share));
  const now: KnownExtra = {
    stroke: change.stroke,
    cycle,
    barInCycle,
    at,
    levelDb: memory.levelDb[change.stroke],
  };
  return [...others.filter((extra) => extra.cycle > cycle - SHOWN_CYCLES), now];
}
