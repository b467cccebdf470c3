import { surfaceFinder } from '../midi/rig';
import type { Rig } from '../sessions/types';
import type { RawHit } from '../stroke';
import type { Bpm, Ms } from '../units';

/** What a player with sticks in both hands wants. */
type HandsFreeCommand = 'start' | 'stop' | 'again' | 'slower' | 'faster';

/** What happens, in time order: hits of every surface, ticks of the clock, and takes that begin or end otherwise. */
export type HandsFreeEvent =
  | { readonly kind: 'hit'; readonly hit: RawHit }
  | { readonly kind: 'tick'; readonly atMs: Ms }
  | { readonly kind: 'started'; readonly atMs: Ms }
  | { readonly kind: 'ended'; readonly atMs: Ms };

interface HandsFreeState {
  readonly phase: Phase;
  /** What this event brought; null where nothing. */
  readonly command: HandsFreeCommand | null;
  /** The last hit on the start surface, and on any other. */
  readonly lastStartMs: Ms;
  readonly lastOtherMs: Ms;
}

type Phase =
  | { readonly kind: 'waiting' }
  | { readonly kind: 'playing'; readonly sinceMs: Ms; readonly struckAtMs: Ms | null }
  | { readonly kind: 'stopped'; readonly sinceMs: Ms; readonly strikes: readonly Ms[] };

export const handsFreeAtRest: HandsFreeState = {
  phase: { kind: 'waiting' },
  command: null,
  lastStartMs: -Infinity,
  lastOtherMs: -Infinity,
};

/** A strike on purpose is at least this loud. Common practice. */
const LEAST_VELOCITY = 25;
/** Nearer to a hit elsewhere it may be that one's crosstalk. */
const CROSSTALK_MS: Ms = 60;
/** Nearer to the strike before it is its bounce. */
const BOUNCE_MS: Ms = 80;
/** After a start or stop the surface rests this long. */
const REST_MS: Ms = 500;
/** A strike stops a take when nothing else is struck for this long after it: a rim hit while playing stops nothing. */
const QUIET_MS: Ms = 700;
/** Strikes are counted for this long after the first. Our own choice, no source. */
const COUNT_MS: Ms = 1000;
const counted: readonly HandsFreeCommand[] = ['again', 'slower', 'faster'];

/** How much slower or faster at a time: about the step of a climb. Common practice. */
const STEP = 1.05;
const [SLOWEST, FASTEST]: readonly [Bpm, Bpm] = [20, 400];

/**
 * The tempo after *slower* or *faster*: about 5 %, in whole bpm.
 * @example otherBpm(84, 'slower') // => 80
 * @example otherBpm(84, 'faster') // => 88
 */
export function otherBpm(bpm: Bpm, which: 'slower' | 'faster'): Bpm {
  const other = which === 'faster' ? bpm * STEP : bpm / STEP;
  return Math.min(FASTEST, Math.max(SLOWEST, Math.round(other)));
}

export interface HandsFreeOptions {
  /** True where the phrase uses the start surface: then a strike on it never stops a take. */
  readonly alsoPlayed?: boolean;
}

/**
 * Starting and stopping from the rig's start surface. Waiting: a strike starts. Playing: a strike with 0.7 s of nothing
 * else after it stops. Stopped: 1, 2 or 3 strikes within a second of the first are again, slower, faster; more, or a stroke
 * elsewhere among them, is nothing. Soft hits, bounces and hits beside one elsewhere never count. Without a start surface
 * nothing ever happens. Feed a tick at least every 100 ms.
 */
export function handsFree(
  rig: Rig,
  { alsoPlayed = false }: HandsFreeOptions = {},
): (state: HandsFreeState, event: HandsFreeEvent) => HandsFreeState {
  const surfaceOf = surfaceFinder(rig);
  const start = rig.start?.surface;

  return (state, event) => {
    const quiet = state.command === null ? state : { ...state, command: null };
    if (start === undefined) return quiet;
    switch (event.kind) {
      case 'started':
        return { ...quiet, phase: { kind: 'playing', sinceMs: event.atMs, struckAtMs: null } };
      case 'ended':
        return quiet.phase.kind === 'stopped' ? quiet : { ...quiet, phase: stoppedAt(event.atMs) };
      case 'tick':
        return atTick(quiet, event.atMs);
      case 'hit':
        return surfaceOf(event.hit)?.id === start ? atStrike(quiet, event.hit) : atOther(quiet, event.hit);
    }
  };

  function atStrike(state: HandsFreeState, { atMs, velocity }: RawHit): HandsFreeState {
    const due = atTick(state, atMs);
    if (due.command !== null) return { ...due, lastStartMs: atMs };
    const isBounce = atMs - state.lastStartMs < BOUNCE_MS;
    const now = { ...due, lastStartMs: atMs };
    if (velocity < LEAST_VELOCITY || isBounce || atMs - state.lastOtherMs < CROSSTALK_MS) return now;
    const { phase } = due;
    switch (phase.kind) {
      case 'waiting':
        return { ...now, phase: { kind: 'playing', sinceMs: atMs, struckAtMs: null }, command: 'start' };
      case 'playing':
        if (alsoPlayed || atMs - phase.sinceMs < REST_MS) return now;
        return { ...now, phase: { ...phase, struckAtMs: atMs } };
      case 'stopped':
        if (atMs - phase.sinceMs < REST_MS) return now;
        return { ...now, phase: { ...phase, strikes: [...phase.strikes, atMs] } };
    }
  }

  /** A hit elsewhere takes back what a strike had begun. */
  function atOther(state: HandsFreeState, { atMs, velocity }: RawHit): HandsFreeState {
    const due = atTick(state, atMs);
    const now = { ...due, lastOtherMs: atMs };
    // What a strike shakes elsewhere takes nothing back.
    if (velocity < LEAST_VELOCITY && atMs - state.lastStartMs < CROSSTALK_MS) return due;
    const { phase } = due;
    if (phase.kind === 'playing' && phase.struckAtMs !== null) {
      return { ...now, phase: { ...phase, struckAtMs: null } };
    }
    if (phase.kind === 'stopped' && phase.strikes.length > 0) {
      return { ...now, phase: { ...phase, strikes: [] } };
    }
    return now;
  }

  function atTick(state: HandsFreeState, atMs: Ms): HandsFreeState {
    const { phase } = state;
    if (phase.kind === 'playing' && phase.struckAtMs !== null && atMs - phase.struckAtMs >= QUIET_MS) {
      return { ...state, phase: stoppedAt(atMs), command: 'stop' };
    }
    if (phase.kind === 'stopped' && phase.strikes.length > 0 && atMs - phase.strikes[0] >= COUNT_MS) {
      const command = counted[phase.strikes.length - 1] as HandsFreeCommand | undefined;
      return command === undefined
        ? { ...state, phase: stoppedAt(atMs) }
        : { ...state, phase: { kind: 'playing', sinceMs: atMs, struckAtMs: null }, command };
    }
    return state;
  }
}

const stoppedAt = (sinceMs: Ms): Phase => ({ kind: 'stopped', sinceMs, strikes: [] });
