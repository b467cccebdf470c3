import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../src/errors';
import { phraseNamed } from '../src/exercises/phrase';
import { takeFromMidi, writePhraseMidi, writeTakeMidi } from '../src/midi/standard-midi-file';
import { gradeTake } from '../src/take/grade-take';
import { modelTake } from '../src/model/model-player';
import { modelRig } from '../src/model/model-rig';
import { libraryOf, mergeLibrary, readLibrary, writeLibrary } from '../src/sessions/library';
import { readPhraseFile, writePhraseFile } from '../src/sessions/phrase-file';
import { newPlayer } from '../src/sessions/player';
import { readRigFile, rigFileOf, writeRigFile } from '../src/sessions/rig-file';
import { readTake, writeTake } from '../src/sessions/take';
import { readWeekSheet, writeWeekSheet } from '../src/sessions/week-sheet';

// Good files with bytes changed, cut, doubled or cut off: each is read, or refused with an InputError that names a place;
// nothing else is thrown, none takes a second, and no case has the process grow by 256 MB. 10,000 cases in all, seeded.

const AT = '2026-11-25T12:00:00.000Z';
const phrase = phraseNamed('Flam accent');
const { take } = modelTake({ phrase, bpm: 84, seed: 1, cycles: 2 });
const rig = rigFileOf(modelRig(1), 'r1', 'Pad');
const phraseFile = { format: 'evenhand-phrase', version: 1, name: 'x', phrase, bpm: 84 } as const;
const week = {
  format: 'evenhand-week',
  version: 1,
  id: 'w1',
  student: 'K.',
  phrase,
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
const nothing = { players: [], phrases: [], rigs: [], sheets: [], notes: [], takes: [] };

interface Mutation {
  readonly how: 'byte' | 'cut' | 'double' | 'end';
  readonly at: number;
  readonly value: number;
}

const mutation: fc.Arbitrary<Mutation> = fc.record({
  how: fc.constantFrom('byte', 'byte', 'byte', 'cut', 'double', 'end'),
  at: fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
  // Digits, signs and braces as often as any byte: they get past the JSON reader.
  value: fc.oneof(
    fc.integer({ min: 0, max: 255 }),
    fc.constantFrom(...[...'0123456789-.eE"{}[],:nRLrl'].map((one) => one.charCodeAt(0))),
  ),
});

function mutated(bytes: Uint8Array, changes: readonly Mutation[]): Uint8Array {
  return changes.reduce<Uint8Array>((now, { how, at, value }) => {
    const index = Math.floor(at * now.length);
    switch (how) {
      case 'byte':
        return now.map((byte, place) => (place === index ? value : byte));
      case 'cut':
        return Uint8Array.from([...now.subarray(0, index), ...now.subarray(index + 1 + (value % 16))]);
      case 'double':
        return Uint8Array.from([
          ...now.subarray(0, index),
          ...now.subarray(Math.max(0, index - (value % 16))),
        ]);
      case 'end':
        return now.subarray(0, index);
    }
  }, bytes);
}

/** Of the processor, so that other work beside makes no test fail. */
const MOST_PROCESSOR_MS = 1000;
const processorMs = (from: NodeJS.CpuUsage): number => process.cpuUsage(from).user / 1000;
const MOST_BYTES = 256 * 1024 * 1024;

/** All that the process holds, buffers outside the heap too. */
const heldBytes = (): number => {
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
};

function withstands(good: Uint8Array | string, read: (bytes: Uint8Array) => void, numRuns: number): void {
  const bytes = typeof good === 'string' ? new TextEncoder().encode(good) : good;
  read(bytes);
  fc.assert(
    fc.property(fc.array(mutation, { minLength: 1, maxLength: 4 }), (changes) => {
      const bad = mutated(bytes, changes);
      const from = process.cpuUsage();
      const held = heldBytes();
      try {
        read(bad);
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        expect(error.message).not.toBe('');
      }
      expect(processorMs(from)).toBeLessThan(MOST_PROCESSOR_MS);
      expect(heldBytes() - held).toBeLessThan(MOST_BYTES);
    }),
    { numRuns, seed: 2026 },
  );
}

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

describe('a good file with bytes changed is read or refused, never worse', () => {
  it('take, 2500 cases, graded where it is still read', () => {
    withstands(writeTake(take), (bytes) => gradeTake(readTake(text(bytes))), 2500);
  });
  it('MIDI file of a take, 1500 cases', () => {
    withstands(writeTakeMidi(take), (bytes) => takeFromMidi(bytes, { fileName: 'x.mid' }), 1500);
  });
  it('MIDI file of a phrase, 1500 cases', () => {
    withstands(
      writePhraseMidi(phrase, { bpm: 84 }),
      (bytes) => takeFromMidi(bytes, { fileName: 'x.mid' }),
      1500,
    );
  });
  it('phrase, 1500 cases', () => {
    withstands(writePhraseFile(phraseFile), (bytes) => readPhraseFile(text(bytes)), 1500);
  });
  it('rig, 1000 cases', () => {
    withstands(writeRigFile(rig), (bytes) => readRigFile(text(bytes)), 1000);
  });
  it('week sheet, 1000 cases', () => {
    withstands(writeWeekSheet(week), (bytes) => readWeekSheet(text(bytes)), 1000);
  });
  it('library, 1000 cases, merged where it is still read', () => {
    withstands(
      writeLibrary(library),
      (bytes) => mergeLibrary(nothing, readLibrary(text(bytes)).library),
      1000,
    );
  });
});
