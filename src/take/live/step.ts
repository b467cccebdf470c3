import { follow, outcomeAt, type FollowEvent, type FollowState } from '../../alignment/follow';
import { laidMs } from '../../alignment/follow-laid';
import { graceReach, mayLead } from '../../alignment/graces';
import { onsetsOf } from '../../alignment/onsets';
import { unisonReachMs } from '../../alignment/unisons';
import type { Grid } from '../../exercises/types';
import { nextHit, noHits, type HitState } from '../../midi/conditioning';
import { thresholdDbOf } from '../../midi/rig';
import type { Rig } from '../../sessions/types';
import type { Settings } from '../../settings';
import type { RawHit, Stroke } from '../../stroke';
import type { Ms } from '../../units';
import { bothDueIn, nearest } from '../both-due';
import type { FreeRun, FreeSteps } from '../free-run';
import { forgetOld, setOnset, withExtra, type Due, type LiveMemory } from './passes';
import { playedBars } from '../played-bars';
import { spotTrims } from '../rig-heights';
import { contrastOf, rollingContrast } from './rolling-contrast';
import type { LiveEvent, LiveExtra, LivePass, LiveState } from '../types';
import { apartOn, surfaceDueOn } from '../voiced-rig';

/**
 * A running take: what is shown, and what the next step needs. As with `follow`, what grows with the take is
 * written to, so step from the newest only (as `scan` does).
 */
interface LiveRun {
  readonly shown: LiveState;
  readonly hits: HitState;
  readonly follow: FollowState;
  readonly memory: LiveMemory;
  /** Where there is no click. */
  readonly free?: FreeRun;
}

interface LiveSteps {
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
 * @param free where there is no click: `grid` is then on a clock of its own, and the player's time is set against it
 */
// eslint-disable-next-line max-lines-per-function -- the step shares buffers that live as long as the take, so that it costs what it changes
export function liveSteps(grid: Grid, rig: Rig, settings: Settings, free?: FreeSteps): LiveSteps {
  const onsets = onsetsOf(grid);
  const due: Due = { grid, onsets, apart: apartOn(rig), surfaceDue: surfaceDueOn(rig) };
  const follower = follow(onsets.grid, settings, {
    thresholdDb: thresholdDbOf(rig, settings),
    isOwnTime: free !== undefined,
  });
  const bothDue = bothDueIn(grid, rig, settings, due.apart);
  const conditionNext = nextHit(rig, settings, bothDue === undefined ? {} : { bothDue });
  const delayMs = rig.inputDelayMs + rig.outputDelayMs;
  const fromMs = grid.bars[0].startMs - grid.smallestGapMs;
  const toMs = grid.bars[grid.bars.length - 1].endMs + grid.smallestGapMs;
  const graces = graceReach(grid, settings);
  const unisonMs = unisonReachMs(grid, settings);
  const ofFeet = new Set(rig.surfaces.flatMap(({ id, foot }) => (foot === undefined ? [] : [id])));
  const onsetOfSlot = new Map<number, number>();
  if (onsets.hasUnisons) onsets.firstSlot.forEach((slot, onset) => onsetOfSlot.set(slot, onset));
  const isPlayed = playedBars(grid, settings);

  /** Number of the onset nearest to a time. */
  function onsetNear(timeMs: Ms): number {
    const slot = nearest(onsets.grid.slots, timeMs);
    if (slot === undefined) return -1;
    return onsets.hasUnisons ? (onsetOfSlot.get(slot.index) ?? -1) : slot.index;
  }

  /** True for what is judged: strokes of the hands, in bars that are played. */
  function isJudged({ atMs, surface }: Stroke, { reading, offsetMs }: FollowState): boolean {
    const laid = laidMs(reading, atMs);
    if (laid < fromMs || laid >= toMs || ofFeet.has(surface)) return false;
    return isPlayed(laid - offsetMs);
  }

  /** What the stroke before turns out to be now that this one has come, or this one itself. */
  function roleOf(
    memory: LiveMemory,
    stroke: Stroke,
    state: FollowState,
  ): 'grace before' | 'other of a unison' | 'neither' {
    const last = memory.struck.length - 1;
    if (last < 0 || memory.reserved.has(last)) return 'neither';
    const before = memory.struck[last];
    const dueMs = (atMs: Ms): Ms => laidMs(state.reading, atMs) - state.offsetMs;
    const slot = nearest(onsets.grid.slots, dueMs(stroke.atMs));
    if (slot !== undefined && slot.graces.length > 0) {
      const ahead = outcomeAt(state, onsetNear(slot.atMs) - 1);
      if (ahead?.status === 'matched' && ahead.stroke === last) return 'neither';
      // A stroke with all its graces before it is the slot's own: the next one begins the group of the slot after.
      if (gracesLeadingTo(memory, last) >= slot.graces.length) return 'neither';
      return mayLead(before, stroke, graces) ? 'grace before' : 'neither';
    }
    const isUnison = slot?.together === 2 && nearest(onsets.grid.slots, dueMs(before.atMs)) === slot;
    return isUnison && !stroke.echoLike && stroke.atMs - before.atMs <= unisonMs
      ? 'other of a unison'
      : 'neither';
  }

  /** How many graces lie right before a stroke. */
  function gracesLeadingTo({ reserved, others }: LiveMemory, stroke: number): number {
    let first = stroke;
    while (reserved.has(first - 1) && others.get(first - 2) !== first - 1) first -= 1;
    return stroke - first;
  }

  const start: LiveRun = {
    shown: {
      strokes: 0,
      offsetMs: follower.start.offsetMs,
      lateMs: 0,
      told: 'all',
      passes: Array.from({ length: grid.slotsPerCycle }, () => []),
      extras: [],
      contrastDb: null,
      unmapped: 0,
      ...(free === undefined ? {} : { freeTime: free.start.time }),
    },
    ...(free === undefined ? {} : { free: free.start }),
    hits: noHits,
    follow: follower.start,
    memory: {
      numberOfHit: [],
      struck: [],
      forgotten: 0,
      cycle: 0,
      reserved: new Set(),
      others: new Map(),
      contrast: rollingContrast(),
      spotTrimDb: spotTrims(rig),
    },
  };

  /** @param again an onset to write down again whatever the events change */
  function followed(run: LiveRun, events: readonly FollowEvent[], hits: HitState, again = -1): LiveRun {
    let state = run.follow;
    let { passes } = run.shown;
    let extras: readonly LiveExtra[] = run.shown.extras;
    for (const event of events) {
      state = follower.step(state, event);
      for (const change of state.changed) {
        if (change.kind === 'slot') {
          if (passes === run.shown.passes) passes = passes.slice();
          setOnset(due, run.memory, passes as (readonly LivePass[])[], change, state);
        } else {
          extras = withExtra(grid, run.memory, extras, change, state);
        }
      }
    }
    if (again >= 0) {
      if (passes === run.shown.passes) passes = passes.slice();
      const change = { slot: again, outcome: outcomeAt(state, again) ?? null };
      setOnset(due, run.memory, passes as (readonly LivePass[])[], change, state);
    }
    forgetOld(due, run.memory);
    const unmapped = run.shown.unmapped + Number(hits !== run.hits && hits.label === 'unmapped');
    const same =
      passes === run.shown.passes &&
      extras === run.shown.extras &&
      state.strokes === run.shown.strokes &&
      state.offsetMs === run.shown.offsetMs &&
      state.reading === run.follow.reading &&
      run.free?.time === run.shown.freeTime &&
      unmapped === run.shown.unmapped;
    const shown: LiveState = same
      ? run.shown
      : {
          strokes: state.strokes,
          offsetMs: state.offsetMs,
          lateMs: state.reading.lateMs,
          told: state.reading.told,
          passes,
          extras,
          contrastDb: contrastOf(run.memory.contrast),
          unmapped,
          ...(run.free === undefined ? {} : { freeTime: run.free.time }),
        };
    return { ...run, shown, hits, follow: state };
  }

  function hitStep(run: LiveRun, hit: RawHit): LiveRun {
    const { memory } = run;
    const hits = conditionNext(run.hits, hit);
    const events: FollowEvent[] = [];
    for (const taken of hits.takenBack) {
      const stroke = memory.numberOfHit[taken.hit];
      if (stroke >= 0) events.push({ kind: 'retract', stroke });
    }
    const time = free?.struck(run.free ?? free.start, hits.added, ofFeet);
    if (time !== undefined) run = { ...run, free: time.run };
    const stroke = time === undefined ? hits.added : time.stroke;
    if (stroke === null || !isJudged(stroke, run.follow)) {
      memory.numberOfHit.push(-1);
      return followed(run, events, hits);
    }
    const role = roleOf(memory, stroke, run.follow);
    const number = memory.struck.push(stroke) - 1;
    memory.numberOfHit.push(number);
    if (role === 'grace before') {
      memory.reserved.add(number - 1);
      events.push({ kind: 'retract', stroke: number - 1 });
    }
    events.push({ kind: 'stroke', stroke });
    if (role === 'other of a unison') {
      memory.reserved.add(number);
      memory.others.set(number - 1, number);
      // `follow` numbers strokes as they arrive: this one must have been there to have a number.
      events.push({ kind: 'retract', stroke: number });
      return followed(
        run,
        events,
        hits,
        onsetNear(laidMs(run.follow.reading, stroke.atMs) - run.follow.offsetMs),
      );
    }
    return followed(run, events, hits);
  }

  function tickStep(run: LiveRun, atMs: Ms): LiveRun {
    if (free === undefined) return followed(run, [{ kind: 'tick', atMs }], run.hits);
    const time = free.passed(run.free ?? free.start, atMs);
    return time === null
      ? run
      : followed({ ...run, free: time }, [{ kind: 'tick', atMs: time.lastMs }], run.hits);
  }

  return {
    start,
    step: (run, event) =>
      event.kind === 'hit' ? hitStep(run, event.hit) : tickStep(run, event.atMs - delayMs),
  };
}
