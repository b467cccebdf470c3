import * as v from 'valibot';
import { filled, finite, oneOf, text, whole } from './schema';

/** The rules of a rig and its surfaces, as takes and rig files hold them. Unknown keys are let through. */

const count = v.pipe(
  v.number('must be a count'),
  v.integer('must be a count'),
  v.minValue(0, 'must be a count'),
);
const notNegative = v.pipe(finite, v.minValue(0, 'must not be negative'));
const share = v.pipe(
  v.number('must be a share 0–1'),
  v.minValue(0, 'must be a share 0–1'),
  v.maxValue(1, 'must be a share 0–1'),
);

const height = v.looseObject({ db: finite, n: count });
const heights = v.looseObject({ low: height, half: height, full: height });

const surface = v.looseObject({
  id: filled,
  name: text,
  port: text,
  channel: whole(1, 16),
  notes: v.array(whole(0, 127), 'must be a list of notes'),
  hand: v.nullable(oneOf(['R', 'L'])),
  trimDb: finite,
  thresholdVelocity: v.exactOptional(whole(1, 127)),
  foot: v.exactOptional(oneOf(['K', 'H'])),
  trimmed: v.exactOptional(v.boolean('must be true or false')),
  trimLeftDb: v.exactOptional(notNegative),
  heights: v.exactOptional(
    v.looseObject({ R: v.exactOptional(heights), L: v.exactOptional(heights) }, 'must be heights by hand'),
  ),
  spots: v.exactOptional(v.looseObject({ R: finite, L: finite, leftDb: notNegative })),
  closestPairMs: v.exactOptional(notNegative),
  afterAccent: v.exactOptional(v.looseObject({ db: finite, withinMs: notNegative, n: count })),
  forerunner: v.exactOptional(v.looseObject({ withinMs: notNegative, ratio: share, n: count })),
  echo: v.exactOptional(v.looseObject({ fromMs: notNegative, toMs: notNegative, ratio: share, n: count })),
});

const crosstalk = v.looseObject({
  from: filled,
  to: filled,
  fromMs: finite,
  toMs: finite,
  ratio: share,
  n: count,
});

export const rig = v.looseObject({
  levelLaw: v.literal('gm2', 'must be "gm2"'),
  inputDelayMs: finite,
  outputDelayMs: finite,
  surfaces: v.pipe(
    v.array(surface, 'must be a list of surfaces'),
    v.minLength(1, 'must have at least one surface'),
  ),
  id: v.exactOptional(filled),
  name: v.exactOptional(text),
  crosstalk: v.exactOptional(v.array(crosstalk, 'must be a list of windows')),
  delays: v.exactOptional(
    v.looseObject({
      spreadMs: notNegative,
      leftMs: notNegative,
      n: count,
      output: oneOf(['audio clock', 'by hand', 'together']),
    }),
  ),
  start: v.exactOptional(v.looseObject({ surface: filled })),
  clumpedPorts: v.exactOptional(v.array(text, 'must be a list of port names')),
});
