import { describe, expect, it } from 'vitest';
import { MOST_SAYINGS, noteHeard, sayingsFrom, withSaying } from '../../src/state/note';

const text = { student: 'K. P.', date: '2026-03-02', words: '', target: '84 bpm' };

describe('a note that is being written', () => {
  it('is opened, changed a field at a time, and closed', () => {
    const open = noteHeard(null, { kind: 'open', text, sayings: ['Low sticks.'] });
    expect(open).toEqual({ text, sayings: ['Low sticks.'] });
    const changed = noteHeard(open, { kind: 'change', change: { words: 'Well begun.' } });
    expect(changed?.text).toEqual({ ...text, words: 'Well begun.' });
    expect(noteHeard(changed, { kind: 'close' })).toBeNull();
  });

  it('takes a kept phrase as a line of its own, after what is there', () => {
    const open = noteHeard(null, { kind: 'open', text: { ...text, words: 'Well begun. ' }, sayings: [] });
    expect(noteHeard(open, { kind: 'add', saying: 'Low sticks.' })?.text.words).toBe(
      'Well begun.\nLow sticks.',
    );
  });

  it('nothing is written where no note is open', () => {
    expect(noteHeard(null, { kind: 'add', saying: 'Low sticks.' })).toBeNull();
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
