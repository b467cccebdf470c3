import {
  follow,
  outcomeAt,
  type FollowChange,
  type FollowEvent,
  type FollowState,
} from '../alignment/follow';
import { graceReachMs, mayLead } from '../alignment/graces';
import { momentsOf, type Moments } from '../alignment/moments';
import type { SlotOutcome } from '../alignment/types';
import { twinReachMs, unisonOutcomes } from '../alignment/unisons';
import type { Grid, Slot } from '../exercises/types';
import { nextHit, noHits, type HitState } from '../midi/conditioning';
import { thresholdDbOf } from '../midi/rig';
import type { Rig } from '../sessions/types';
import type { Settings } from '../settings';
import type { RawHit, Stroke } from '../stroke';
import type { Ms } from '../units';
import { bothDueIn, nearest } from './both-due';
import { playedBars } from './played-bars';
import { contrastOf, enter, leave, rollingContrast, type RollingContrast } from './rolling-contrast';
import type { LiveEvent, LiveExtra, LivePass, LiveState } from './types';
import { apartOn } from './voiced-rig';

/** Passes of a slot that are shown, and cycles whose extras are. */
const SHOWN_CYCLES = 8;
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
  /** By number. */
  readonly struck: Stroke[];
  /** Strokes that take no slot: graces of the one after them, and other strokes of a unison. */
  readonly aside: Set<number>;
  /** Other stroke of a unison, by the one that was paired. */
  readonly twins: Map<number, number>;
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
 * Strokes of the feet, and those in bars to listen to or to count aloud, are not shown.
 * @param grid long enough for as long as the player goes on: strokes after its end are not shown, nor are those
 *   more than a gap before its downbeat (playing along with the count-in)
 * @param rig as the phrase plays it (`rigAsVoiced`)
 */
export function liveSteps(grid: Grid, rig: Rig, settings: Settings): LiveSteps {
  const moments = momentsOf(grid);
  const due: Due = { grid, moments, apart: apartOn(rig) };
  const follower = follow(moments.grid, settings, { thresholdDb: thresholdDbOf(rig, settings) });
  const bothDue = bothDueIn(grid, rig, settings, due.apart);
  const conditionNext = nextHit(rig, settings, bothDue === undefined ? {} : { bothDue });
  const delayMs = rig.inputDelayMs + rig.outputDelayMs;
  const fromMs = grid.bars[0].startMs - grid.smallestGapMs;
  const toMs = grid.bars[grid.bars.length - 1].endMs + grid.smallestGapMs;
  const graceMs = graceReachMs(grid, settings);
  const twinMs = twinReachMs(grid, settings);
  const ofFeet = new Set(rig.surfaces.flatMap(({ id, foot }) => (foot === undefined ? [] : [id])));
  const momentOfSlot = new Map<number, number>();
  if (moments.hasUnisons) moments.firstSlot.forEach((slot, moment) => momentOfSlot.set(slot, moment));
  const isPlayed = playedBars(grid, settings);

  /** Number of the moment nearest to a time. */
  function momentNear(timeMs: Ms): number {
    const slot = nearest(moments.grid.slots, timeMs);
    if (slot === undefined) return -1;
    return moments.hasUnisons ? (momentOfSlot.get(slot.index) ?? -1) : slot.index;
  }

  /** True for what is judged: strokes of the hands, in bars that are played. */
  function isJudged({ atMs, surface }: Stroke, offsetMs: Ms): boolean {
    if (atMs < fromMs || atMs >= toMs || ofFeet.has(surface)) return false;
    return isPlayed(atMs - offsetMs);
  }

  /** What the stroke before turns out to be now that this one has come, or this one itself. */
  function setAside(
    memory: Memory,
    stroke: Stroke,
    state: FollowState,
  ): 'grace before' | 'other of a unison' | 'neither' {
    const last = memory.struck.length - 1;
    if (last < 0 || memory.aside.has(last)) return 'neither';
    const before = memory.struck[last];
    const { offsetMs } = state;
    const slot = nearest(moments.grid.slots, stroke.atMs - offsetMs);
    if (slot !== undefined && slot.graces.length > 0) {
      const ahead = outcomeAt(state, momentNear(slot.atMs) - 1);
      if (ahead?.status === 'matched' && ahead.stroke === last) return 'neither';
      return mayLead(before, stroke, settings['grace.leastMs'], graceMs) ? 'grace before' : 'neither';
    }
    const isUnison = slot?.together === 2 && nearest(moments.grid.slots, before.atMs - offsetMs) === slot;
    return isUnison && !stroke.echoLike && stroke.atMs - before.atMs <= twinMs
      ? 'other of a unison'
      : 'neither';
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
    memory: {
      numberOfHit: [],
      struck: [],
      aside: new Set(),
      twins: new Map(),
      contrast: rollingContrast(),
    },
  };

  /** @param anew a moment to tell again whatever the events change */
  function followed(run: LiveRun, events: readonly FollowEvent[], hits: HitState, anew = -1): LiveRun {
    let state = run.follow;
    let { passes } = run.shown;
    let extras: readonly LiveExtra[] = run.shown.extras;
    for (const event of events) {
      state = follower.step(state, event);
      for (const change of state.changed) {
        if (change.kind === 'slot') {
          if (passes === run.shown.passes) passes = passes.slice();
          tellMoment(due, run.memory, passes as (readonly LivePass[])[], change, state.offsetMs);
        } else {
          extras = withExtra(grid, run.memory, extras, change, state.offsetMs);
        }
      }
    }
    if (anew >= 0) {
      if (passes === run.shown.passes) passes = passes.slice();
      const told = { slot: anew, outcome: outcomeAt(state, anew) ?? null };
      tellMoment(due, run.memory, passes as (readonly LivePass[])[], told, state.offsetMs);
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
    const { offsetMs } = run.follow;
    if (stroke === null || !isJudged(stroke, offsetMs)) {
      memory.numberOfHit.push(-1);
      return followed(run, events, hits);
    }
    const role = setAside(memory, stroke, run.follow);
    const number = memory.struck.push(stroke) - 1;
    memory.numberOfHit.push(number);
    if (role === 'grace before') {
      memory.aside.add(number - 1);
      events.push({ kind: 'retract', stroke: number - 1 });
    }
    events.push({ kind: 'stroke', stroke });
    if (role === 'other of a unison') {
      memory.aside.add(number);
      memory.twins.set(number - 1, number);
      // `follow` numbers strokes as they arrive: this one must have been there to have a number.
      events.push({ kind: 'retract', stroke: number });
      return followed(run, events, hits, momentNear(stroke.atMs - offsetMs));
    }
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

/** What is due, as slots and as the moments that are paired. */
interface Due {
  readonly grid: Grid;
  readonly moments: Moments;
  readonly apart: (first: Slot, second: Slot) => boolean;
}

/** Tells what became of a moment: of its slot, or of both slots of a unison. */
function tellMoment(
  { grid, moments, apart }: Due,
  memory: Memory,
  passes: (readonly LivePass[])[],
  { slot: moment, outcome }: SlotChange,
  offsetMs: Ms,
): void {
  const first = grid.slots[moments.firstSlot[moment]];
  if (first.together === 1) {
    tellPass(grid, memory, passes, { slot: first.index, outcome }, offsetMs);
    return;
  }
  const second = grid.slots[first.index + 1];
  const twin = outcome?.status === 'matched' ? (memory.twins.get(outcome.stroke) ?? -1) : -1;
  const outcomes =
    outcome === null
      ? [null, null]
      : unisonOutcomes(outcome, [first, second], twin, memory.struck, apart(first, second));
  outcomes.forEach((one, note) => {
    tellPass(grid, memory, passes, { slot: first.index + note, outcome: one }, offsetMs);
  });
}

/** What a slot's (or a moment's) outcome is now; null: open again. */
interface SlotChange {
  readonly slot: number;
  readonly outcome: SlotOutcome | null;
}

/** Puts what became of a slot in its place among the passes, or takes it out where the slot is open again. */
function tellPass(
  grid: Grid,
  memory: Memory,
  passes: (readonly LivePass[])[],
  change: SlotChange,
  offsetMs: Ms,
): void {
  const place = change.slot % grid.slotsPerCycle;
  const { cycle, kind, shiftDb } = grid.slots[change.slot];
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
  for (const pass of before.slice(-CONTRAST_CYCLES)) {
    if (pass.levelDb !== null) leave(levels, pass.levelDb - shiftDb);
  }
  for (const pass of next.slice(-CONTRAST_CYCLES)) {
    if (pass.levelDb !== null) enter(levels, pass.levelDb - shiftDb);
  }
}

function passOf(memory: Memory, outcome: SlotOutcome, cycle: number, offsetMs: Ms): LivePass | undefined {
  switch (outcome.status) {
    case 'matched': {
      const { stroke, deviationMs, wrongHand } = outcome;
      const { levelDb } = memory.struck[stroke];
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
  const share = (memory.struck[change.stroke].atMs - offsetMs - startMs) / (endMs - startMs);
  const at = Math.min(1, Math.max(0, share));
  const now: KnownExtra = {
    stroke: change.stroke,
    cycle,
    barInCycle,
    at,
    levelDb: memory.struck[change.stroke].levelDb,
  };
  return [...others.filter((extra) => extra.cycle > cycle - SHOWN_CYCLES), now];
}
