import type { FootStroke } from '../../exercises/feet';
import type { Kind, PartialNotes, Phrase } from '../../exercises/types';
import { beamsOf, beatNotes, type Beam, type BeatNote } from '../../exercises/beat';
import type { NoteValue } from '../../exercises/rhythm';
import { placeOfFoot, placeOfNote, type Place } from './staff';
import { element, textElement, type Element } from '../xml';

/** One head of a note or chord, before it is written. */
interface Head {
  readonly place: Place;
  readonly kind: Kind;
}

/** What stands on a partial in one voice. */
interface Onset {
  readonly heads: readonly Head[];
  /** Sticking under it; undefined for feet. */
  readonly letters: string | undefined;
  readonly graces: readonly { readonly place: Place; readonly letter: string }[];
}

type Voice = 1 | 2;

/** Notes and rests of a beat of the hands: voice 1, stems up. */
export function handsBeat(phrase: Phrase, partials: readonly PartialNotes[], divisions: number): Element[] {
  const onsets = partials.map(({ notes, graces }): Onset => ({
    heads: headsOf(notes.map((note) => ({ place: placeOfNote(phrase, note), kind: note.kind }))),
    letters: notes.map(({ hand }) => hand).join(''),
    graces: graces.map((hand) => ({
      place: placeOfNote(phrase, { hand, kind: 'tap' }),
      letter: hand.toLowerCase(),
    })),
  }));
  return beatOf(onsets, 1, divisions);
}

/** Two hands together on one place are one head, the louder of the two. */
function headsOf(heads: readonly Head[]): readonly Head[] {
  const [first, second] = heads;
  if (second === undefined || first.place.note !== second.place.note) return heads;
  return [[first, second].find(({ kind }) => kind === 'accent') ?? first];
}

/** Notes and rests of a beat of the feet: voice 2, stems down. Soft strokes of the feet look like the others. */
export function feetBeat(partials: readonly (readonly FootStroke[])[], divisions: number): Element[] {
  const onsets = partials.map((strokes): Onset => ({
    heads: strokes.map((stroke) => ({ place: placeOfFoot(stroke), kind: 'tap' })),
    letters: undefined,
    graces: [],
  }));
  return beatOf(onsets, 2, divisions);
}

function beatOf(onsets: readonly Onset[], voice: Voice, divisions: number): Element[] {
  const beat = beatNotes(onsets.map(({ heads }) => heads.length > 0));
  const beams = beamsOf(beat);
  return beat.flatMap((written, index) => {
    const { heads, letters, graces } = onsets[written.partial];
    const duration = textElement('duration', (divisions * written.length) / onsets.length);
    const bracket = bracketOf(written);
    if (written.rest) {
      return [
        element(
          'note',
          {},
          element('rest', {}),
          duration,
          ...valueOf(written, voice),
          bracket === undefined ? undefined : element('notations', {}, bracket),
        ),
      ];
    }
    const main = heads.map((head, at) =>
      element(
        'note',
        {},
        at > 0 ? element('chord', {}) : undefined,
        unpitched(head.place),
        duration,
        instrument(head.place),
        ...valueOf(written, voice),
        stem(voice),
        noteHead(head),
        ...(at === 0 ? beamElements(beams[index]) : []),
        notations(at === 0 ? bracket : undefined, head.kind),
        at === 0 ? lyric(letters) : undefined,
      ),
    );
    return [...graceNotes(graces), ...main];
  });
}

/** Grace notes, one an eighth, two sixteenths under a beam; each with its slash. */
function graceNotes(graces: Onset['graces']): Element[] {
  const many = graces.length > 1;
  return graces.map(({ place, letter }, index) => {
    const beam: Beam = index === 0 ? 'begin' : index === graces.length - 1 ? 'end' : 'continue';
    return element(
      'note',
      {},
      element('grace', { slash: 'yes' }),
      unpitched(place),
      instrument(place),
      textElement('voice', 1),
      textElement('type', many ? '16th' : 'eighth'),
      stem(1),
      noteHead({ place, kind: 'tap' }),
      ...(many ? beamElements([beam, beam]) : []),
      lyric(letter),
    );
  });
}

/** Names of note values in MusicXML. */
const TYPES: Readonly<Record<NoteValue, string>> = {
  4: 'quarter',
  8: 'eighth',
  16: '16th',
  32: '32nd',
  64: '64th',
};

/** Voice, note value, dot and time modification: they stand together. */
function valueOf({ value, dotted, tuplet }: BeatNote, voice: Voice): Element[] {
  const written = [
    textElement('voice', voice),
    textElement('type', TYPES[value]),
    ...(dotted ? [element('dot', {})] : []),
  ];
  if (tuplet === undefined) return written;
  const modification = element(
    'time-modification',
    {},
    textElement('actual-notes', tuplet.number),
    textElement('normal-notes', tuplet.inSpaceOf),
  );
  return [...written, modification];
}

function bracketOf({ tuplet }: BeatNote): Element | undefined {
  if (tuplet?.opens === true) return element('tuplet', { type: 'start', number: '1', bracket: 'yes' });
  return tuplet?.closes === true ? element('tuplet', { type: 'stop', number: '1' }) : undefined;
}

function notations(bracket: Element | undefined, kind: Kind): Element | undefined {
  const accent =
    kind === 'accent' ? element('articulations', {}, element('accent', { placement: 'above' })) : undefined;
  return bracket === undefined && accent === undefined
    ? undefined
    : element('notations', {}, bracket, accent);
}

function noteHead({ place, kind }: Head): Element | undefined {
  if (kind === 'ghost') return textElement('notehead', place.head, { parentheses: 'yes' });
  return place.head === 'normal' ? undefined : textElement('notehead', place.head);
}

const unpitched = ({ step, octave }: Place): Element =>
  element('unpitched', {}, textElement('display-step', step), textElement('display-octave', octave));

const instrument = (place: Place): Element => element('instrument', { id: instrumentId(place) });

/** Id of a place's instrument in the part list. */
export const instrumentId = ({ note }: Place): string => `P1-N${note}`;

const stem = (voice: Voice): Element => textElement('stem', voice === 1 ? 'up' : 'down');

const beamElements = (beams: readonly Beam[]): Element[] =>
  beams.map((beam, level) => textElement('beam', beam, { number: String(level + 1) }));

const lyric = (letters: string | undefined): Element | undefined =>
  letters === undefined
    ? undefined
    : element('lyric', { number: '1' }, textElement('syllabic', 'single'), textElement('text', letters));
