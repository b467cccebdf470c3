import { InputError } from '../errors';
import { parseFeet, type FootStroke } from '../exercises/feet';
import { barSticking, partialsOfBeats } from '../exercises/phrase';
import type { PartialNotes, Phrase } from '../exercises/types';
import type { Bpm } from '../units';
import { feetBeat, handsBeat, instrumentId } from './musicxml/notes';
import { placeOfFoot, placeOfNote, type Place } from './musicxml/staff';
import { element, textElement, xmlOf, type Element } from './xml';

const DOCTYPE =
  '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">';
const DRUM_CHANNEL = 10;

/**
 * A phrase as MusicXML 4.0: one percussion staff, unpitched notes, accents, ghosts with their heads in brackets, graces
 * with a slash, tuplets with brackets, beams by beat, unisons as chords (or one head, where both hands meet), the sticking
 * as lyrics (graces in lower case), the feet as a second voice. One cycle with its repeat, or as many as the feet line takes to come round. A bar's name stands
 * over it, and *say* and *listen* where it is one; bars to say are empty. `dyn` lines are left out.
 * @param bpm writes the tempo over the first bar; left out, there is none
 * @throws InputError for a bar or a feet line that does not parse
 * Source of the content models: MusicXML 4.0 (W3C), from memory.
 */
export function musicXmlOf(phrase: Phrase, bpm?: Bpm): string {
  const bars = writtenBars(phrase);
  const divisions = bars
    .flatMap((bar) => bar.beats.map((beat) => beat.hands.length))
    .reduce((common, partials) => (common * partials) / divisor(common, partials), 1);
  const score = element(
    'score-partwise',
    { version: '4.0' },
    element('work', {}, textElement('work-title', phrase.title)),
    element('identification', {}, element('encoding', {}, textElement('software', 'Evenhand'))),
    partList(placesOf(phrase, bars)),
    element('part', { id: 'P1' }, ...bars.map((_, index) => measure(phrase, bars, index, divisions, bpm))),
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n${DOCTYPE}\n${xmlOf(score)}`;
}

interface WrittenBeat {
  readonly hands: readonly PartialNotes[];
  /** Undefined where the phrase has no feet. */
  readonly feet: readonly (readonly FootStroke[])[] | undefined;
}

interface WrittenBar {
  readonly words: string;
  readonly beats: readonly WrittenBeat[];
}

function writtenBars(phrase: Phrase): WrittenBar[] {
  const feet = phrase.feet === undefined ? undefined : feetOf(phrase.feet);
  const perCycle = phrase.bars.map((bar) => partialsOfBeats(phrase, bar)).flat();
  const partials = perCycle.reduce((sum, count) => sum + count, 0);
  const cycles = feet === undefined ? 1 : feet.length / divisor(feet.length, partials);
  let at = 0;
  return Array.from({ length: Math.min(cycles, phrase.cycles) }, () => phrase.bars)
    .flat()
    .map((bar, index) => {
      const sticking = barSticking(phrase, index % phrase.bars.length);
      let inBar = 0;
      const beats = partialsOfBeats(phrase, bar).map((count): WrittenBeat => {
        const hands = sticking
          .slice(inBar, inBar + count)
          .map((partial) => (bar.role === 'say' ? { notes: [], graces: [] } : partial));
        const under = feet && Array.from({ length: count }, (_, offset) => feet[(at + offset) % feet.length]);
        inBar += count;
        at += count;
        return { hands, feet: under };
      });
      const role = bar.role === undefined || bar.role === 'play' ? '' : `${bar.role}: `;
      return { words: `${role}${bar.variation}`, beats };
    });
}

function measure(
  phrase: Phrase,
  bars: readonly WrittenBar[],
  index: number,
  divisions: number,
  bpm: Bpm | undefined,
): Element {
  const { beats, words } = bars[index];
  const before = index === 0 ? undefined : bars[index - 1];
  const hasFeet = beats.some(({ feet }) => feet !== undefined);
  return element(
    'measure',
    { number: String(index + 1) },
    attributes(before, bars[index], divisions),
    index === 0 && bpm !== undefined ? tempoMark(bpm) : undefined,
    index === 0 && phrase.swing !== undefined ? wordsOver(`swing ${phrase.swing}`) : undefined,
    words === before?.words ? undefined : wordsOver(words),
    ...beats.flatMap(({ hands }) => handsBeat(phrase, hands, divisions)),
    ...(hasFeet
      ? [
          element('backup', {}, textElement('duration', divisions * beats.length)),
          ...beats.flatMap(({ feet }) => feetBeat(feet ?? [[]], divisions)),
        ]
      : []),
    index === bars.length - 1 ? lastBarline(phrase.cycles / (bars.length / phrase.bars.length)) : undefined,
  );
}

function attributes(before: WrittenBar | undefined, bar: WrittenBar, divisions: number): Element | undefined {
  const time = element('time', {}, textElement('beats', bar.beats.length), textElement('beat-type', 4));
  if (before === undefined) {
    const clef = element('clef', {}, textElement('sign', 'percussion'));
    return element('attributes', {}, textElement('divisions', divisions), time, clef);
  }
  return before.beats.length === bar.beats.length ? undefined : element('attributes', {}, time);
}

function tempoMark(bpm: Bpm): Element {
  const metronome = element(
    'metronome',
    {},
    textElement('beat-unit', 'quarter'),
    textElement('per-minute', bpm),
  );
  return element(
    'direction',
    { placement: 'above' },
    element('direction-type', {}, metronome),
    element('sound', { tempo: String(bpm) }),
  );
}

const wordsOver = (words: string): Element =>
  element('direction', { placement: 'above' }, element('direction-type', {}, textElement('words', words)));

/** The end of the last bar; with a repeat where the whole is played more than once. */
function lastBarline(times: number): Element {
  const repeat =
    times > 1 && Number.isInteger(times)
      ? element('repeat', { direction: 'backward', times: String(times) })
      : undefined;
  return element('barline', { location: 'right' }, textElement('bar-style', 'light-heavy'), repeat);
}

/** The instruments, by their notes; `midi-unpitched` counts from 1. */
function partList(places: readonly Place[]): Element {
  return element(
    'part-list',
    {},
    element(
      'score-part',
      { id: 'P1' },
      textElement('part-name', 'Drums'),
      ...places.map((place) =>
        element('score-instrument', { id: instrumentId(place) }, textElement('instrument-name', place.name)),
      ),
      ...places.map((place) =>
        element(
          'midi-instrument',
          { id: instrumentId(place) },
          textElement('midi-channel', DRUM_CHANNEL),
          textElement('midi-unpitched', place.note + 1),
        ),
      ),
    ),
  );
}

/** The places that anything stands on, in order of their notes; the snare's where nothing sounds at all. */
function placesOf(phrase: Phrase, bars: readonly WrittenBar[]): Place[] {
  const places = bars.flatMap(({ beats }) =>
    beats.flatMap(({ hands, feet }) => [
      ...hands.flatMap(({ notes, graces }) => [
        ...notes.map((note) => placeOfNote(phrase, note)),
        ...graces.map((hand) => placeOfNote(phrase, { hand, kind: 'tap' })),
      ]),
      ...(feet ?? []).flat().map(placeOfFoot),
    ]),
  );
  const silent = placeOfNote({ ...phrase, voicing: {} }, { hand: 'R', kind: 'tap' });
  const byNote = new Map((places.length === 0 ? [silent] : places).map((place) => [place.note, place]));
  return [...byNote.values()].sort((a, b) => a.note - b.note);
}

function feetOf(text: string): ReturnType<typeof parseFeet> {
  try {
    return parseFeet(text);
  } catch (error) {
    throw error instanceof InputError ? error.within('phrase.feet') : error;
  }
}

/** The greatest common divisor. */
function divisor(a: number, b: number): number {
  return b === 0 ? a : divisor(b, a % b);
}
