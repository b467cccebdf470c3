import { InputError } from '../errors';
import type { Db } from '../units';

/** What a click is in its bar. */
export type ClickVoice = 'downbeat' | 'beat' | 'subdivision';

/** How one voice sounds. */
export interface VoiceSound {
  /** dB re the loudest click; −40 to 0. Null is silent. */
  readonly levelDb: Db | null;
  /** Pitch on this computer, 200–4000 Hz. */
  readonly hz: number;
  /** Note on a MIDI output, 0–127. */
  readonly note: number;
}

/** Bars in which the click is silent. `steady`: `on` bars with, `off` without. `thinning`: `on` bars with, 1 without, `on` with, 2 without … up to `most`. */
export type BareBars =
  | { readonly kind: 'steady'; readonly on: number; readonly off: number }
  | { readonly kind: 'thinning'; readonly on: number; readonly most: number };

/** Which partials click, how they sound, and which bars are bare. */
export interface ClickPlan {
  /** `backbeats`: 2 and 4, each second beat. A list has beats of the bar, from 0. */
  readonly beats: 'every' | 'first' | 'backbeats' | readonly number[];
  /** Partials of those beats, from 0, where 0 is the beat itself: [1] is only the *e* of four. */
  readonly partials: readonly number[];
  readonly voices: Readonly<Record<ClickVoice, VoiceSound>>;
  readonly bare: BareBars | null;
}

/** Every beat, the bar's first higher and louder. Pitches clear of a drum's own, note 37 the General MIDI side stick. */
export const plainClick: ClickPlan = {
  beats: 'every',
  partials: [0],
  voices: {
    downbeat: { levelDb: 0, hz: 1760, note: 37 },
    beat: { levelDb: -6, hz: 1175, note: 37 },
    subdivision: { levelDb: -12, hz: 880, note: 37 },
  },
  bare: null,
};

const QUIETEST_DB: Db = -40;
export const LOWEST_HZ = 200;
export const HIGHEST_HZ = 4000;
export const MOST_BARE_BARS = 64;
const MOST_BEATS = 16;

/** Whether a place of a bar clicks. @param beat from 0; @param partial within the beat, from 0 */
export function clicksAt({ beats, partials }: ClickPlan, beat: number, partial: number): boolean {
  if (!partials.includes(partial)) return false;
  switch (beats) {
    case 'every':
      return true;
    case 'first':
      return beat === 0;
    case 'backbeats':
      return beat % 2 === 1;
    default:
      return beats.includes(beat);
  }
}

/** The voice of a place of a bar: its first partial, the first of a beat, or another. */
export function voiceAt(beat: number, partial: number): ClickVoice {
  if (partial > 0) return 'subdivision';
  return beat === 0 ? 'downbeat' : 'beat';
}

/**
 * Which bars of a take are bare, in order. Only bars to play count and can be bare: who listens or counts aloud hears the click.
 * @example bareBars({ kind: 'steady', on: 2, off: 1 }, ['play', 'play', 'play', 'play']) // => [false, false, true, false]
 * @example bareBars({ kind: 'thinning', on: 1, most: 2 }, ['play', 'play', 'play', 'play', 'play', 'play']) // => [false, true, false, true, true, false]
 */
export function bareBars(
  bare: BareBars | null,
  roles: readonly ('play' | 'listen' | 'say')[],
): readonly boolean[] {
  if (bare === null) return roles.map(() => false);
  let left = bare.on;
  let isBare = false;
  let off = bare.kind === 'steady' ? bare.off : 1;
  return roles.map((role) => {
    if (role !== 'play') return false;
    if (left === 0) {
      if (isBare && bare.kind === 'thinning') off = Math.min(bare.most, off + 1);
      isBare = !isBare;
      left = isBare ? off : bare.on;
    }
    left -= 1;
    return isBare;
  });
}

/**
 * A plan with some of it changed.
 * @throws InputError for a number out of its range, or no partial that clicks
 */
export function changedClick(plan: ClickPlan, change: Partial<ClickPlan>): ClickPlan {
  const next = { ...plan, ...change };
  if (next.partials.length === 0) throw new InputError('Click', 'must sound on one partial at least');
  if (typeof next.beats !== 'string') {
    if (next.beats.length === 0) throw new InputError('Click', 'must sound on one beat at least');
    next.beats.forEach((beat) => whole('Beat of the click', beat + 1, 1, MOST_BEATS));
  }
  for (const { levelDb, hz, note } of Object.values(next.voices)) {
    if (levelDb !== null) between('Level of the click', levelDb, QUIETEST_DB, 0, 'dB');
    between('Pitch of the click', hz, LOWEST_HZ, HIGHEST_HZ, 'Hz');
    whole('Note of the click', note, 0, 127);
  }
  if (next.bare !== null) {
    whole('Bars with the click', next.bare.on, 1, MOST_BARE_BARS);
    whole('Bare bars', next.bare.kind === 'steady' ? next.bare.off : next.bare.most, 1, MOST_BARE_BARS);
  }
  return next;
}

function between(place: string, value: number, least: number, most: number, unit: string): void {
  if (!(value >= least && value <= most)) {
    throw new InputError(place, `must be from ${least} to ${most} ${unit}`, value);
  }
}

function whole(place: string, value: number, least: number, most: number): void {
  if (!Number.isInteger(value) || value < least || value > most) {
    throw new InputError(place, `must be a whole number from ${least} to ${most}`, value);
  }
}
