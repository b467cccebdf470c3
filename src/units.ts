import { log10, power } from './exact';
/**
 * Units as types. A plain number may become any of them, but one unit never passes for another:
 * handing a `Ms` to something that wants `Db` is a type error.
 */
declare const unit: unique symbol;
type Unit<Name extends string> = number & { readonly [unit]?: Name };

/** Milliseconds on one monotonic clock. Negative differences are early. */
export type Ms = Unit<'ms'>;
/** Beats a minute. */
export type Bpm = Unit<'bpm'>;
/** Decibels: a level is dB re velocity 127, a difference of levels is dB. */
export type Db = Unit<'dB'>;
/** MIDI note-on velocity, an integer 1–127. */
export type Velocity = Unit<'velocity'>;
/** Seconds on an audio clock. */
export type AudioSeconds = Unit<'audio s'>;

const MS_A_MINUTE = 60_000;

/**
 * Level of a velocity in dB re velocity 127: `40·log10(v / 127)`.
 * Source: the recommended velocity response of General MIDI 2, DLS and SoundFont 2 (8.4.1).
 * It is what the module reports, not sound pressure.
 * @example levelDb(127) // => 0
 * @example levelDb(64) // => -11.905
 */
export function levelDb(velocity: Velocity): Db {
  return 40 * log10(velocity / 127);
}

/**
 * The velocity, not rounded, whose level is `level`. Inverse of {@link levelDb}.
 * @example velocityOfLevel(0) // => 127
 */
export function velocityOfLevel(level: Db): number {
  return 127 * power(10, level / 40);
}

/**
 * Length of a beat in ms.
 * @example beatMs(120) // => 500
 */
export function beatMs(bpm: Bpm): Ms {
  return MS_A_MINUTE / bpm;
}

/**
 * Length of one of `partials` equal parts of a beat, in ms.
 * @example partialMs(120, 4) // => 125
 */
export function partialMs(bpm: Bpm, partials: number): Ms {
  return beatMs(bpm) / partials;
}

/** Tempo whose beat lasts `beat` ms. */
export function bpmOfBeat(beat: Ms): Bpm {
  return MS_A_MINUTE / beat;
}
