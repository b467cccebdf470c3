import * as v from 'valibot';
import type { Db, Ms } from '../units';
import { between, filled, listOf, oneOf, text, whole } from './schema';

/** The rules of a rig and its surfaces, as takes and rig files hold them. Unknown keys are let through. */

const count = v.pipe(
  v.number('must be a count'),
  v.integer('must be a count'),
  v.minValue(0, 'must be a count'),
);
/** What a rig can have: a trim takes a quiet pad's softest to a loud one's loudest, and a delay is heard as one. */
const levelDb: v.GenericSchema<unknown, Db> = between(-90, 90, 'dB');
const trimDb: v.GenericSchema<unknown, Db> = between(-60, 60, 'dB');
const withinDb: v.GenericSchema<unknown, Db> = between(0, 60, 'dB');
const delayMs: v.GenericSchema<unknown, Ms> = between(-2000, 2000, 'ms');
const withinMs: v.GenericSchema<unknown, Ms> = between(0, 2000, 'ms');
const share = v.pipe(
  v.number('must be a share 0–1'),
  v.minValue(0, 'must be a share 0–1'),
  v.maxValue(1, 'must be a share 0–1'),
);

/** Median level of strokes at one height, dB re velocity 127, trims **left out**; `n` strokes were struck. */
const height = v.looseObject({ db: levelDb, n: count });
export const heights = v.looseObject({ low: height, half: height, full: height });

/**
 * Trims of the two landing spots of one surface, added to the level of that hand's strokes there. `leftDb`: how far
 * either hand minus the other may still be off (half the 90 % interval); a balance finer than that is not known of
 * this pad.
 */
export const spots = v.looseObject({ R: trimDb, L: trimDb, leftDb: withinDb });

/** Soft notes of the same note just before a louder stroke: within this time, at up to this share of its velocity. */
export const forerunner = v.looseObject({
  withinMs,
  ratio: share,
  /** False notes seen when it was learned. */
  n: count,
});

/** Notes of the same surface after a stroke, between these times, at up to this share of its velocity. */
export const echo = v.looseObject({ fromMs: withinMs, toMs: withinMs, ratio: share, n: count });

/**
 * How a tap within `withinMs` after an accent on this surface reads against the hand's low strokes: `db` louder
 * (negative: softer). Pad and hand together; nobody can tell from MIDI which did it.
 */
export const afterAccent = v.looseObject({ db: levelDb, withinMs, n: count });

/** One playable thing, owning a set of notes on one port and channel. */
export const surface = v.looseObject({
  id: filled,
  name: text,
  /** "*" is any port. */
  port: text,
  channel: whole(1, 16),
  notes: listOf(whole(0, 127), 'notes', 128),
  /** The hand that plays it, or null where either may. */
  hand: v.nullable(oneOf(['R', 'L'])),
  trimDb,
  /** Lowest velocity that arrives, where the rig has learned it. */
  thresholdVelocity: v.exactOptional(whole(1, 127)),
  /** The foot that plays it: `K` the bass drum's, `H` the hi-hat's. Its strokes never enter the hands' measures. */
  foot: v.exactOptional(oneOf(['K', 'H'])),
  /** True where its trim was set against the player's other trimmed surfaces: then levels compare across them. */
  trimmed: v.exactOptional(v.boolean('must be true or false')),
  /** How far that trim may still be off: half its 90 % interval. */
  trimLeftDb: v.exactOptional(withinDb),
  /** Where each hand's low, half and full strokes lie. */
  heights: v.exactOptional(
    v.looseObject({ R: v.exactOptional(heights), L: v.exactOptional(heights) }, 'must be heights by hand'),
  ),
  /** Where two hands share the surface. They come on top of `trimDb`. */
  spots: v.exactOptional(spots),
  /** Two strokes nearer than this may arrive as one. */
  closestPairMs: v.exactOptional(withinMs),
  afterAccent: v.exactOptional(afterAccent),
  forerunner: v.exactOptional(forerunner),
  echo: v.exactOptional(echo),
});

/**
 * What a stroke on surface `from` makes surface `to` report: between these times after it (negative: before it), at up
 * to this share of its velocity. An ordered pair: the floor may shake the pad and not the reverse.
 */
export const crosstalk = v.looseObject({
  from: filled,
  to: filled,
  fromMs: delayMs,
  toMs: delayMs,
  ratio: share,
  n: count,
});

/** A surface a note of a MIDI channel: more has no kit. */
const MOST_SURFACES = 128;

/** What the delays of a rig were learned from. */
export const delays = v.looseObject({
  /** Standard deviation of single strokes about the sum of both delays. */
  spreadMs: withinMs,
  /** Half the 90 % interval of the sum. */
  leftMs: withinMs,
  n: count,
  /** Where the output delay is from; *together*: nothing told the two apart, and the sum stands as input delay. */
  output: oneOf(['audio clock', 'by hand', 'together']),
});

/** A player's set-up. */
export const rig = v.looseObject({
  levelLaw: v.literal('gm2', 'must be "gm2"'),
  inputDelayMs: delayMs,
  outputDelayMs: delayMs,
  surfaces: v.pipe(
    listOf(surface, 'surfaces', MOST_SURFACES),
    v.minLength(1, 'must have at least one surface'),
  ),
  id: v.exactOptional(filled),
  name: v.exactOptional(text),
  /** By ordered pair of surfaces; the settings' window elsewhere. */
  crosstalk: v.exactOptional(listOf(crosstalk, 'windows', MOST_SURFACES * MOST_SURFACES)),
  /** How the two delays were learned. */
  delays: v.exactOptional(delays),
  /** The surface that starts and stops a take, so that no hand leaves the sticks. */
  start: v.exactOptional(v.looseObject({ surface: filled })),
  /** Ports whose time stamps come in clumps (wireless MIDI): levels are graded there, timing is not. */
  clumpedPorts: v.exactOptional(listOf(text, 'port names', MOST_SURFACES)),
});
