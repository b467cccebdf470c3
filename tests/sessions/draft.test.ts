import { expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { draftFrom, draftId, keptDraft, type Begun } from '../../src/sessions/draft';
import { givenFrom, keptGiven, type Given } from '../../src/sessions/given';
import { libraryOf, readLibrary, writeLibrary } from '../../src/sessions/library';

const NOW = '2026-03-02T18:00:00.000Z';
const sheet = {
  format: 'evenhand-week',
  version: 1,
  id: 'week-9',
  student: 'K. P.',
  phrase: phraseNamed('Single paradiddle, accent walk'),
  bpm: 84,
  limits: 'working',
  targets: [],
  words: 'Low.',
  due: null,
  changedAt: NOW,
} as const;
const note = {
  of: 'note',
  takeId: 't',
  title: 'Single',
  student: '',
  date: '2026-03-02',
  words: 'Low.',
  target: '',
} as const;
const all: readonly Begun[] = [
  { playerId: 'kp', draft: note },
  { playerId: 'kp', draft: { of: 'week sheet', sheet } },
  { playerId: 'kp', draft: { of: 'list', words: 'Low.' } },
  {
    playerId: 'kp',
    draft: { of: 'term report', student: '', fromDay: '2026-01-01', toDay: '2026-03-02', words: '' },
  },
];
const given: Given = {
  at: NOW,
  what: 'note',
  as: 'print',
  student: 'K. P.',
  title: 'Single',
  words: 'Low.',
  target: '',
};

it('what is begun and what was given go through a backup as they were', () => {
  const notes = [...all.map((one) => keptDraft(one, NOW)), keptGiven(given, 'kp', 'g')];
  const empty = { players: [], phrases: [], rigs: [], sheets: [], takes: [] };
  const { library } = readLibrary(writeLibrary(libraryOf({ ...empty, notes }, NOW)));
  expect(library.notes.flatMap((one) => draftFrom(one) ?? [])).toEqual(all);
  expect(givenFrom(library.notes)).toMatchObject([given]);
});

it('each has a place of its own: a note a take, a sheet a sheet, one list and one term report a player', () => {
  expect(new Set(all.map(draftId)).size).toBe(4);
  expect(draftId({ playerId: 'another', draft: note })).toBe(draftId(all[0]));
  expect(draftId({ ...all[2], playerId: 'another' })).not.toBe(draftId(all[2]));
});

it('notes of another format, newer or unsound are none of either, and hide none of the others', () => {
  const foreign = { id: 'x', playerId: 'kp', changedAt: NOW, file: { format: 'somebody-else’s' } };
  const newer = { ...foreign, file: { format: 'evenhand-draft', version: 2 } };
  const broken = keptDraft({ playerId: 'kp', draft: { of: 'week sheet', sheet: { ...sheet, bpm: 0 } } }, NOW);
  const notes = [foreign, newer, broken, keptDraft(all[0], NOW)];
  expect(notes.flatMap((one) => draftFrom(one) ?? [])).toEqual([all[0]]);
  expect(givenFrom(notes)).toEqual([]);
});
