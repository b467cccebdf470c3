import { gridOf } from '../exercises/grid';
import { bareBars, type ClickPlan } from '../exercises/click-plan';
import { checkedBpm } from '../exercises/tempo';
import type { Grid, Phrase, Slot, Tempo } from '../exercises/types';
import type { Limits } from '../settings';
import type { Take } from '../sessions/types';
import { otherHand, type RawHit } from '../stroke';
import { velocityOfLevel, type Bpm, type Db, type Ms } from '../units';
import type { Fault } from './faults';
import { intentsOf } from './model-intents';
import { cableEvents, throughModule } from './model-module';
import { factsOf, secondOfAnyDouble, type Beside } from './model-facts';
import { modelRigFor, noteOf, PORT, type ModelSurfaces } from './model-rig';
import { normal, seeded, type Random } from './random';

/** A model player: Gaussian, independent stroke by stroke, seeded; nobody is presented as having played. */
export interface ModelPlayer {
  readonly phrase: Phrase;
  readonly bpm: Bpm;
  /** Takes the place of `bpm`, which then counts for nothing. */
  readonly ramp?: readonly { readonly bar: number; readonly bpm: Bpm }[];
  readonly seed: number;
  readonly cycles?: number;
  /** Spread of the timing; default 6 ms. */
  readonly timingSdMs?: Ms;
  /** Spread of the levels; default 1.2 dB. */
  readonly levelSdDb?: Db;
  /** Mean levels; defaults −4, −20 and −26 dB. */
  readonly accentDb?: Db;
  readonly tapDb?: Db;
  readonly ghostDb?: Db;
  /** How far the whole take is behind the grid; default −4 ms. */
  readonly offsetMs?: Ms;
  /** Share of strokes left out, and of strokes added; default none. */
  readonly missed?: number;
  readonly added?: number;
  readonly faults?: readonly Fault[];
  /** A pad for both hands (default), or one a hand; what the phrase voices goes to surfaces of those names. */
  readonly surfaces?: 1 | 2;
  readonly limits?: Limits;
  /** Which bars are bare; default: a click on every beat. */
  readonly clicks?: ClickPlan;
  readonly notes?: string;
  readonly id?: string;
}

/** What the model player meant: by slot the index of its hit, or null where it left the stroke out. */
interface ModelTruth {
  readonly hitOfSlot: readonly (number | null)[];
  readonly addedHits: readonly number[];
  readonly echoHits: readonly number[];
  /** Hits that the pad doubled. */
  readonly doubledHits: readonly number[];
  readonly graceHits: readonly number[];
  /** By slot of the feet: its hit. */
  readonly footHits: readonly number[];
  readonly offsetMs: Ms;
}

const DOWNBEAT_MS: Ms = 4000;
const ECHO_AFTER_MS: Ms = 55;

/**
 * A take by the model player, with its truth. The same player and seed give the same take.
 * @throws InputError for a tempo out of range or a phrase that cannot be laid out
 */
export function modelTake(player: ModelPlayer): { take: Take; truth: ModelTruth; grid: Grid } {
  checkedBpm(player.bpm, 'bpm');
  const phrase = { ...player.phrase, cycles: player.cycles ?? player.phrase.cycles };
  const tempo: Tempo = player.ramp === undefined ? { bpm: player.bpm } : { ramp: player.ramp };
  const grid = gridOf(phrase, tempo, DOWNBEAT_MS);
  const rig = modelRigFor(phrase, grid, player.surfaces ?? 1);
  const { made: hands, lostMs } = struck(player, grid, { rig, phrase });
  const made = throughModule(
    [...hands, ...footwork(player, grid, { rig, phrase })],
    'doubled',
    player.faults ?? [],
    player.seed,
  );
  const order = made.map((_, index) => index).sort((a, b) => made[a].hit.atMs - made[b].hit.atMs);
  const rankOf = new Map(order.map((index, rank) => [index, rank]));
  const hitOfSlot: (number | null)[] = grid.slots.map(() => null);
  const addedHits: number[] = [];
  const echoHits: number[] = [];
  const doubledHits: number[] = [];
  const graceHits: number[] = [];
  const footHits: number[] = [];
  made.forEach((one, index) => {
    const rank = rankOf.get(index) ?? index;
    if (one.of === 'added') addedHits.push(rank);
    else if (one.of === 'echo') echoHits.push(rank);
    else if (one.of === 'doubled') doubledHits.push(rank);
    else if (one.of === 'grace') graceHits.push(rank);
    else if (one.of === 'foot') footHits.push(rank);
    else hitOfSlot[one.of] = rank;
  });
  const hits = order.map((index) => made[index].hit);
  const events = cableEvents(PORT, lostMs, hits.find(({ atMs }) => atMs > Math.max(...lostMs))?.atMs);
  const take: Take = {
    format: 'evenhand-take',
    version: 1,
    id: player.id ?? `model-${player.seed}`,
    player: 'Model player',
    recordedAt: '2026-03-02T17:00:00.000Z',
    source: 'model',
    phrase,
    tempo,
    click: (player.clicks?.bare ?? null) === null ? 'on' : 'bare',
    ...(player.clicks === undefined ? {} : { clicks: player.clicks }),
    limits: player.limits ?? 'working',
    settings: {},
    rig,
    downbeatMs: DOWNBEAT_MS,
    hits,
    notes: player.notes ?? 'Computed by the seeded model player; nobody played it.',
    ...(events.length === 0 ? {} : { events }),
  };
  return {
    take,
    grid,
    truth: {
      hitOfSlot,
      addedHits,
      echoHits,
      doubledHits,
      graceHits,
      footHits,
      offsetMs: player.offsetMs ?? -4,
    },
  };
}

interface Made {
  readonly hit: RawHit;
  /** The slot it was meant for, or what else it is. */
  readonly of: number | 'grace' | 'added' | 'echo' | 'doubled' | 'foot';
}

/** The hands' hits, and when those were struck that did not arrive. */
function struck(
  player: ModelPlayer,
  grid: Grid,
  on: ModelSurfaces,
): { readonly made: readonly Made[]; readonly lostMs: readonly Ms[] } {
  const random = seeded(player.seed);
  const made: Made[] = [];
  const lostMs: Ms[] = [];
  const facts = factsOf(grid);
  const faults = player.faults ?? [];
  const bare = bareBars(
    player.clicks?.bare ?? null,
    grid.bars.map(({ role }) => role),
  );
  const { seed, timingSdMs = 6 } = player;
  const missed = shareOf(faults, 'missed') ?? player.missed ?? 0;
  const added = shareOf(faults, 'added') ?? player.added ?? 0;
  const wrongHands = shareOf(faults, 'wrong-hand');
  for (const { slot, meant, atMs: dueMs, lost } of intentsOf(grid, { faults, seed, bare, timingSdMs })) {
    const atMs = dueMs + timing(player, grid, slot, meant, facts[meant.index], random);
    const velocity = velocityOf(level(player, meant, facts[meant.index], random));
    const isWrong = wrongHands !== undefined && random() < wrongHands;
    const played = isWrong ? { ...meant, hand: otherHand(meant.hand) } : meant;
    const hit: RawHit = { atMs, port: PORT, channel: 10, note: noteOf(on, played), velocity };
    if (lost) {
      lostMs.push(atMs);
      continue;
    }
    const one = unisonOnOne(made, grid, slot, hit);
    if (one >= 0) {
      const first = made[one].hit;
      const both = { atMs: Math.min(first.atMs, atMs), velocity: Math.max(first.velocity, velocity) };
      made[one] = { ...made[one], hit: { ...first, ...both } };
    } else if (random() >= missed) {
      made.push({ hit, of: slot.index }, ...graced(player, on, slot, meant, hit, random));
      made.push(...echoed(player, hit, random));
    }
    if (random() < added) {
      const between = dueMs + (0.3 + 0.4 * random()) * slot.gapMs;
      made.push({
        hit: { ...hit, atMs: between, velocity: velocityOf(-20 + 3 * normal(random)) },
        of: 'added',
      });
    }
  }
  return { made, lostMs };
}

function shareOf(faults: readonly Fault[], kind: 'missed' | 'added' | 'wrong-hand'): number | undefined {
  const fault = faults.find((one) => one.kind === kind);
  return fault?.kind === kind ? fault.share : undefined;
}

/** Where the first note of a unison on one surface was struck, or −1: both sticks make one hit, as loud as the louder. */
function unisonOnOne(
  made: readonly Made[],
  { slots }: Grid,
  { atMs, index }: Slot,
  { note }: RawHit,
): number {
  if (slots[index - 1]?.atMs !== atMs) return -1;
  return made.findLastIndex(({ of, hit }) => of === index - 1 && hit.note === note);
}

const FOOT_DB: Db = -8;
const SOFT_FOOT_DB: Db = -20;

/** The feet, with random numbers of their own, so that a phrase's hands are the same with feet and without. */
function footwork(player: ModelPlayer, grid: Grid, { rig }: ModelSurfaces): Made[] {
  const random = seeded(player.seed + FEET_SEED);
  const { offsetMs = -4, timingSdMs = 6, levelSdDb = 1.2 } = player;
  return grid.feet.map(({ foot, soft, atMs }): Made => {
    const levelDb = (soft ? SOFT_FOOT_DB : FOOT_DB) + levelSdDb * normal(random);
    const note = rig.surfaces.find((surface) => surface.foot === foot)?.notes[0] ?? 0;
    const at = atMs + offsetMs + timingSdMs * normal(random);
    return { hit: { atMs: at, port: PORT, channel: 10, note, velocity: velocityOf(levelDb) }, of: 'foot' };
  });
}

const FEET_SEED = 0x5eed;

function level(player: ModelPlayer, note: Slot, beside: Beside, random: Random): Db {
  const { accentDb = -4, tapDb = -20, ghostDb = -26, levelSdDb = 1.2 } = player;
  const base = note.kind === 'accent' ? accentDb : note.kind === 'tap' ? tapDb : ghostDb;
  const soft = note.kind !== 'accent';
  let planted = 0;
  for (const fault of player.faults ?? []) {
    if (!applies(fault, note)) continue;
    if (fault.kind === 'balance') planted += fault.db;
    else if (fault.kind === 'accents' && !soft) planted += fault.db;
    else if (fault.kind === 'softs' && soft) planted += fault.db;
    else if (fault.kind === 'leak-before' && soft && beside.ownAfter) planted += fault.db;
    else if (fault.kind === 'leak-after' && soft && beside.ownBefore) planted += fault.db;
    else if (fault.kind === 'spill' && soft && beside.otherBeside) planted += fault.db;
    else if (fault.kind === 'fade' && soft && beside.second) planted += fault.db;
  }
  return base + note.shiftDb + planted + levelSdDb * normal(random);
}

function timing(player: ModelPlayer, grid: Grid, slot: Slot, note: Slot, beside: Beside, random: Random): Ms {
  const { offsetMs = -4, timingSdMs = 6 } = player;
  let spread = timingSdMs;
  let shift = offsetMs;
  for (const fault of player.faults ?? []) {
    if (!applies(fault, note)) continue;
    if (fault.kind === 'late' || fault.kind === 'arrival') shift += fault.ms;
    else if (fault.kind === 'double-gap' && secondOfAnyDouble(grid, slot)) shift += fault.ms;
    else if (fault.kind === 'seam' && beside.seam && slot.bar > 0) shift += fault.ms;
    else if (fault.kind === 'scatter') spread = fault.ms;
  }
  return shift + spread * normal(random);
}

function applies(fault: Fault, note: Slot): boolean {
  if ('variation' in fault && fault.variation !== note.variation) return false;
  return !('hand' in fault) || fault.hand === note.hand;
}

/** Mean gap of graces, its spread, and their level: 22 dB under an accent, 6 under a tap. */
const GRACE_MS: Ms = 30;
const GRACE_SD_MS: Ms = 3;
const GRACE_DB: Db = -26;

/** The grace notes before a stroke, the last of them nearest. */
function graced(
  player: ModelPlayer,
  on: ModelSurfaces,
  slot: Slot,
  note: Slot,
  main: RawHit,
  random: Random,
): Made[] {
  let [gapMs, spreadMs, levelDb] = [GRACE_MS, GRACE_SD_MS, GRACE_DB];
  for (const fault of player.faults ?? []) {
    if (!applies(fault, note)) continue;
    if (fault.kind === 'flam-gap') gapMs = fault.ms;
    else if (fault.kind === 'flam-uneven') spreadMs = fault.ms;
    else if (fault.kind === 'graces') levelDb += fault.db;
  }
  let { atMs } = main;
  return [...slot.graces].reverse().map((hand): Made => {
    atMs -= Math.max(10, gapMs + spreadMs * normal(random));
    const velocity = velocityOf(levelDb + note.shiftDb + (player.levelSdDb ?? 1.2) * normal(random));
    return { hit: { ...main, atMs, note: noteOf(on, { hand, kind: 'tap' }), velocity }, of: 'grace' };
  });
}

function echoed(player: ModelPlayer, hit: RawHit, random: Random): Made[] {
  const fault = (player.faults ?? []).find((one) => one.kind === 'echo');
  if (fault === undefined || random() >= fault.share) return [];
  const velocity = Math.max(1, Math.round(hit.velocity * fault.ratio));
  return [{ hit: { ...hit, atMs: hit.atMs + ECHO_AFTER_MS, velocity }, of: 'echo' }];
}

function velocityOf(levelDb: Db): number {
  return Math.min(127, Math.max(1, Math.round(velocityOfLevel(levelDb))));
}
