import { surfaceFinder } from '../midi/rig';
import type { MidiStatus } from '../midi/types';
import type { TakeEvent } from '../sessions/take-events';
import type { Rig } from '../sessions/types';
import type { RawHit } from '../stroke';
import type { Ms } from '../units';

/** News of the world around a running take, each with its time on the clock of the hits. */
export type RoomNews =
  /** The time, a few times a second: on the clock of the hits and on the wall. */
  | { readonly kind: 'tick'; readonly atMs: Ms; readonly wallMs: Ms }
  | { readonly kind: 'midi'; readonly atMs: Ms; readonly status: MidiStatus }
  | { readonly kind: 'page'; readonly atMs: Ms; readonly hidden: boolean }
  | { readonly kind: 'sound'; readonly atMs: Ms; readonly now: 'device' | 'stopped' | 'running' }
  /** `atMs` is when it came; its own stamp may say otherwise. */
  | { readonly kind: 'hit'; readonly atMs: Ms; readonly hit: RawHit };

/** How the room stands, and what the last news brought. */
interface RoomWatch {
  /** To be written into the take: what this step brought, and nothing of the steps before. */
  readonly events: readonly TakeEvent[];
  /** True once the take cannot go on: the computer slept through a part of it. */
  readonly over: boolean;
  /** Ports that are played and not there. */
  readonly gone: ReadonlySet<string>;
  readonly allowed: boolean;
  readonly hidden: boolean;
  readonly sounding: boolean;
  readonly lastMs: Ms;
  readonly wallAheadMs: Ms | null;
  readonly stampsOff: boolean;
  /** Notes of no surface, each with its port and channel. */
  readonly unknown: ReadonlySet<string>;
}

/** A shorter leap of the wall clock is a clock being set, or its fine steering. Common practice. */
const CLOCK_SET_MS: Ms = 500;
/** Longer without a tick, or a leap of the wall clock as long: the computer slept. Common practice. */
const SLEPT_MS: Ms = 5000;
/** A hidden page's timers may be held back for a minute. Source: the timer throttling of browsers. */
const HIDDEN_SLEPT_MS: Ms = 90_000;
/** A stamp further than this from its hit's arrival is of another clock. Common practice. */
const STAMP_OFF_MS: Ms = 1000;

/**
 * Watches over a take: what went wrong beside the strokes, once each. Nothing here loses a hit. A take goes on without its
 * port, hidden, in silence or with a clock set anew, and is over where the computer slept, since its bars went by unplayed.
 * Most clocks of pages stand still in sleep and the wall's goes on; some go on with it, so both are looked at.
 * @param ports names of the ports that are played; none for a bundled take
 */
export function roomWatch(
  rig: Rig,
  ports: readonly string[],
): { readonly start: RoomWatch; readonly step: (room: RoomWatch, news: RoomNews) => RoomWatch } {
  const surfaceOf = surfaceFinder(rig);

  function atTick(room: RoomWatch, atMs: Ms, wallMs: Ms): RoomWatch {
    const wallAheadMs = wallMs - atMs;
    const leapMs = room.wallAheadMs === null ? 0 : wallAheadMs - room.wallAheadMs;
    const now = { ...room, lastMs: atMs, wallAheadMs };
    const gapMs = room.lastMs === -Infinity ? 0 : atMs - room.lastMs;
    if (leapMs > SLEPT_MS) return slept(now, atMs, leapMs);
    if (gapMs > (room.hidden ? HIDDEN_SLEPT_MS : SLEPT_MS)) return slept(now, atMs, gapMs);
    if (Math.abs(leapMs) > CLOCK_SET_MS) return told(now, { kind: 'clock set', atMs, byMs: leapMs });
    return now;
  }

  function atMidi(room: RoomWatch, atMs: Ms, status: MidiStatus): RoomWatch {
    if (ports.length === 0) return room;
    if (status.kind === 'failed' && status.reason === 'refused') {
      return room.allowed ? told({ ...room, allowed: false }, { kind: 'midi withdrawn', atMs }) : room;
    }
    if (status.kind !== 'on') return room;
    const back = room.allowed ? room : told({ ...room, allowed: true }, { kind: 'midi allowed', atMs });
    const there = new Set(status.inputs.flatMap(({ name, connected }) => (connected ? [name] : [])));
    const gone = new Set(ports.filter((port) => !there.has(port)));
    const changes = ports.filter((port) => gone.has(port) !== back.gone.has(port));
    return changes.reduce<RoomWatch>(
      (now, port) => told(now, { kind: gone.has(port) ? 'port gone' : 'port back', atMs, port }),
      { ...back, gone },
    );
  }

  function atHit(room: RoomWatch, atMs: Ms, hit: RawHit): RoomWatch {
    const offMs = hit.atMs - atMs;
    const stampsOff = Math.abs(offMs) > STAMP_OFF_MS;
    let now = stampsOff === room.stampsOff ? room : { ...room, stampsOff };
    if (stampsOff && !room.stampsOff) now = told(now, { kind: 'stamps jumped', atMs, byMs: offMs });
    const { port, channel, note } = hit;
    const key = `${channel} ${note} ${port}`;
    if (room.unknown.has(key) || surfaceOf(hit) !== undefined) return now;
    const unknown = new Set(room.unknown).add(key);
    return told({ ...now, unknown }, { kind: 'unknown note', atMs, port, channel, note });
  }

  function changed(room: RoomWatch, news: RoomNews): RoomWatch {
    const { atMs } = news;
    switch (news.kind) {
      case 'tick':
        return atTick(room, atMs, news.wallMs);
      case 'midi':
        return atMidi(room, atMs, news.status);
      case 'page':
        if (news.hidden === room.hidden) return room;
        return told(
          { ...room, hidden: news.hidden },
          { kind: news.hidden ? 'page hidden' : 'page shown', atMs },
        );
      case 'sound':
        if (news.now === 'device') return told(room, { kind: 'sound device changed', atMs });
        if ((news.now === 'running') === room.sounding) return room;
        return told(
          { ...room, sounding: news.now === 'running' },
          { kind: news.now === 'running' ? 'sound back' : 'sound stopped', atMs },
        );
      case 'hit':
        return atHit(room, atMs, news.hit);
    }
  }

  return {
    start: atRest,
    step: (room, news) => changed(room.events.length === 0 ? room : { ...room, events: [] }, news),
  };
}

const atRest: RoomWatch = {
  events: [],
  over: false,
  gone: new Set(),
  allowed: true,
  hidden: false,
  sounding: true,
  lastMs: -Infinity,
  wallAheadMs: null,
  stampsOff: false,
  unknown: new Set(),
};

const told = (room: RoomWatch, event: TakeEvent): RoomWatch => ({ ...room, events: [...room.events, event] });

const slept = (room: RoomWatch, atMs: Ms, byMs: Ms): RoomWatch => ({
  ...told(room, { kind: 'slept', atMs, byMs }),
  over: true,
});
