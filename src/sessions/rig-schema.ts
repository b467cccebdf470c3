import * as v from 'valibot';
import { between, filled, listOf, oneOf, text, whole } from './schema';

/** The rules of a rig and its surfaces, as takes and rig files hold them. Unknown keys are let through. */

const count = v.pipe(
  v.number('must be a count'),
  v.integer('must be a count'),
  v.minValue(0, 'must be a count'),
);
/** What a rig can have: a trim takes a quiet pad's softest to a loud one's loudest, and a delay is heard as one. */
const levelDb = between(-90, 90, 'dB');
const trimDb = between(-60, 60, 'dB');
const withinDb = between(0, 60, 'dB');
const delayMs = between(-2000, 2000, 'ms');
const withinMs = between(0, 2000, 'ms');
const share = v.pipe(
  v.number('must be a share 0–1'),
  v.minValue(0, 'must be a share 0–1'),
  v.maxValue(1, 'must be a share 0–1'),
);

const height = v.looseObject({ db: levelDb, n: count });
const heights = v.looseObject({ low: height, half: height, full: height });

const surface = v.looseObject({
  id: filled,
  name: text,
  port: text,
  channel: whole(1, 16),
  notes: listOf(whole(0, 127), 'notes', 128),
  hand: v.nullable(oneOf(['R', 'L'])),
  trimDb,
  thresholdVelocity: v.exactOptional(whole(1, 127)),
  foot: v.exactOptional(oneOf(['K', 'H'])),
  trimmed: v.exactOptional(v.boolean('must be true or false')),
  trimLeftDb: v.exactOptional(withinDb),
  heights: v.exactOptional(
    v.looseObject({ R: v.exactOptional(heights), L: v.exactOptional(heights) }, 'must be heights by hand'),
  ),
  spots: v.exactOptional(v.looseObject({ R: trimDb, L: trimDb, leftDb: withinDb })),
  closestPairMs: v.exactOptional(withinMs),
  afterAccent: v.exactOptional(v.looseObject({ db: levelDb, withinMs, n: count })),
  forerunner: v.exactOptional(v.looseObject({ withinMs, ratio: share, n: count })),
  echo: v.exactOptional(v.looseObject({ fromMs: withinMs, toMs: withinMs, ratio: share, n: count })),
});

const crosstalk = v.looseObject({
  from: filled,
  to: filled,
  fromMs: delayMs,
  toMs: delayMs,
  ratio: share,
  n: count,
});

/** A surface a note of a MIDI channel: more has no kit. */
const MOST_SURFACES = 128;

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
  crosstalk: v.exactOptional(listOf(crosstalk, 'windows', MOST_SURFACES * MOST_SURFACES)),
  delays: v.exactOptional(
    v.looseObject({
      spreadMs: withinMs,
      leftMs: withinMs,
      n: count,
      output: oneOf(['audio clock', 'by hand', 'together']),
    }),
  ),
  start: v.exactOptional(v.looseObject({ surface: filled })),
  clumpedPorts: v.exactOptional(listOf(text, 'port names', MOST_SURFACES)),
});
