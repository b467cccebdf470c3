import { dynamicsOf } from '../exercises/dynamics';
import { parseFeet } from '../exercises/feet';
import { shareOfBeat } from '../exercises/grid';
import { barSticking, partialsOfBeats } from '../exercises/phrase';
import { beatLengthMs } from '../exercises/tempo';
import type { Kind, Note, Phrase, PhraseBar, Tempo } from '../exercises/types';
import { surfaceOfNote } from '../exercises/voicings';
import type { Hand } from '../stroke';
import type { Db, Ms } from '../units';

/** What is to be heard of a phrase. */
export interface HearChoice {
  /** One hand alone leaves the feet out too. */
  readonly hand: 'both' | Hand;
  readonly speed: 'full' | 'half';
  /** Bar of the cycle it starts from, from 0. Default: the first. */
  readonly fromBar?: number;
  /** Times round; the first is shorter where it starts later. Default: the phrase's cycles. */
  readonly cycles?: number;
  /** Only the bars to listen to, each in its place: the call of a call and response. Default: all that sounds. */
  readonly only?: 'listen';
}

/** One note to sound: of a hand (R, L), or of the bass drum's or hi-hat's foot. */
export interface HeardNote {
  /** From the first beat; a grace before it is negative. */
  readonly atMs: Ms;
  readonly by: Hand | 'K' | 'H';
  /** dB re velocity 127. */
  readonly levelDb: Db;
  /** Name of the surface the voicing sends it to; left out where it leaves that open. */
  readonly surface?: string;
}

/** A phrase as sound: its notes in time order. */
export interface Heard {
  readonly notes: readonly HeardNote[];
  readonly lengthMs: Ms;
}

/** Where accents, taps and ghosts stand as they should sound; common practice, no source. */
const LEVEL_DB: Readonly<Record<Kind | 'grace', Db>> = { accent: -4, tap: -20, ghost: -26, grace: -26 };
const FOOT_DB: Db = -8;
const SOFT_FOOT_DB: Db = -20;
/** A flam's grace is this far ahead of its stroke, and each of a drag's of the next: the ideal that flams are graded by. */
const GRACE_MS: Ms = 30;
const STRAIGHT = 0.5;

/**
 * A phrase as notes with times and levels, moved by its dynamics. Bars to be counted aloud are silent, bars to listen to
 * sound like the rest.
 * Graces keep their distance in ms at any tempo, but never take more than their share of the partial before.
 * @throws InputError for sticking, dynamics or feet that don't parse
 */
export function heard(phrase: Phrase, tempo: Tempo, choice: HearChoice): Heard {
  const bars = phrase.bars.map((bar, index) => soundingBar(phrase, bar, index));
  const feet = phrase.feet === undefined || choice.hand !== 'both' ? [] : parseFeet(phrase.feet);
  const slower = choice.speed === 'half' ? 2 : 1;
  const notes: HeardNote[] = [];
  let startMs: Ms = 0;
  let partial = 0;
  const last = bars.length * (choice.cycles ?? phrase.cycles);
  for (let index = 0; index < last; index += 1) {
    const bar = bars[index % bars.length];
    if (index < (choice.fromBar ?? 0)) {
      partial += bar.partials.length;
      continue;
    }
    for (const [beat, partials] of bar.beats.entries()) {
      const beatMs = slower * beatLengthMs(tempo, index + beat / bar.beats.length);
      for (let inBeat = 0; inBeat < partials; inBeat += 1, partial += 1) {
        const share = shareOfBeat(inBeat, partials, phrase.swing ?? STRAIGHT);
        const atMs = startMs + share * beatMs;
        if (bar.role === 'say' || (choice.only === 'listen' && bar.role !== 'listen')) continue;
        const { notes: struck, graces } = bar.partials[bar.firstOf[beat] + inBeat];
        const shiftDb = bar.shiftAt(beat + share);
        const leadMs = Math.min(GRACE_MS, beatMs / partials / (graces.length + 1));
        graces.forEach((by, grace) =>
          notes.push({
            atMs: atMs - (graces.length - grace) * leadMs,
            by,
            levelDb: LEVEL_DB.grace + shiftDb,
            ...on(phrase, { hand: by, kind: 'tap' }),
          }),
        );
        for (const note of struck) {
          notes.push({ atMs, by: note.hand, levelDb: LEVEL_DB[note.kind] + shiftDb, ...on(phrase, note) });
        }
        for (const { foot, soft } of feet[partial % feet.length] ?? []) {
          notes.push({ atMs, by: foot, levelDb: soft ? SOFT_FOOT_DB : FOOT_DB });
        }
      }
      startMs += beatMs;
    }
  }
  const alone = choice.hand === 'both' ? notes : notes.filter(({ by }) => by === choice.hand);
  return { notes: alone.toSorted((a, b) => a.atMs - b.atMs), lengthMs: startMs };
}

function soundingBar(phrase: Phrase, bar: PhraseBar, index: number) {
  const beats = partialsOfBeats(phrase, bar);
  let first = 0;
  return {
    beats,
    firstOf: beats.map((partials) => (first += partials) - partials),
    partials: barSticking(phrase, index),
    role: bar.role ?? 'play',
    shiftAt: dynamicsOf(phrase, index),
  };
}

function on({ voicing = {} }: Phrase, note: Note): { readonly surface?: string } {
  const surface = surfaceOfNote(voicing, note);
  return surface === undefined ? {} : { surface };
}
