import { phraseNamed } from '../../../src/exercises/phrase';
import { writePhraseMidi, writeTakeMidi } from '../../../src/midi/standard-midi-file';
import { modelRig } from '../../../src/model/model-rig';
import { modelTake } from '../../../src/model/model-player';
import { libraryOf, writeLibrary } from '../../../src/sessions/library';
import { writePhraseFile } from '../../../src/sessions/phrase-file';
import { newPlayer } from '../../../src/sessions/player';
import { rigFileOf, writeRigFile } from '../../../src/sessions/rig-file';
import { writeTake } from '../../../src/sessions/take';
import { writeWeekSheet } from '../../../src/sessions/week-sheet';

/** A sound file: its ending, and what is in it. */
export interface GoodFile {
  readonly ending: string;
  readonly content: string | Uint8Array;
}

const AT = '2026-11-25T12:00:00.000Z';
const flams = phraseNamed('Flam accent');
const walk = phraseNamed('Single paradiddle, accent walk');
const { take } = modelTake({ phrase: flams, bpm: 84, seed: 1, cycles: 2 });
const long = modelTake({ phrase: walk, bpm: 120, seed: 2, cycles: 8 }).take;
const rig = rigFileOf(modelRig(1), 'r1', 'Pad');
const phraseFile = {
  format: 'evenhand-phrase',
  version: 1,
  name: 'x',
  phrase: flams,
  bpm: 84,
  tempo: {
    ramp: [
      { bar: 0, bpm: 84 },
      { bar: 4, bpm: 96 },
    ],
  },
} as const;
const week = {
  format: 'evenhand-week',
  version: 1,
  id: 'w1',
  student: 'K.',
  phrase: flams,
  bpm: 80,
  limits: 'working',
  targets: [
    { kind: 'tempo', bpm: 84 },
    { kind: 'measure', measure: 'contrast', atLeast: 12 },
  ],
  words: 'Low.',
  due: '2026-12-01',
  changedAt: AT,
} as const;
const library = libraryOf(
  {
    players: [newPlayer('p', 'Kim', AT)],
    phrases: [phraseFile],
    rigs: [{ id: 'r1', rig: rig.rig, changedAt: AT }],
    sheets: [{ id: 'w1', playerId: 'p', changedAt: AT, file: week }],
    notes: [],
    takes: [{ take, playerId: 'p', sentence: 's', graded: null }],
  },
  AT,
);

/** One of each format; takes more often, for most is made of them. */
export const goodFiles: readonly GoodFile[] = [
  { ending: 'take.json', content: writeTake(take) },
  { ending: 'take.json', content: writeTake(long) },
  {
    ending: 'take.json',
    content: writeTake({
      ...take,
      tempo: {
        ramp: [
          { bar: 0, bpm: 60 },
          { bar: 2, bpm: 90 },
        ],
      },
    }),
  },
  { ending: 'take.json', content: writeTake({ ...long, click: 'none', downbeatMs: null }) },
  { ending: 'mid', content: writeTakeMidi(take) },
  { ending: 'mid', content: writePhraseMidi(walk, { bpm: 84 }) },
  { ending: 'phrase.json', content: writePhraseFile(phraseFile) },
  { ending: 'rig.json', content: writeRigFile(rig) },
  { ending: 'week.json', content: writeWeekSheet(week) },
  { ending: 'library.json', content: writeLibrary(library) },
];
