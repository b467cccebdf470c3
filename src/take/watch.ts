import { surfaceFinder } from '../midi/rig';
import type { MidiStatus } from '../midi/types';
import type { TakeEvent } from '../sessions/take-events';
import type { Rig } from '../sessions/types';
import type { RawHit } from '../stroke';
import type { Ms } from '../units';

/** News of the world around a running take, each with its time on the clock of the hits. */
export type WatchNews =
  /** The time, a few times a second: on the clock of the hits and on the wall. */
  | { readonly kind: 'tick'; readonly atMs: Ms; readonly wallMs: Ms }
  | { readonly kind: 'midi'; readonly atMs: Ms; readonly status: MidiStatus }
  | { readonly kind: 'page'; readonly atMs: Ms; readonly hidden: boolean }
  | { readonly kind: 'sound'; readonly atMs: Ms; readonly now: 'device' | 'stopped' | 'running' }
  /** `atMs` is when it came; its own stamp may say otherwise. */
  | { readonly kind: 'hit'; readonly atMs: Ms; readonly hit: RawHit };

/** How the world around it stands, and what the last news brought. */
interface TakeWatch {
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
export function takeWatch(
  rig: Rig,
  ports: readonly string[],
): { readonly start: TakeWatch; readonly step: (watch: TakeWatch, news: WatchNews) => TakeWatch } {
  const surfaceOf = surfaceFinder(rig);

  function atTick(watch: TakeWatch, atMs: Ms, wallMs: Ms): TakeWatch {
    const wallAheadMs = wallMs - atMs;
    const leapMs = watch.wallAheadMs === null ? 0 : wallAheadMs - watch.wallAheadMs;
    const now = { ...watch, lastMs: atMs, wallAheadMs };
    const gapMs = watch.lastMs === -Infinity ? 0 : atMs - watch.lastMs;
    if (leapMs > SLEPT_MS) return slept(now, atMs, leapMs);
    if (gapMs > (watch.hidden ? HIDDEN_SLEPT_MS : SLEPT_MS)) return slept(now, atMs, gapMs);
    if (Math.abs(leapMs) > CLOCK_SET_MS) return noted(now, { kind: 'clock set', atMs, byMs: leapMs });
    return now;
  }

  function atMidi(watch: TakeWatch, atMs: Ms, status: MidiStatus): TakeWatch {
    if (ports.length === 0) return watch;
    if (status.kind === 'failed' && status.reason === 'refused') {
      return watch.allowed ? noted({ ...watch, allowed: false }, { kind: 'midi withdrawn', atMs }) : watch;
    }
    if (status.kind !== 'on') return watch;
    const back = watch.allowed ? watch : noted({ ...watch, allowed: true }, { kind: 'midi allowed', atMs });
    const there = new Set(status.inputs.flatMap(({ name, connected }) => (connected ? [name] : [])));
    const gone = new Set(ports.filter((port) => !there.has(port)));
    const changes = ports.filter((port) => gone.has(port) !== back.gone.has(port));
    return changes.reduce<TakeWatch>(
      (now, port) => noted(now, { kind: gone.has(port) ? 'port gone' : 'port back', atMs, port }),
      { ...back, gone },
    );
  }

  function atHit(watch: TakeWatch, atMs: Ms, hit: RawHit): TakeWatch {
    const offMs = hit.atMs - atMs;
    const stampsOff = Math.abs(offMs) > STAMP_OFF_MS;
    let now = stampsOff === watch.stampsOff ? watch : { ...watch, stampsOff };
    if (stampsOff && !watch.stampsOff) now = noted(now, { kind: 'stamps jumped', atMs, byMs: offMs });
    const { port, channel, note } = hit;
    const key = `${channel} ${note} ${port}`;
    if (watch.unknown.has(key) || surfaceOf(hit) !== undefined) return now;
    const unknown = new Set(watch.unknown).add(key);
    return noted({ ...now, unknown }, { kind: 'unknown note', atMs, port, channel, note });
  }

  function changed(watch: TakeWatch, news: WatchNews): TakeWatch {
    const { atMs } = news;
    switch (news.kind) {
      case 'tick':
        return atTick(watch, atMs, news.wallMs);
      case 'midi':
        return atMidi(watch, atMs, news.status);
      case 'page':
        if (news.hidden === watch.hidden) return watch;
        return noted(
          { ...watch, hidden: news.hidden },
          { kind: news.hidden ? 'page hidden' : 'page shown', atMs },
        );
      case 'sound':
        if (news.now === 'device') return noted(watch, { kind: 'sound device changed', atMs });
        if ((news.now === 'running') === watch.sounding) return watch;
        return noted(
          { ...watch, sounding: news.now === 'running' },
          { kind: news.now === 'running' ? 'sound back' : 'sound stopped', atMs },
        );
      case 'hit':
        return atHit(watch, atMs, news.hit);
    }
  }

  return {
    start: atRest,
    step: (watch, news) => changed(watch.events.length === 0 ? watch : { ...watch, events: [] }, news),
  };
}

const atRest: TakeWatch = {
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

const noted = (watch: TakeWatch, event: TakeEvent): TakeWatch => ({
  ...watch,
  events: [...watch.events, event],
});

const slept = (watch: TakeWatch, atMs: Ms, byMs: Ms): TakeWatch => ({
  ...noted(watch, { kind: 'slept', atMs, byMs }),
  over: true,
});
