import type { Rig, Surface } from '../sessions/types';
import type { Settings } from '../settings';
import type { Hand, RawHit, Stroke } from '../stroke';
import { otherHand } from '../stroke';
import { levelDb, type Db } from '../units';

/** One strike with each hand; null until it came. */
interface StruckHands {
  readonly first: RawHit | null;
  readonly second: RawHit | null;
  readonly firstHand: Hand;
}

/** The port name that stands for any port. */
const ANY_PORT = '*';

/**
 * Which surface a hit fell on: the first that owns its note on its channel and port. A surface that names
 * the port goes before one that takes any. Undefined: no surface owns the note, it is *unmapped*.
 * Call it once a rig, then once a hit; the look-up costs one table access.
 */
export function surfaceFinder(rig: Rig): (hit: RawHit) => Surface | undefined {
  const owners: Surface[][] = Array.from({ length: 17 * 128 }, () => []);
  for (const surface of rig.surfaces) {
    for (const note of surface.notes) {
      const those = owners[keyOf(surface.channel, note)];
      if (surface.port === ANY_PORT) those.push(surface);
      else those.unshift(surface);
    }
  }
  return (hit) => {
    for (const surface of owners[keyOf(hit.channel, hit.note)] ?? []) {
      if (surface.port === ANY_PORT || surface.port === hit.port) return surface;
    }
    return undefined;
  };
}

/**
 * A hit on a surface as a stroke: the time less what the rig adds before and after (input delay: between pad
 * and time stamp; output delay: between schedule and sound, to which the player plays), the level in dB re
 * velocity 127 with the surface's trim added.
 * @param hit index of the raw hit
 */
export function strokeOf(rig: Rig, surface: Surface, raw: RawHit, hit: number, echoLike: boolean): Stroke {
  return {
    hit,
    atMs: raw.atMs - rig.inputDelayMs - rig.outputDelayMs,
    levelDb: levelDb(raw.velocity) + surface.trimDb,
    velocity: raw.velocity,
    surface: surface.id,
    hand: surface.hand,
    echoLike,
  };
}

/**
 * A rig from one strike with each hand: the same note makes one surface that either hand may play, two notes
 * a surface a hand. It owns the notes struck on their ports and channels and nothing else; no delays, no trims.
 * @returns undefined until both hands have struck
 */
export function rigFromStrikes(strikes: StruckHands): Rig | undefined {
  const { first, second, firstHand } = strikes;
  if (first === null || second === null) return undefined;
  const surfaces = sameKey(first, second)
    ? [surfaceAt(first, 'pad', 'Pad', null)]
    : [handSurface(first, firstHand), handSurface(second, otherHand(firstHand))].sort(rightFirst);
  return { levelLaw: 'gm2', inputDelayMs: 0, outputDelayMs: 0, surfaces };
}

/**
 * Whether the rig tells which hand struck. `known`: every surface is one hand's. `assumed`: none is, hands
 * come from the sticking. `mixed`: some are. The feet's surfaces play no part.
 */
export function handsOf(rig: Rig): 'known' | 'assumed' | 'mixed' {
  const ofHands = rig.surfaces.filter((surface) => surface.foot === undefined);
  const known = ofHands.filter((surface) => surface.hand !== null).length;
  if (known === 0) return 'assumed';
  return known === ofHands.length ? 'known' : 'mixed';
}

/**
 * Level under which some surface of the rig gives nothing, trim included: the highest of those it has learned, and
 * for a surface without one the level of `tooSoft.velocity`. The feet's surfaces play no part.
 */
export function thresholdDbOf(rig: Rig, settings: Settings): Db {
  const ofHands = rig.surfaces.filter((surface) => surface.foot === undefined);
  const levels = ofHands.map(
    ({ thresholdVelocity, trimDb }) => levelDb(thresholdVelocity ?? settings['tooSoft.velocity']) + trimDb,
  );
  return levels.length === 0 ? levelDb(settings['tooSoft.velocity']) : Math.max(...levels);
}

const keyOf = (channel: number, note: number): number => channel * 128 + note;

const sameKey = (a: RawHit, b: RawHit): boolean =>
  a.port === b.port && a.channel === b.channel && a.note === b.note;

const handSurface = (hit: RawHit, hand: Hand): Surface =>
  hand === 'R' ? surfaceAt(hit, 'right', 'Right hand', 'R') : surfaceAt(hit, 'left', 'Left hand', 'L');

const rightFirst = (a: Surface, b: Surface): number => Number(a.hand === 'L') - Number(b.hand === 'L');

const surfaceAt = (hit: RawHit, id: string, name: string, hand: Hand | null): Surface => ({
  id,
  name,
  port: hit.port,
  channel: hit.channel,
  notes: [hit.note],
  hand,
  trimDb: 0,
});
