import type { Hand } from '../stroke';
import type { Bpm, Db, Ms } from '../units';

/** Accent, tap, or ghost note; taps and ghosts together are *soft strokes*. */
export type Kind = 'accent' | 'tap' | 'ghost';

/** Full: accent to accent. Down: accent to soft. Tap: soft to soft. Up: soft to accent. */
export type StrokeType = 'full' | 'down' | 'tap' | 'up';

/** One note of a partial. */
export interface Note {
  readonly hand: Hand;
  readonly kind: Kind;
}

/** One partial: no note is a rest, one a stroke, two a unison; graces come before the note, in order. */
export interface PartialNotes {
  readonly notes: readonly Note[];
  readonly graces: readonly Hand[];
}

/** A bar as sticking text says it, in partials. */
export type Sticking = readonly PartialNotes[];

/** A bar of a phrase as a file holds it. Unknown keys are kept by the reader of takes. */
export interface PhraseBar {
  readonly variation: string;
  readonly sticking: string;
  readonly beatsPerBar?: number;
  readonly partialsPerBeat?: number | readonly number[];
  readonly role?: 'listen' | 'say' | 'play';
  readonly dyn?: string;
}

/** Variations strung together; `bars` are one cycle. */
export interface Phrase {
  readonly title: string;
  readonly beatsPerBar: number;
  readonly partialsPerBeat: number | readonly number[];
  readonly cycles: number;
  readonly bars: readonly PhraseBar[];
  /** 0.50–0.70: where the second of two partials falls; 0.5 is straight. */
  readonly swing?: number;
  readonly feet?: string;
  readonly voicing?: Readonly<Record<string, string>>;
}

/** A steady tempo, or one that is straight in ms a beat between its points. Bars count from 0 over the take. */
export type Tempo =
  { readonly bpm: Bpm } | { readonly ramp: readonly { readonly bar: number; readonly bpm: Bpm }[] };

/** One place in time in the target grid where a stroke is due. */
export interface Slot {
  /** Index in the grid, from 0 over the whole take. */
  readonly index: number;
  /** Bar of the take, from 0. */
  readonly bar: number;
  /** Bar of the cycle, from 0. */
  readonly barInCycle: number;
  readonly cycle: number;
  readonly variation: string;
  /** Count of slots before it in its bar. */
  readonly slot: number;
  /** Partial of the bar it stands on (rests count). */
  readonly partial: number;
  /** Beat of the bar, from 0, and partial within that beat, from 0. */
  readonly beat: number;
  readonly partialInBeat: number;
  /** Position in the pattern: the shortest period of the bar that repeats hands, kinds, graces, rests. */
  readonly place: number;
  /** Partials in that pattern. */
  readonly patternLength: number;
  readonly atMs: Ms;
  /** Distance to the nearer neighbouring slot at another time. */
  readonly gapMs: Ms;
  readonly hand: Hand;
  readonly kind: Kind;
  readonly type: StrokeType;
  /** Hands of the grace notes before it, in order; empty for none. */
  readonly graces: readonly Hand[];
  /** Slots due at its time: 1, or 2 for both notes of a unison, which follow each other, R first. */
  readonly together: 1 | 2;
  /** Name of the surface the voicing sends it to; null where it leaves that to the player. */
  readonly surface: string | null;
  /** What the bar's dyn line takes off its level, dB re f: 0 or less, 0 without such a line. */
  readonly shiftDb: Db;
}

/** One place in time where a foot is due. Feet are a voice of their own and never among the hands' slots. */
export interface FootSlot {
  /** Index among the grid's feet. */
  readonly index: number;
  readonly bar: number;
  readonly partial: number;
  readonly beat: number;
  readonly atMs: Ms;
  /** Distance to the nearer neighbouring slot of the same foot, a beat at most. */
  readonly gapMs: Ms;
  readonly foot: Foot;
  readonly soft: boolean;
}

/** The bass drum's foot, the hi-hat's foot. */
export type Foot = 'K' | 'H';

/** A bar of the grid; bars with only rests have one too, and so have bars in which nothing is due. */
export interface GridBar {
  readonly index: number;
  readonly barInCycle: number;
  readonly cycle: number;
  readonly variation: string;
  readonly startMs: Ms;
  readonly endMs: Ms;
  readonly beats: number;
  /** Start time of every beat. */
  readonly beatsMs: readonly Ms[];
  /** Index of its first slot in the grid, and how many it has. */
  readonly firstSlot: number;
  readonly slots: number;
  readonly partialsPerBeat: readonly number[];
  /** To play; or to listen to, or to count aloud: then it has no slots, and strokes in it are not judged. */
  readonly role: 'play' | 'listen' | 'say';
  /** The bar's dynamics as they are written, a token a beat; left out where there are none. */
  readonly dyn?: string;
}

/** Phrase, tempo and downbeat as times: what is due when. */
export interface Grid {
  readonly slots: readonly Slot[];
  readonly bars: readonly GridBar[];
  /** Bars in one cycle. */
  readonly barsPerCycle: number;
  readonly slotsPerCycle: number;
  /** Slots of the feet over the whole take, in time order; empty without a feet line. */
  readonly feet: readonly FootSlot[];
  /** Where the second of two partials falls: 0.5 is straight. */
  readonly swing: number;
  /** The smallest distance between two slots at different times. */
  readonly smallestGapMs: Ms;
  /** True where all gaps are the same (to 1e-6 ms). */
  readonly regular: boolean;
}
