import { cos, length, sin } from '../../exact';
import { sampleSd } from '../../grading/numbers/statistics';
import type { RawHit } from '../../stroke';
import type { Ms } from '../../units';

/** Gaps between the hits of each port, the newest last. */
export interface StampsState {
  readonly ports: ReadonlyMap<string, PortStamps>;
}

interface PortStamps {
  readonly lastAtMs: Ms;
  readonly gapsMs: readonly Ms[];
}

export const noStamps: StampsState = { ports: new Map() };

/** Gaps looked at: the newest of a port. */
const KEPT = 96;
const FEWEST = 24;
/** Wireless MIDI sends at connection intervals, multiples of 1.25 ms from 7.5 ms on. Source: Bluetooth core specification. */
const STEP_MS: Ms = 1.25;
const LEAST_STEPS = 6;
const MOST_STEPS = 24;
/** Resultant length of gaps modulo the interval from which the stamps count as clumped. Tried on model players. */
const CLUMPED = 0.75;
const SAME_FIT = 0.01;
/** Share of gaps of nothing at all from which they do so too. */
const TOGETHER = 0.15;
/** An interval is tried where the gaps vary by this share of it: then chance gives a resultant of 0.1. */
const LEAST_SPREAD = 0.35;

/** One hit further. */
export function nextStamp(
  { ports }: StampsState,
  { port, atMs }: Pick<RawHit, 'port' | 'atMs'>,
): StampsState {
  const before = ports.get(port);
  const gapsMs = before === undefined ? [] : [...before.gapsMs.slice(1 - KEPT), atMs - before.lastAtMs];
  return { ports: new Map(ports).set(port, { lastAtMs: atMs, gapsMs }) };
}

type Stamps =
  | { readonly kind: 'too few' }
  | { readonly kind: 'fine' }
  /** `everyMs`: the interval the time stamps keep to, where one is found. */
  | { readonly kind: 'clumped'; readonly everyMs: Ms | undefined };

/**
 * Whether the time stamps of a port come in clumps: whatever the player does, gaps are near multiples of one interval
 * (wireless MIDI hands over what gathered at each connection interval), or many are nothing at all. An interval is tried
 * where the gaps vary by more than a third of it: a very steady player's gaps are multiples of something, too.
 */
export function stampsOf({ ports }: StampsState, port: string): Stamps {
  const gaps = ports.get(port)?.gapsMs ?? [];
  if (gaps.length < FEWEST) return { kind: 'too few' };
  const together = gaps.filter((gap) => gap === 0).length / gaps.length;
  const apart = gaps.filter((gap) => gap > 0);
  let best: { readonly everyMs: Ms; readonly resultant: number } | undefined;
  const spread = withinSpread(apart);
  for (let steps = LEAST_STEPS; steps <= MOST_STEPS; steps += 1) {
    const everyMs = STEP_MS * steps;
    if (spread < LEAST_SPREAD * everyMs) break;
    const resultant = resultantOf(apart, everyMs);
    // A divisor of the interval fits as well: the largest that does is the interval.
    if (resultant > CLUMPED && resultant > (best?.resultant ?? 0) - SAME_FIT) best = { everyMs, resultant };
  }
  if (best !== undefined) return { kind: 'clumped', everyMs: best.everyMs };
  return together > TOGETHER ? { kind: 'clumped', everyMs: undefined } : { kind: 'fine' };
}

/** Names of the ports whose stamps are clumped, as the rig keeps them. */
export function clumpedPorts(state: StampsState): readonly string[] {
  return [...state.ports.keys()].filter((port) => stampsOf(state, port).kind === 'clumped');
}

/**
 * What it means, in words.
 * @example clumpedWords('Pad') // => Pad: time stamps come in clumps, as over wireless MIDI. Levels are graded, timing is not; a cable gives both.
 */
export const clumpedWords = (port: string): string =>
  `${port}: time stamps come in clumps, as over wireless MIDI. Levels are graded, timing is not; a cable gives both.`;

/** How gaps of about the same length vary: those within a factor of 1.4, where most are. */
function withinSpread(gaps: readonly Ms[]): Ms {
  const ascending = [...gaps].sort((a, b) => a - b);
  const groups: Ms[][] = [];
  for (const gap of ascending) {
    const open = groups[groups.length - 1] as Ms[] | undefined;
    if (open === undefined || gap > 1.4 * open[0]) groups.push([gap]);
    else open.push(gap);
  }
  const largest = groups.reduce<readonly Ms[]>(
    (most, group) => (group.length > most.length ? group : most),
    [],
  );
  return sampleSd(largest) ?? 0;
}

function resultantOf(gaps: readonly Ms[], everyMs: Ms): number {
  let [x, y] = [0, 0];
  for (const gap of gaps) {
    const angle = (2 * Math.PI * (gap % everyMs)) / everyMs;
    x += cos(angle);
    y += sin(angle);
  }
  return length(x, y) / gaps.length;
}
