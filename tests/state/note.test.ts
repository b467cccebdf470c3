import { describe, expect, it } from 'vitest';
import type { Action } from '../../src/state/actions';
import { MOST_SAYINGS, sayingsFrom, withSaying, type NoteDraft } from '../../src/state/note-draft';
import { reduce } from '../../src/state/reducer';
import { firstState } from '../../src/state/state';

const text = { student: 'K. P.', date: '2026-03-02', words: '', target: '84 bpm' };
const begun = (words = '', sayings: readonly string[] = []): Action => ({
  kind: 'note begun',
  text: { ...text, words },
  sayings,
});
const after = (...actions: readonly Action[]): NoteDraft | null => actions.reduce(reduce, firstState).note;

describe('a note that is being written', () => {
  it('is begun, changed a field at a time, and closed', () => {
    expect(after(begun('', ['Low sticks.']))).toEqual({ text, sayings: ['Low sticks.'] });
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
