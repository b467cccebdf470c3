import { writePhraseMidi, writeTakeMidi, readMidi, takeFromMidi } from '../src/midi/standard-midi-file';
import { condition } from '../src/midi/conditioning';
import { phraseNamed } from '../src/exercises/phrase';
import { modelTake } from '../src/model/model-player';
import { modelRig } from '../src/model/model-rig';
import { libraryOf, readLibrary, writeLibrary } from '../src/sessions/library';
import { newPlayer } from '../src/sessions/player';
import { readTake, writeTake } from '../src/sessions/take';
import type { Take } from '../src/sessions/types';
import { settingsOf } from '../src/settings';
import type { RawHit } from '../src/stroke';
import { csvOfTake } from '../src/take/take-csv';
import { gradeTake } from '../src/take/grade-take';
import type { Table } from './table';

const WALK = phraseNamed('Single paradiddle, accent walk');
const SIZES = [1000, 10_000, 100_000, 1_000_000] as const;
/** An hour of sixteenths at 120 bpm. */
const HOUR_HITS = 28_800;
const AT = '2026-11-25T12:00:00.000Z';

/** No take is longer; what grades is not asked for more. */
const MOST_GRADED = 100_000;
const GRADES = /graded/;

/** A take with this many hits, 20 a second, its phrase as long as a take's may be. */
function takeOf(hits: number): Take {
  const cycles = Math.max(1, Math.min(1500, Math.round(hits / 64)));
  const { take } = modelTake({ phrase: WALK, bpm: 300, seed: 7, cycles });
  const [first] = take.hits;
  const more: RawHit[] = Array.from({ length: hits }, (_, index) => ({
    ...take.hits[index % take.hits.length],
    atMs: first.atMs + index * 50,
  }));
  return { ...take, hits: hits <= MOST_GRADED ? take.hits : more };
}

/** The same hits, all at one moment: what conditioning must be linear in too. */
const atOnce = (take: Take): readonly RawHit[] => take.hits.map((hit) => ({ ...hit, atMs: 1000 }));

const works: Readonly<Record<string, (take: Take) => () => unknown>> = {
  'take written': (take) => () => writeTake(take),
  'take read': (take) => {
    const text = writeTake(take);
    return () => readTake(text);
  },
  'MIDI written': (take) => () => writeTakeMidi(take),
  'MIDI read': (take) => {
    const bytes = writeTakeMidi(take);
    return () => readMidi(bytes);
  },
  'take from MIDI': (take) => {
    const bytes = writeTakeMidi(take);
    return () => takeFromMidi(bytes, { fileName: 'x.mid' });
  },
  'CSV written (graded first)': (take) => () => csvOfTake(take),
  graded: (take) => () => gradeTake(take),
  conditioned: (take) => () => condition(take.rig, settingsOf('working'), take.hits),
  'conditioned, all at one moment': (take) => {
    const hits = atOnce(take);
    return () => condition(modelRig(1), settingsOf('working'), hits);
  },
  'library written and read': (take) => {
    const parts = { phrases: [], rigs: [], sheets: [], notes: [] };
    const takes = [{ take, playerId: 'p', sentence: '', graded: null }];
    const library = libraryOf({ ...parts, players: [newPlayer('p', 'A', AT)], takes }, AT);
    return () => readLibrary(writeLibrary(library));
  },
};

/** Files larger than this are refused, in words: no time is spent on them. */
function timeOf(work: () => unknown): string {
  const from = performance.now();
  try {
    work();
  } catch (error) {
    return `refused: ${error instanceof Error ? error.message.slice(0, 60) : String(error)}`;
  }
  return (performance.now() - from).toFixed(0);
}

/** Time against size for what reads and writes: ten times the hits may take ten times the time and a little more. */
export function run(): Promise<Table[]> {
  const rows = Object.entries(works).map(([name, prepared]) => [
    name,
    ...SIZES.map((size) => {
      if (size > MOST_GRADED && GRADES.test(name)) return '';
      try {
        return timeOf(prepared(takeOf(size)));
      } catch (error) {
        return `refused: ${error instanceof Error ? error.message.slice(0, 60) : String(error)}`;
      }
    }),
  ]);
  const hour = modelTake({ phrase: WALK, bpm: 120, seed: 7, cycles: HOUR_HITS / 64 }).take;
  return Promise.resolve([
    {
      title: 'Time against size, ms (asked: in step with the size)',
      columns: ['what', ...SIZES.map((size) => `${size} hits`)],
      rows,
    },
    {
      title: 'An hour of sixteenths at 120 bpm as MIDI, ms (asked: under 1000)',
      columns: ['take', 'phrase alone'],
      rows: [[timeOf(() => writeTakeMidi(hour)), timeOf(() => writePhraseMidi(hour.phrase, hour.tempo))]],
    },
  ]);
}
