import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { newPlayer } from '../../src/sessions/player';
import type { WeekSheet } from '../../src/sessions/week-sheet';
import type { Action } from '../../src/state/actions';
import { reduce } from '../../src/state/reducer';
import { firstState, type State } from '../../src/state/state';
import { gradeTake } from '../../src/take/grade-take';

const NOW = '2026-03-02T18:00:00.000Z';
const ab = newPlayer('ab', 'A. B.', NOW);
const cd = { ...newPlayer('cd', 'C. D.', NOW), limits: 'first year' as const };
const turn = (playerId: string): Action => ({ kind: 'library', change: { playerId } });
const page = reduce(firstState, { kind: 'library', change: { players: [ab, cd], playerId: 'ab' } });

const phrase = { ...phraseNamed('Single paradiddle, accent walk'), title: 'Of A. B. alone' };
const { take } = modelTake({ phrase, bpm: 77, seed: 5, cycles: 2 });
const report = gradeTake(take);
const text = { student: 'A. B.', date: '2026-03-02', words: 'Your father is right.', target: '' };
const sheet: WeekSheet = {
  format: 'evenhand-week',
  version: 1,
  id: 'week-9',
  student: 'A. B.',
  phrase,
  bpm: 77,
  limits: 'recital',
  targets: [],
  words: '',
  due: null,
  changedAt: NOW,
};
const after = (from: State, ...actions: readonly Action[]): State => actions.reduce(reduce, from);

describe('when another player’s turn comes', () => {
  const written = after(
    page,
    { kind: 'reviewed', take, report },
    { kind: 'note begun', note: { takeId: take.id, playerId: 'ab', text, sayings: [] } },
  );

  it('the take that is open and the note on it stay with whose they are, and are there again with their turn', () => {
    const others = after(written, turn('cd'));
    expect([others.reviewed, others.note]).toEqual([null, null]);
    const again = after(others, turn('ab'));
    expect(again.reviewed?.take).toBe(take);
    expect(again.note?.text.words).toBe('Your father is right.');
  });

  it('a week sheet that is written stays with whom it is for', () => {
    const writing = after(page, { kind: 'edit sheet', sheet, playerId: 'ab' });
    expect(after(writing, turn('cd')).library.draft).toBeNull();
    expect(after(writing, turn('cd'), turn('ab')).library.draft).toBe(sheet);
  });

  it('a phrase of a week sheet stays, with its tempo; a phrase that everybody has stays on the page', () => {
    const shown = { sheet, playerId: 'ab', takes: 0, exercises: [] };
    const playing = after(
      page,
      { kind: 'library', change: { sheets: [shown] } },
      { kind: 'play sheet', sheet },
    );
    const others = after(playing, { kind: 'library', change: { playerId: 'cd', sheets: [] } });
    expect([others.phrase.title, others.bpm, others.library.sheetId]).toEqual([
      firstState.phrase.title,
      firstState.bpm,
      '',
    ]);
    expect(others.limits).toBe('first year');
    const again = after(others, { kind: 'library', change: { playerId: 'ab', sheets: [shown] } });
    expect([again.phrase.title, again.bpm, again.limits, again.library.sheetId]).toEqual([
      'Of A. B. alone',
      77,
      'recital',
      'week-9',
    ]);
    const named = after(page, { kind: 'phrase', name: 'Single paradiddle, rotations' }, turn('cd'));
    expect(named.phrase.title).toBe('Single paradiddle, rotations');
  });

  it('a climb, a remedy and the last take are none of theirs', () => {
    const stepped = after(
      page,
      { kind: 'reviewed', take, report },
      { kind: 'next step' },
      {
        kind: 'played',
        last: { take, sentence: '', kept: true },
      },
    );
    const begun = after(stepped, { kind: 'begin climb', today: '2026-03-02' });
    const others = after(begun, turn('cd'));
    expect([others.climb, others.reviewing.treatment, others.last]).toEqual([null, null, null]);
    expect(after(others, turn('ab')).climb).toEqual(begun.climb);
  });

  it('what a player who is deleted had open is gone with them', () => {
    const gone = after(written, { kind: 'library', change: { players: [cd], playerId: 'cd' } });
    expect([...gone.openWork.keys()]).toEqual([]);
  });
});

describe('a take that is given to another', () => {
  it('is open on their page from then on, with the note on it', () => {
    const written = after(
      page,
      { kind: 'reviewed', take, report },
      { kind: 'note begun', note: { takeId: take.id, playerId: 'ab', text, sayings: [] } },
      { kind: 'filed', ids: [take.id], playerId: 'cd' },
    );
    expect([written.reviewed, written.note]).toEqual([null, null]);
    const theirs = after(written, turn('cd'));
    expect(theirs.reviewed?.take).toBe(take);
    expect(theirs.note).toMatchObject({
      playerId: 'cd',
      text: { words: 'Your father is right.', student: 'C. D.' },
    });
    expect(theirs.limits).toBe('first year');
  });
});

describe('a week sheet that is kept', () => {
  it('says whose it is where there is more than one player', () => {
    const kept = after(page, { kind: 'edit sheet', sheet, playerId: 'cd' }, { kind: 'sheet kept' });
    expect(kept.message).toBe('C. D.’s week sheet is kept.');
    const alone = after(firstState, { kind: 'edit sheet', sheet, playerId: '' }, { kind: 'sheet kept' });
    expect(alone.message).toBe('The week sheet is kept.');
  });
});
