import { InputError } from '../../errors';
import { barSticking, partialsOfBeats, phraseFromText } from '../../exercises/phrase';
import { parseSticking } from '../../exercises/sticking';
import { beatLengthMs, checkedBpm } from '../../exercises/tempo';
import type { Phrase, Tempo } from '../../exercises/types';
import { takeFrom } from '../../sessions/take';
import type { Rig, Take } from '../../sessions/types';
import type { RawHit } from '../../stroke';
import { beatMs, type Bpm, type Ms } from '../../units';
import { carriedBy } from './carried';
import { surfacesOf, type ChosenNotes } from './imported-rig';
import { msAtTick } from './ticks';
import type { MidiContents, MidiNote } from './types';

/**
 * What the user says of a MIDI file. A file that carries its phrase needs none of it; a foreign one needs `bpm` and
 * either `phrase` or `sticking` with `partialsPerBeat`. What is said goes before what the file carries.
 */
export interface MidiImport extends ChosenNotes {
  readonly fileName: string;
  readonly phrase?: Phrase;
  readonly bpm?: Bpm;
  readonly sticking?: string;
  readonly partialsPerBeat?: number;
  /** True where there was no click: then nobody need say the tempo, and the downbeat is told from the strokes. */
  readonly free?: boolean;
  /** ISO 8601; a file does not say when it was played. Default: the first second of 1970. */
  readonly recordedAt?: string;
}

const HOUR_MS: Ms = 3_600_000;
const MOST_HOURS = 12;
const UNKNOWN_DATE = '1970-01-01T00:00:00.000Z';
const PORT = 'MIDI file';
/** What stands where a tempo must stand and nobody said one. */
const FREE_BPM: Bpm = 84;
/** A file whose tempo is this near to the user's was recorded against its own bars. */
const SAME_TEMPO = 0.005;

/**
 * A take from what a MIDI file holds.
 *
 * A file of ours gives back its take, hits within half a tick. In a file that carries a phrase alone the strokes are those
 * of its other tracks, or the target's own where there are no others. The downbeat is where the text that carries it
 * stands.
 * A foreign file's downbeat is the bar line that the first stroke stands on, or after, where the file's own tempo is the user's, else the
 * first stroke itself: the alignment's offset takes up the rest.
 * @throws InputError where phrase or tempo is wanting, or there are fewer than two strokes, or over twelve hours of them
 */
export function importedTake(contents: MidiContents, how: MidiImport, id: string): Take {
  const given = givenPhrase(how);
  const found = carriedBy(contents);
  if (given === undefined && found?.carried.kind === 'take') {
    const { clockMs, take } = found.carried;
    const shiftMs = clockMs - timeOf(contents, found.tick);
    const played = contents.tracks.filter((_, index) => index !== found.track);
    const hits = withinHours(hitsOf(played)).map((hit) => ({ ...hit, atMs: hit.atMs + shiftMs }));
    return takeFrom({ ...take, hits });
  }
  const others = contents.tracks.filter((track, index) => index !== found?.track && track.notes.length > 0);
  const hits = withinHours(
    chosen(hitsOf(found !== undefined && others.length > 0 ? others : contents.tracks), how),
  );
  if (hits.length < 2) {
    throw new InputError('hits', `must have at least 2 strokes to be a take, got ${hits.length}`);
  }
  const wanted = given ?? (found?.carried.kind === 'phrase' ? found.carried : undefined);
  if (wanted === undefined) {
    throw new InputError(
      'phrase',
      'is wanting: the file does not carry one; say which it is, and its tempo',
      undefined,
      '--phrase NAME --bpm N, or --sticking TEXT --partials N --bpm N',
    );
  }
  const { phrase, tempo } = wanted;
  const firstMs =
    found === undefined ? foreignDownbeat(contents, hits, phrase, tempo) : timeOf(contents, found.tick);
  return takeFrom({
    format: 'evenhand-take',
    version: 1,
    id,
    player: '',
    recordedAt: how.recordedAt ?? UNKNOWN_DATE,
    source: 'imported',
    phrase:
      how.sticking === undefined
        ? phrase
        : { ...phrase, cycles: how.free === true ? 1 : cyclesIn(hits, firstMs, phrase, tempo) },
    tempo,
    click: how.free === true ? 'none' : 'on',
    limits: 'working',
    settings: {},
    rig: rigOf(hits, how),
    downbeatMs: how.free === true ? null : firstMs,
    hits,
    notes: `Imported from ${how.fileName}.`,
  });
}

function givenPhrase(how: MidiImport): { phrase: Phrase; tempo: Tempo } | undefined {
  const phrase = how.phrase ?? typedPhrase(how);
  if (phrase === undefined) return undefined;
  // In free time the tempo only says how long notes are meant to be; the strokes tell what it was.
  if (how.bpm === undefined && how.free === true) return { phrase, tempo: { bpm: FREE_BPM } };
  if (how.bpm === undefined) {
    throw new InputError('bpm', 'is wanting: say the tempo it was played at', undefined, '--bpm N');
  }
  return { phrase, tempo: { bpm: checkedBpm(how.bpm, 'bpm') } };
}

function typedPhrase({ sticking, partialsPerBeat }: MidiImport): Phrase | undefined {
  if (sticking === undefined) return undefined;
  if (
    partialsPerBeat === undefined ||
    !(partialsPerBeat >= 1 && partialsPerBeat <= 16 && Number.isInteger(partialsPerBeat))
  ) {
    throw new InputError('partials', 'must be how many partials a beat has, 1 to 16', partialsPerBeat);
  }
  const [first] = parseSticking(sticking);
  const beatsPerBar = first.length / partialsPerBeat;
  if (!Number.isInteger(beatsPerBar) || beatsPerBar > 16) {
    const rule = `must fill 1 to 16 beats of ${partialsPerBeat} partials: it has ${first.length} partials a bar`;
    throw new InputError('sticking', rule);
  }
  return phraseFromText(sticking, { beatsPerBar, partialsPerBeat, cycles: 1 });
}

/** Note-ons as hits, in order of time. */
function hitsOf(tracks: MidiContents['tracks']): RawHit[] {
  const hitOf = (note: MidiNote, port: string): RawHit => ({
    atMs: note.atMs,
    port,
    channel: note.channel,
    note: note.note,
    velocity: note.velocity,
  });
  return tracks
    .flatMap((track) => track.notes.map((note) => hitOf(note, track.port ?? PORT)))
    .sort((a, b) => a.atMs - b.atMs);
}

/** Only the notes the user chose, where any were. */
function chosen(hits: readonly RawHit[], { notes, right, left }: ChosenNotes): readonly RawHit[] {
  if (notes === undefined && right === undefined && left === undefined) return hits;
  const wanted = new Set([...(notes ?? []), ...(right ?? []), ...(left ?? [])]);
  return hits.filter((hit) => wanted.has(hit.note));
}

function rigOf(hits: readonly RawHit[], notes: ChosenNotes): Rig {
  return { levelLaw: 'gm2', inputDelayMs: 0, outputDelayMs: 0, surfaces: surfacesOf(hits, notes) };
}

function foreignDownbeat(contents: MidiContents, hits: readonly RawHit[], phrase: Phrase, tempo: Tempo): Ms {
  const { first, beats } = firstStrokeBeats(phrase);
  const guessMs = hits[0].atMs - first * beatLengthMs(tempo, 0);
  const bpm = 'bpm' in tempo ? tempo.bpm : tempo.ramp[0].bpm;
  const [{ usPerQuarter }] = contents.tempos;
  const fileBeatMs = usPerQuarter / 1000;
  if (Math.abs(fileBeatMs / beatMs(bpm) - 1) > SAME_TEMPO) return guessMs;
  const meter = contents.meters.at(0);
  const barMs = fileBeatMs * (meter === undefined ? beats : (meter.beats * 4) / meter.unit);
  const early = fileBeatMs * EARLY_BEATS;
  return Math.max(0, Math.floor((guessMs + early) / barMs)) * barMs;
}

/** A first stroke this far before a bar line belongs to it; common practice, no source. */
const EARLY_BEATS = 0.25;

/** Beats from the downbeat to the first stroke of a phrase, and the beats of its first bar. */
function firstStrokeBeats(phrase: Phrase): { first: number; beats: number } {
  const partialsPerBeat = partialsOfBeats(phrase, phrase.bars[0]);
  const at = barSticking(phrase, 0).findIndex(({ notes }) => notes.length > 0);
  let left = Math.max(0, at);
  let first = 0;
  for (const partials of partialsPerBeat) {
    if (left < partials) return { first: first + left / partials, beats: partialsPerBeat.length };
    left -= partials;
    first += 1;
  }
  return { first: 0, beats: partialsPerBeat.length };
}

/** Cycles begun from the downbeat to the last stroke. */
function cyclesIn(hits: readonly RawHit[], downbeatMs: Ms, phrase: Phrase, tempo: Tempo): number {
  const beats = phrase.bars.reduce((sum, bar) => sum + partialsOfBeats(phrase, bar).length, 0);
  const cycleMs = beats * beatLengthMs(tempo, 0);
  return Math.max(1, Math.round((hits[hits.length - 1].atMs - downbeatMs) / cycleMs));
}

const timeOf = ({ tempos, ticksPerQuarter }: MidiContents, tick: number): Ms =>
  msAtTick(tempos, ticksPerQuarter, tick);

/** Strokes that go on for days are a file gone wrong, and their grid would have no end. */
function withinHours(hits: readonly RawHit[]): readonly RawHit[] {
  const lengthMs = hits.length === 0 ? 0 : hits[hits.length - 1].atMs;
  if (lengthMs > MOST_HOURS * HOUR_MS) {
    throw new InputError('hits', `must end within ${MOST_HOURS} hours`, `${Math.round(lengthMs)} ms`);
  }
  return hits;
}
