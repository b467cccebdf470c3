import * as v from 'valibot';
import { clockMs, filled, text, whole } from './schema';
import type { Stored } from './stored';

/** An event as a file has it. Kinds that this reader doesn't know are let through and kept, as unknown keys are. */
const event = v.looseObject({
  atMs: clockMs,
  kind: filled,
  cycle: v.exactOptional(whole(0, 100_000)),
  barInCycle: v.exactOptional(whole(0, 100_000)),
  figure: v.exactOptional(text),
  by: v.exactOptional(text),
  port: v.exactOptional(text),
  byMs: v.exactOptional(clockMs),
  channel: v.exactOptional(whole(1, 16)),
  note: v.exactOptional(whole(0, 127)),
});
export const takeEvents = v.array(event, 'must be a list of events');

export type StoredEvent = Stored<typeof event>;

const needed = <Key extends keyof StoredEvent>(key: Key) => v.nonOptional(event.entries[key]);
const { atMs } = event.entries;
const known = v.variant('kind', [
  v.looseObject({
    kind: v.literal('mark'),
    atMs,
    cycle: needed('cycle'),
    barInCycle: needed('barInCycle'),
  }),
  v.looseObject({ kind: v.literal('figure'), atMs, figure: needed('figure'), by: needed('by') }),
  v.looseObject({ kind: v.picklist(['port gone', 'port back']), atMs, port: needed('port') }),
  v.looseObject({
    kind: v.picklist([
      'page hidden',
      'page shown',
      'sound device changed',
      'sound stopped',
      'sound back',
      'midi withdrawn',
      'midi allowed',
    ]),
    atMs,
  }),
  /** `byMs`: how long the computer slept, or how far a clock was set (positive: on). */
  v.looseObject({
    kind: v.picklist(['slept', 'clock set', 'stamps jumped']),
    atMs,
    byMs: needed('byMs'),
  }),
  v.looseObject({
    kind: v.literal('unknown note'),
    atMs,
    port: needed('port'),
    channel: needed('channel'),
    note: needed('note'),
  }),
]);

/**
 * What happened beside the strokes while a take was played, on the clock of its hits: what a teacher marked, which number
 * was worked on, and whatever went wrong. Nothing of it is graded.
 */
export type TakeEvent = Stored<typeof known>;

/** A stored event as one of ours; undefined for a kind of a newer reader, or without what its kind needs. */
export function knownEvent(stored: StoredEvent): TakeEvent | undefined {
  const parsed = v.safeParse(known, stored);
  return parsed.success ? parsed.output : undefined;
}
