import { describe, expect, it } from 'vitest';
import { capital, counted, listed, plural } from '../src/text';

describe('text', () => {
  it('begins with a large letter, and leaves the rest', () => {
    expect(capital('soft strokes of R')).toBe('Soft strokes of R');
    expect(capital('')).toBe('');
  });

  it('has one thing in the singular, none and more in the plural', () => {
    expect([0, 1, 2].map((n) => counted(n, 'bar'))).toEqual(['0 bars', '1 bar', '2 bars']);
    expect(plural(2, 'half', 'halves')).toBe('halves');
    expect(plural(1, 'half', 'halves')).toBe('half');
  });

  it('lists things with "and" before the last alone', () => {
    expect(listed([])).toBe('');
    expect(listed(['R'])).toBe('R');
    expect(listed(['R', 'L'])).toBe('R and L');
    expect(listed(['snare', 'tom 1', 'tom 2'])).toBe('snare, tom 1 and tom 2');
  });
});
