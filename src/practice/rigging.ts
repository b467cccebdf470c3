import { editedSurfaces } from '../midi/learning/edit-surfaces';
import { delaysAsked, delayWords, rigWithDelays } from '../midi/learning/delays';
import { nextStrike } from '../midi/learning/surfaces';
import { surfaceFinder } from '../midi/rig';
import type { Rig } from '../sessions/types';
import { settingsOf } from '../settings';
import { otherHand, type RawHit } from '../stroke';
import type { Ms } from '../units';
import {
  surfacesNow,
  withActivity,
  withClumped,
  withRigging,
  withStart,
  withSurfaces,
  withTask,
  withTold,
} from './rigging/changes';
import {
  askedOnceMore,
  delaysOf,
  isDone,
  learnedBy,
  nameOfTask,
  skipped,
  surfaceAsked,
  withHit,
} from './rigging/progress';
import { keptRigs, rigChosen } from './rigging/rigs';
import { withPortsChecked, withPortsSeen } from './rigging/same-named';
import type { Rigging, RiggingEvent, RigTask, TaskName } from './rigging/state';
import { settledTaps, tapped } from './rigging/taps';
import { begun, nextFiner, playedSurfaces } from './rigging/tasks';
import type { Sitting } from './sitting/state';
import { nextStruck } from './struck-hands';

export { firstRigging } from './rigging/state';
export type { Rigging, RiggingEvent, RigTask, TaskName } from './rigging/state';

/** When no new surface has been struck for this long, the hands are asked for. */
export const ALL_THERE_MS: Ms = 4000;
/** Strikes within this time of the last of a step are the player going on with it, no command. */
const SILENCE_MS: Ms = 1200;
/** A strike this loud on a note of no surface is meant to be one. */
const MEANT_VELOCITY = 25;

/**
 * The sitting after something happened on the Rig screen. Whatever is learned is in the rig at once, so that a step
 * can be left, skipped or done again at any time. A rig that is changed is kept under its name.
 */
export function riggingHeard(sitting: Sitting, event: RiggingEvent): Sitting {
  return withRigsKept(sitting, heard(sitting, event), event.kind === 'hit');
}

function heard(sitting: Sitting, event: RiggingEvent): Sitting {
  const { rigging, rig } = sitting;
  switch (event.kind) {
    case 'hit':
      return atHit(withActivity(sitting, event.hit), event.hit, event.newId);
    case 'tick':
      return atTick(sitting, event.atMs);
    case 'begin':
      return beginning(sitting, event.task, event.surface);
    case 'again':
      return withTask(sitting, askedOnceMore(rigging.task));
    case 'skip':
      return skipping(sitting);
    case 'rest':
      return withTask(sitting, { kind: 'rest' });
    case 'edit':
      return withSurfaces(sitting, editedSurfaces(surfacesNow(sitting), event.edit), '');
    case 'start surface':
      return { ...sitting, rig: withStart(rig, event.surface) };
    case 'clicks':
      return withTask(sitting, {
        kind: 'delays',
        state: delaysAsked(event.clicksMs),
        output: event.output,
      });
    case 'accept delays':
      return accepted(sitting);
    case 'output delay':
      return withOutputDelay(sitting, event.ms);
    case 'hear port': {
      const others = rigging.unheard.filter((name) => name !== event.port);
      return withRigging(sitting, { unheard: event.counts ? others : [...others, event.port] });
    }
    case 'port ids':
      return withRigging(sitting, { portIds: event.portIds });
    case 'clumped':
      return rig === null ? sitting : { ...sitting, rig: withClumped(rig, event.ports) };
    case 'monitor':
      return withRigging(sitting, { monitor: event.monitor });
    case 'kept':
    case 'new rig':
    case 'choose rig':
    case 'take rig':
    case 'name rig':
    case 'delete rig':
      return rigChosen(sitting, event);
  }
}

function atHit(sitting: Sitting, hit: RawHit, newId: string): Sitting {
  const { rigging, rig } = sitting;
  const { task } = rigging;
  if (rigging.unheard.includes(hit.port) || rigging.uncertain.length > 0) return sitting;
  const surface = rig === null ? null : (surfaceFinder(rig)(hit)?.id ?? null);
  switch (task.kind) {
    case 'surfaces':
      return withSurfaces(sitting, nextStrike(surfacesNow(sitting), hit), newId);
    case 'rest':
    case 'between':
    case 'delays found':
      // A new thing that is struck on purpose is a new surface.
      if (surface === null && task.kind === 'rest' && hit.velocity >= MEANT_VELOCITY)
        return withSurfaces(beginning(sitting, 'surfaces'), nextStrike(surfacesNow(sitting), hit), newId);
      if (task.kind === 'between' && hit.atMs - task.quietFromMs < SILENCE_MS)
        return withTask(sitting, { ...task, quietFromMs: hit.atMs });
      return withRigging(sitting, { taps: tapped(rigging.taps, hit, surface) });
    case 'hands':
      return surface === null && hit.velocity >= MEANT_VELOCITY
        ? withSurfaces(beginning(sitting, 'surfaces'), nextStrike(surfacesNow(sitting), hit), newId)
        : atHandStrike(sitting, task, hit, surface);
    default: {
      if (rig === null) return sitting;
      const asked = surfaceAsked(task);
      const elsewhere = asked !== null && surface !== asked;
      const taps = elsewhere ? tapped(rigging.taps, hit, surface) : asked === surface ? null : rigging.taps;
      return learning(withRigging(sitting, { taps }), withHit(task, rig, hit));
    }
  }
}

/** Of the two strikes: where they fell on two surfaces each is its hand's, on one either hand's. */
function atHandStrike(
  sitting: Sitting,
  task: RigTask & { kind: 'hands' },
  hit: RawHit,
  surface: string | null,
): Sitting {
  const { rig } = sitting;
  const isHands = rig?.surfaces.some(({ id, foot }) => id === surface && foot === undefined) === true;
  if (rig === null || !isHands || hit.velocity < MEANT_VELOCITY) return sitting;
  const strikes = nextStruck(task.strikes, hit);
  const { first, second, firstHand } = strikes;
  if (first === null || second === null) return withTask(sitting, { ...task, strikes });
  const surfaceOf = surfaceFinder(rig);
  const [one, other] = [surfaceOf(first)?.id, surfaceOf(second)?.id];
  const handOf = (id: string, before: Rig['surfaces'][number]['hand']) => {
    if (one === other) return id === one ? null : before;
    return id === one ? firstHand : id === other ? otherHand(firstHand) : before;
  };
  const surfaces = rig.surfaces.map((each) => ({ ...each, hand: handOf(each.id, each.hand) }));
  return beginning({ ...sitting, rig: { ...rig, surfaces } }, 'heights');
}

function atTick(sitting: Sitting, atMs: Ms): Sitting {
  const { rigging, rig } = sitting;
  const { task, surfaces } = rigging;
  if (task.kind === 'surfaces') {
    const { last } = surfaces;
    const allThere = rig !== null && last !== null && atMs - last.atMs >= ALL_THERE_MS;
    return allThere ? beginning(sitting, playedSurfaces(rig).length === 0 ? 'surfaces' : 'hands') : sitting;
  }
  if (isDone(task, atMs)) return finished(sitting, atMs);
  const taps = settledTaps(rigging.taps, atMs);
  return taps === null ? sitting : commanded(withRigging(sitting, { taps: null }), taps);
}

/**
 * What strikes in a row mean. While a surface is asked for, on others: two, again; three, skip. At rest: two, go on teaching;
 * three, this surface starts and stops takes, and Play opens. Between steps: one, go on; three, enough.
 */
function commanded(sitting: Sitting, { count, surface }: NonNullable<Rigging['taps']>): Sitting {
  const { task } = sitting.rigging;
  switch (task.kind) {
    case 'rest':
      if (count === 2) return goingOn(sitting);
      if (count !== 3 || surface === null || sitting.rig === null) return sitting;
      return { ...sitting, rig: withStart(sitting.rig, surface), screen: 'play', message: '' };
    case 'between':
      if (count === 1 && task.next !== null) return beginning(sitting, task.next);
      if (count === 2) return beginning(sitting, task.done);
      return count === 3 ? withTask(sitting, { kind: 'rest' }) : sitting;
    case 'delays found':
      if (count === 2) return withTask(sitting, askedOnceMore(task));
      return count === 3 ? accepted(sitting) : sitting;
    default:
      if (count === 2) return withTask(sitting, askedOnceMore(task));
      return count === 3 ? skipping(sitting) : sitting;
  }
}

/** The first thing the rig does not know yet. */
function goingOn(sitting: Sitting): Sitting {
  const { rig } = sitting;
  if (rig === null) return beginning(sitting, 'surfaces');
  if (playedSurfaces(rig).every(({ heights }) => heights === undefined)) return beginning(sitting, 'heights');
  const next = nextFiner(rig, 'heights');
  return next === null ? sitting : beginning(sitting, next);
}

function beginning(sitting: Sitting, name: TaskName, surface?: string): Sitting {
  const task = begun(sitting.rig, name, surface);
  if (task === null) return sitting;
  if (name !== 'surfaces') return withTask(sitting, task);
  // Found anew: how long ago the last was struck counts from now on.
  return withTask(withRigging(sitting, { surfaces: { ...surfacesNow(sitting), last: null } }), task);
}

function learning(sitting: Sitting, task: RigTask): Sitting {
  const before = sitting.rigging.task;
  const now = withRigging(sitting, { task });
  // Heights are learned as they are shown; all else when it is whole.
  const isPart = task.kind === 'heights' && before.kind === 'heights' && task.state.at !== before.state.at;
  return isPart ? withLearned(now) : now;
}

function withLearned(sitting: Sitting): Sitting {
  const { rig, rigging, limits } = sitting;
  const name = nameOfTask(rigging.task);
  if (rig === null || name === null) return sitting;
  const learned = learnedBy(rigging.task, rig, settingsOf(limits));
  if (learned === undefined) return sitting;
  const shown = learned.heights ?? [];
  const isNew = (one: (typeof shown)[number]): boolean =>
    !shown.some(({ surface, hand }) => surface === one.surface && hand === one.hand);
  return withRigging(
    { ...sitting, rig: learned.rig },
    {
      told: { ...rigging.told, [name]: learned.words },
      heightsShown: [...rigging.heightsShown.filter(isNew), ...shown],
    },
  );
}

function finished(sitting: Sitting, atMs: Ms): Sitting {
  const { task } = sitting.rigging;
  if (task.kind === 'delays') {
    const found = delaysOf(task);
    if (found !== undefined) return withTask(sitting, { kind: 'delays found', found });
    const words =
      'These strokes did not follow the click closely enough to tell a delay by. Play along once more.';
    return after(withTold(sitting, 'delays', [words]), 'delays', atMs);
  }
  const name = nameOfTask(task);
  return name === null ? sitting : after(withLearned(sitting), name, atMs);
}

/** The short path ends at rest; a finer step leads to the next. */
function after(sitting: Sitting, done: TaskName, quietFromMs: Ms = -Infinity): Sitting {
  if (done === 'heights') return withTask(sitting, { kind: 'rest' });
  return withTask(sitting, { kind: 'between', done, next: nextFiner(sitting.rig, done), quietFromMs });
}

function skipping(sitting: Sitting): Sitting {
  const { task } = sitting.rigging;
  switch (task.kind) {
    case 'surfaces':
      return sitting.rig === null ? sitting : beginning(sitting, 'hands');
    case 'hands':
      return beginning(sitting, 'heights');
    case 'rest':
      return sitting;
    case 'between':
      return task.next === null ? withTask(sitting, { kind: 'rest' }) : beginning(sitting, task.next);
    case 'delays found':
      return after(sitting, 'delays');
    case 'heights': {
      const left = skipped(task);
      return left === null ? withTask(sitting, { kind: 'rest' }) : withTask(sitting, left);
    }
    default: {
      const left = skipped(task);
      return left === null ? after(withLearned(sitting), task.kind) : withTask(sitting, left);
    }
  }
}

function accepted(sitting: Sitting): Sitting {
  const { task } = sitting.rigging;
  if (task.kind !== 'delays found' || sitting.rig === null) return sitting;
  const rig = rigWithDelays(sitting.rig, task.found);
  return after(withTold({ ...sitting, rig }, 'delays', delayWords(task.found)), 'delays');
}

/** What the player knows of the sound: the sum stays, and what is left of it is the kit's. */
function withOutputDelay(sitting: Sitting, ms: Ms): Sitting {
  const { task } = sitting.rigging;
  if (task.kind !== 'delays found') return sitting;
  const { sumMs } = task.found;
  const found = { ...task.found, inputMs: sumMs - ms, outputMs: ms, output: 'by hand' as const };
  return withTask(sitting, { kind: 'delays found', found });
}

/** A rig with a name that was changed takes its place among those kept; its new ports are the ones just struck. */
function withRigsKept(before: Sitting, now: Sitting, isStruck: boolean): Sitting {
  if (now.rig === before.rig) return now;
  const kept = withRigging(now, { rigs: keptRigs(now.rigging.rigs, now.rig) });
  return withPortsChecked(isStruck ? withPortsSeen(before, kept) : kept);
}
