import { describe, expect, it } from 'vitest';
import { codeFor, codesOf, freeCode } from '../../src/sessions/player-code';

describe('a short code', () => {
  it('is the initials, and a number where somebody has them', () => {
    expect(freeCode('Kim P.', new Set())).toBe('KP');
    expect(freeCode('kim p.', new Set(['KP', 'KP2']))).toBe('KP3');
    expect(freeCode('Student 12', new Set())).toBe('S12');
    expect(freeCode('', new Set())).toBe('You');
  });

  it('that was given stays, whoever comes or goes', () => {
    const first = { id: 'z', name: 'Kim P.', code: 'KP' };
    const second = { id: 'a', name: 'Kim P.', code: codeFor('Kim P.', [first]) };
    expect(second.code).toBe('KP2');
    expect([...codesOf([first, second])]).toEqual([
      ['a', 'KP2'],
      ['z', 'KP'],
    ]);
    expect(codesOf([second]).get('a')).toBe('KP2');
  });

  it('of players of an older library is found, each another, and one of two libraries that clash gives way', () => {
    const older = [
      { id: 'b', name: 'Kim P.' },
      { id: 'a', name: 'Kai P.' },
    ];
    expect([...codesOf(older)]).toEqual([
      ['a', 'KP'],
      ['b', 'KP2'],
    ]);
    const clash = [
      { id: 'a', name: 'Kim', code: 'K' },
      { id: 'b', name: 'Kai', code: 'K' },
    ];
    expect(codesOf(clash).get('b')).toBe('K2');
  });
});
