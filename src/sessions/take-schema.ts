import * as v from 'valibot';
import { clicks } from './click-schema';
import { rig } from './rig-schema';
import { clockMs, filled, finite, hit, isoDate, limits, oneOf, phrase, tempo, text } from './schema';
import { takeEvents } from './take-events';

/** `evenhand-take`, version 1: a take as its file has it. Unknown keys are let through and survive a round trip. */
export const takeSchema = v.looseObject({
  format: v.literal('evenhand-take', 'must be "evenhand-take"'),
  version: v.literal(1, 'must be 1'),
  id: filled,
  player: text,
  recordedAt: isoDate,
  source: oneOf(['played', 'model', 'imported']),
  phrase,
  tempo,
  click: oneOf(['on', 'bare', 'none']),
  /** Which partials clicked, how, and which bars were bare. Absent for a click on every beat. */
  clicks: v.exactOptional(clicks),
  limits,
  /** Only what differs from the defaults. */
  settings: v.record(v.string(), finite),
  rig,
  /** Time of the first slot of bar 1, cycle 1, on the clock of `hits`; null for a free take. */
  downbeatMs: v.nullable(clockMs),
  /** Raw, in time order. */
  hits: v.array(hit, 'must be a list of hits'),
  notes: text,
  /** Whose take it is in the library it comes from; `player` is only what they are called. */
  playerId: v.exactOptional(text),
  /** True for the first take of a practice without a warm-up, false after one. Absent where nobody knows. */
  cold: v.exactOptional(v.boolean('must be true or false')),
  /** The week sheet it was played to. */
  sheetId: v.exactOptional(text),
  /** The remedy it was played to, in words. */
  remedy: v.exactOptional(text),
  /** The teacher played it, in a lesson: it counts in no player's history. */
  teacher: v.exactOptional(v.literal(true, 'must be true')),
  /** What a teacher has come first of all that is out: a measure by its key, and its hand. Absent where the report's own does. */
  first: v.exactOptional(v.object({ measure: filled, hand: v.exactOptional(oneOf(['R', 'L'])) })),
  /** What happened beside the strokes, in time order; absent where nothing did. */
  events: v.exactOptional(takeEvents),
});
