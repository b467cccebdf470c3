import { parseFeet } from '../../exercises/feet';
import type { Kind, Phrase } from '../../exercises/types';
import { InputError } from '../../errors';
import type { Rig } from '../../sessions/types';
import type { Hand } from '../../stroke';
import type { Ms, Velocity } from '../../units';
import type { Target } from './target';
import { msAtTick, tickAtMs } from './ticks';
import { TICKS_A_BEAT } from './target';
import type { SmfEvent, TempoPoint } from './types';

/** A note at a time, before it is an on and an off. */
export interface Struck {
  readonly tick: number;
  readonly channel: number;
  readonly note: number;
  readonly velocity: Velocity;
}

const NOTE_MS: Ms = 50;
/** A grace stands this long before its note, the first of two twice as long. Common practice, no source. */
export const GRACE_BEFORE_MS: Ms = 30;
/** Softness by kind; common practice, no source. */
const VELOCITIES: Readonly<Record<Kind, Velocity>> = { accent: 101, tap: 40, ghost: 28 };
const GRACE_VELOCITY: Velocity = 30;
/** Acoustic Snare, Bass Drum 1 and Pedal Hi-Hat of the General MIDI percussion map, on its channel. */
const SNARE = 38;
const FEET = { K: 36, H: 44 } as const;
const DRUM_CHANNEL = 10;

/**
 * The target as notes on the rig's surfaces: a hand's own surface, else one that either hand may play, else the first;
 * of each the first note. Without a rig both hands play note 38 on channel 10. Feet play 36 and 44.
 * @param leadTicks how far into the file the downbeat is
 */
export function targetNotes(
  target: Target,
  phrase: Phrase,
  rig: Rig | undefined,
  points: readonly TempoPoint[],
  leadTicks: number,
): readonly Struck[] {
  const places = { R: placeOf(rig, 'R'), L: placeOf(rig, 'L') };
  const feet = phrase.feet === undefined ? undefined : feetOf(phrase.feet);
  const notes: Struck[] = [];
  for (const { tick, content, partial } of target.partials) {
    const at = leadTicks + tick;
    content.graces.forEach((hand, index) => {
      const beforeMs = (content.graces.length - index) * GRACE_BEFORE_MS;
      const graceMs = msAtTick(points, TICKS_A_BEAT, at) - beforeMs;
      notes.push({
        tick: tickAtMs(points, TICKS_A_BEAT, graceMs),
        ...places[hand],
        velocity: GRACE_VELOCITY,
      });
    });
    for (const { hand, kind } of content.notes) {
      notes.push({ tick: at, ...places[hand], velocity: VELOCITIES[kind] });
    }
    for (const { foot, soft } of feet?.[partial % feet.length] ?? []) {
      const velocity = VELOCITIES[soft ? 'tap' : 'accent'];
      notes.push({ tick: at, channel: DRUM_CHANNEL, note: FEET[foot], velocity });
    }
  }
  return notes;
}

/**
 * Notes as events: each lasts 50 ms, or until the same note comes again, whichever is sooner, so that every end belongs
 * to one beginning.
 */
export function noteEvents(struck: readonly Struck[], points: readonly TempoPoint[]): readonly SmfEvent[] {
  const events: SmfEvent[] = [];
  /** In order of their beginnings, and so of their ends; those before `next` have ended. */
  const begun: { readonly note: Struck; readonly endTick: number; isOver: boolean }[] = [];
  let next = 0;
  const ringing = new Map<number, (typeof begun)[number]>();
  const stop = (one: (typeof begun)[number], tick: number): void => {
    events.push({ kind: 'off', tick, channel: one.note.channel, note: one.note.note });
    one.isOver = true;
    ringing.delete(keyOf(one.note));
  };
  const stopUntil = (tick: number): void => {
    for (; next < begun.length && begun[next].endTick <= tick; next += 1) {
      if (!begun[next].isOver) stop(begun[next], begun[next].endTick);
    }
  };
  for (const note of [...struck].sort((a, b) => a.tick - b.tick)) {
    stopUntil(note.tick);
    const same = ringing.get(keyOf(note));
    if (same !== undefined) stop(same, note.tick);
    events.push({ kind: 'on', ...note });
    const endTick = tickAtMs(points, TICKS_A_BEAT, msAtTick(points, TICKS_A_BEAT, note.tick) + NOTE_MS);
    const one = { note, endTick, isOver: false };
    begun.push(one);
    ringing.set(keyOf(note), one);
  }
  stopUntil(Infinity);
  return events;
}

const keyOf = ({ channel, note }: Struck): number => channel * 128 + note;

/** Events of a track put together: at one tick lyrics and texts go first, the rest stays in order. */
export function merged(...lists: readonly (readonly SmfEvent[])[]): readonly SmfEvent[] {
  return lists.flat().sort((a, b) => a.tick - b.tick);
}

function placeOf(rig: Rig | undefined, hand: Hand): { channel: number; note: number } {
  const surfaces = rig?.surfaces.filter(({ notes }) => notes.length > 0) ?? [];
  const surface =
    surfaces.find((one) => one.hand === hand) ?? surfaces.find((one) => one.hand === null) ?? surfaces[0];
  if (surface === undefined) return { channel: DRUM_CHANNEL, note: SNARE };
  return { channel: surface.channel, note: surface.notes[0] };
}

function feetOf(text: string): ReturnType<typeof parseFeet> {
  try {
    return parseFeet(text);
  } catch (error) {
    throw error instanceof InputError ? error.within('phrase.feet') : error;
  }
}
