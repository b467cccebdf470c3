import type { Velocity, Ms } from '../../units';

/** What of a Standard MIDI File's track matters here, at its tick from the start. Channels are 1–16. */
export type SmfEvent =
  | { readonly kind: 'name' | 'port' | 'text' | 'lyric'; readonly tick: number; readonly text: string }
  | { readonly kind: 'tempo'; readonly tick: number; readonly usPerQuarter: number }
  | { readonly kind: 'meter'; readonly tick: number; readonly beats: number; readonly unit: number }
  | {
      readonly kind: 'on';
      readonly tick: number;
      readonly channel: number;
      readonly note: number;
      readonly velocity: Velocity;
    }
  | { readonly kind: 'off'; readonly tick: number; readonly channel: number; readonly note: number };

/** From its tick on, a quarter lasts `usPerQuarter` µs. */
export interface TempoPoint {
  readonly tick: number;
  /** Time of the tick from the start of the file. */
  readonly atMs: Ms;
  readonly usPerQuarter: number;
}

/** A time signature: `beats` of which each is a `unit`th note. */
interface Meter {
  readonly tick: number;
  readonly beats: number;
  readonly unit: number;
}

/** A note-on; velocity 0 is an end and never one. */
export interface MidiNote {
  readonly tick: number;
  readonly atMs: Ms;
  readonly channel: number;
  readonly note: number;
  readonly velocity: Velocity;
  /** Undefined where the file never ends it. */
  readonly lengthTicks: number | undefined;
}

export interface TickText {
  readonly tick: number;
  readonly text: string;
}

export interface MidiTrack {
  readonly name: string | undefined;
  readonly port: string | undefined;
  readonly texts: readonly TickText[];
  readonly lyrics: readonly TickText[];
  /** In order of time. */
  readonly notes: readonly MidiNote[];
}

/** What a Standard MIDI File of format 0 or 1 holds. */
export interface MidiContents {
  readonly format: 0 | 1;
  readonly ticksPerQuarter: number;
  /** The first one is at tick 0: 120 bpm where the file says nothing. */
  readonly tempos: readonly TempoPoint[];
  readonly meters: readonly Meter[];
  readonly tracks: readonly MidiTrack[];
}
