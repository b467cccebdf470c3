import type { Observable } from 'rxjs';
import type { Stroke, RawHit } from '../stroke';
import type { Ms } from '../units';

/** A message as it came in. */
export interface RawMessage {
  readonly atMs: Ms;
  readonly port: string;
  readonly bytes: ArrayLike<number>;
}

/** What conditioning makes of a raw hit. `zone`: the softer of two notes of one surface within 10 ms. */
export type Label = 'stroke' | 'zone' | 'forerunner' | 'crosstalk' | 'unmapped';

/** Hits conditioned: a label a hit, and the strokes in time order (echo-like ones among them, marked). */
export interface Conditioned {
  readonly labels: readonly Label[];
  readonly strokes: readonly Stroke[];
}

/** An input or output by name. */
export interface Port {
  readonly id: string;
  readonly name: string;
  readonly connected: boolean;
}

/** Whether MIDI is there, and if not why. */
export type MidiStatus =
  | { readonly kind: 'off' }
  | { readonly kind: 'asking' }
  | { readonly kind: 'on'; readonly inputs: readonly Port[]; readonly outputs: readonly Port[] }
  | { readonly kind: 'failed'; readonly reason: 'unsupported' | 'insecure' | 'refused' | 'busy' };

/** The gateway to MIDI. `src/midi/web-midi.ts` is the one there is. */
export interface MidiGateway {
  /** Replays its latest value; completes never. */
  readonly status$: Observable<MidiStatus>;
  /** Note-ons of every input, as they come; velocity 0 is never among them. */
  readonly hits$: Observable<RawHit>;
  /** Every message of every input, before the hit that it may be: for the monitor. */
  readonly messages$: Observable<RawMessage>;
  /** Asks for permission (never sysex). Failures arrive as a status, not as a rejection. May be called again. */
  connect(): Promise<void>;
  /** A note on an output, `atMs` on the performance clock. Unknown or gone outputs are ignored. */
  send(output: string, channel: number, note: number, velocity: number, atMs: Ms): void;
}
