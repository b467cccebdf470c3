import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { gradeTake } from '../../src/take/grade-take';
import type { Action } from '../../src/state/actions';
import { MOST_SAYINGS, sayingsFrom, withSaying, type NoteDraft } from '../../src/state/note-draft';
import { reduce } from '../../src/state/reducer';
import { firstState } from '../../src/state/state';

const text = { student: 'K. P.', date: '2026-03-02', words: '', target: '84 bpm' };
const { take } = modelTake({
  phrase: phraseNamed('Single paradiddle, accent walk'),
  bpm: 84,
  seed: 5,
  cycles: 2,
});
const report = gradeTake(take);
const about = { takeId: take.id, playerId: 'kp' };
const begun = (words = '', sayings: readonly string[] = []): Action => ({
  kind: 'note begun',
  note: { ...about, text: { ...text, words }, sayings },
});
const open = reduce(firstState, { kind: 'reviewed', take, report });
const after = (...actions: readonly Action[]): NoteDraft | null => actions.reduce(reduce, open).note;

describe('a note that is being written', () => {
  it('is begun, changed a field at a time, and closed', () => {
    expect(after(begun('', ['Low sticks.']))).toEqual({ ...about, text, sayings: ['Low sticks.'] });
    const change: Action = { kind: 'change note', change: { words: 'Well begun.' } };
    expect(after(begun(), change)?.text).toEqual({ ...text, words: 'Well begun.' });
    expect(after(begun(), change, { kind: 'close note' })).toBeNull();
  });

  it('takes a kept phrase as a line of its own, after what is there', () => {
    const used: Action = { kind: 'use saying', saying: 'Low sticks.' };
    expect(after(begun('Well begun. '), used)?.text.words).toBe('Well begun.\nLow sticks.');
  });

  it('nothing is written where no note is open', () => {
    expect(after({ kind: 'use saying', saying: 'Low sticks.' })).toBeNull();
  });

  it('is closed by going elsewhere', () => {
    expect(after(begun(), { kind: 'go', screen: 'play' })).toBeNull();
  });

  it('is of its own take: none is begun for another that was opened meanwhile, and opening another closes it', () => {
    const other = { kind: 'reviewed', take: { ...take, id: 'another' }, report } as const;
    expect(after(other, begun())).toBeNull();
    expect(after(begun(), other)).toBeNull();
    expect(after(begun(), { kind: 'reviewed', take, report })?.text).toEqual(text);
  });
});

describe('the teacher’s own phrases', () => {
  it('stand newest first, each once, at most thirty', () => {
    expect(withSaying(['a', 'b'], 'b')).toEqual(['b', 'a']);
    expect(withSaying(['a'], '  ')).toEqual(['a']);
    const many = Array.from({ length: 40 }, (_, index) => String(index));
    expect(withSaying(many, 'x')).toHaveLength(MOST_SAYINGS);
  });

  it('what was kept and is no text is left out', () => {
    expect(sayingsFrom(['a', 3, null])).toEqual(['a']);
    expect(sayingsFrom(undefined)).toEqual([]);
  });
});
