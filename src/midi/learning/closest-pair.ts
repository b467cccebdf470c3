import { distributionOf, median } from '../../grading/numbers/statistics';
import type { AfterAccent } from '../../sessions/learned';
import type { Rig, Surface } from '../../sessions/types';
import type { Settings } from '../../settings';
import type { Hand, RawHit, Stroke } from '../../stroke';
import type { Ms } from '../../units';
import { condition } from '../conditioning';
import { surfaceFinder } from '../rig';
import { burstsOf } from './bursts';

/** Ten tight flams, then ten accent–tap doubles of one hand, on one surface, half a second apart. */
export interface ClosestPairState {
  readonly surface: string;
  /** The hand that plays the doubles. */
  readonly hand: Hand;
  readonly flams: readonly RawHit[];
  readonly doubles: readonly RawHit[];
  /** Gestures begun so far: up to ten flams, then up to ten doubles. */
  readonly gestures: number;
  readonly lastAtMs: Ms | null;
}

/** Gestures of each sort. Our own choice, no source. */
const EACH = 10;
/** Gestures are parted by at least this much silence. */
const SILENCE_MS: Ms = 300;

export function closestPairAsked(surface: string, hand: Hand): ClosestPairState {
  return { surface, hand, flams: [], doubles: [], gestures: 0, lastAtMs: null };
}

/** One hit further. Hits on other surfaces, and after the tenth double, change nothing. */
export function nextPair(rig: Rig): (state: ClosestPairState, hit: RawHit) => ClosestPairState {
  const surfaceOf = surfaceFinder(rig);
  return (state, hit) => {
    if (surfaceOf(hit)?.id !== state.surface) return state;
    const isNew = state.lastAtMs === null || hit.atMs - state.lastAtMs >= SILENCE_MS;
    const gestures = state.gestures + (isNew ? 1 : 0);
    if (gestures > 2 * EACH) return state;
    const which = gestures <= EACH ? 'flams' : 'doubles';
    return { ...state, gestures, lastAtMs: hit.atMs, [which]: [...state[which], hit] };
  };
}

export const pairsAnswered = ({ gestures }: ClosestPairState): boolean => gestures >= 2 * EACH;

/** What a pad makes of two strokes close together. */
interface ClosestPair {
  /** Flams that arrived as two strokes, and as one. */
  readonly separate: number;
  readonly merged: number;
  /** The nearest two that arrived. Undefined where none did. */
  readonly closestPairMs: Ms | undefined;
  /** Doubles whose tap did not arrive. */
  readonly tapsLost: number;
  /** Undefined under four doubles, or where the rig has no low height of this hand to hold them against. */
  readonly afterAccent: AfterAccent | undefined;
}

const FEWEST = 4;

/**
 * What was found so far. A flam is told where two strokes stand after conditioning (so one tighter than the forerunner
 * window is not). The tap of a double is the last stroke of its gesture; a note in the echo window that the rig has
 * *learned* is none. The tap is held against the hand's low height: what differs is pad and hand together.
 */
export function closestPairFound(rig: Rig, settings: Settings, state: ClosestPairState): ClosestPair {
  const strokesOf = (hits: readonly RawHit[]): readonly (readonly Stroke[])[] =>
    burstsOf(hits, SILENCE_MS).map((burst) => condition(rig, settings, burst).strokes);
  const flams = strokesOf(state.flams);
  const gaps = flams.filter(({ length }) => length > 1).map((strokes) => gapOf(strokes));
  const surface = rig.surfaces.find(({ id }) => id === state.surface);
  const learnedEcho = surface?.echo !== undefined;
  const doubles = strokesOf(state.doubles).map((strokes) =>
    learnedEcho ? strokes.filter(({ echoLike }) => !echoLike) : strokes,
  );
  const whole = doubles.filter(({ length }) => length > 1);
  return {
    separate: gaps.length,
    merged: flams.length - gaps.length,
    closestPairMs: gaps.length === 0 ? undefined : Math.min(...gaps),
    tapsLost: doubles.length - whole.length,
    afterAccent: afterAccentOf(whole, surface, state.hand),
  };
}

/** The rig with what was found. */
export function rigWithClosestPair(rig: Rig, surface: string, found: ClosestPair): Rig {
  const { closestPairMs, afterAccent } = found;
  const learned = {
    ...(closestPairMs === undefined ? {} : { closestPairMs }),
    ...(afterAccent === undefined ? {} : { afterAccent }),
  };
  return {
    ...rig,
    surfaces: rig.surfaces.map((one) => (one.id === surface ? { ...one, ...learned } : one)),
  };
}

/**
 * What was found, in words.
 * @example closestPairWords({ separate: 7, merged: 3, closestPairMs: 14, tapsLost: 0, afterAccent: undefined })
 * // => ['3 of 10 flams arrived as one stroke. The closest pair that arrived is 14 ms apart; closer ones are not measured.']
 */
export function closestPairWords(found: ClosestPair): readonly string[] {
  const { separate, merged, closestPairMs, tapsLost, afterAccent } = found;
  const words: string[] = [];
  if (closestPairMs === undefined) {
    if (merged > 0) words.push('No flam arrived as two strokes: flams are not measured on this pad.');
  } else {
    const closest = `The closest pair that arrived is ${Math.round(closestPairMs)} ms apart; closer ones are not measured.`;
    words.push(
      merged === 0
        ? `Every flam arrived as two strokes. ${closest}`
        : `${merged} of ${separate + merged} flams arrived as one stroke. ${closest}`,
    );
  }
  if (tapsLost > 0) words.push(`${tapsLost} taps right after an accent did not arrive.`);
  if (afterAccent !== undefined) {
    const { db, withinMs } = afterAccent;
    words.push(
      `A tap within ${Math.round(withinMs)} ms after an accent reads ${Math.abs(db).toFixed(1)} dB ${db < 0 ? 'softer' : 'louder'} than a low stroke: pad and hand together, nobody can tell from MIDI which.`,
    );
  }
  return words;
}

const gapOf = (strokes: readonly Stroke[]): Ms => strokes[strokes.length - 1].atMs - strokes[0].atMs;

function afterAccentOf(
  doubles: readonly (readonly Stroke[])[],
  surface: Surface | undefined,
  hand: Hand,
): AfterAccent | undefined {
  const low = surface?.heights?.[hand]?.low.db;
  if (surface === undefined || low === undefined || doubles.length < FEWEST) return undefined;
  const taps = doubles.map((strokes) => strokes[strokes.length - 1].levelDb - surface.trimDb);
  const level = median(distributionOf(taps));
  if (level === undefined) return undefined;
  return { db: level - low, withinMs: Math.max(...doubles.map(gapOf)), n: doubles.length };
}
