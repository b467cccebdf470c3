import { describe, expect, it } from 'vitest';
import { fileName, whoNamed } from '../../src/sessions/file-name';

describe('the name of a file', () => {
  it('says what it is, whose, of which day', () => {
    const day = '2026-11-30T18:04:00.000Z';
    expect(fileName({ kind: 'backup', day, ending: 'library.json' })).toBe('backup-2026-11-30.library.json');
    expect(fileName({ kind: 'student', who: 'AB', day, ending: 'library.json' })).toBe(
      'student-AB-2026-11-30.library.json',
    );
    expect(fileName({ kind: 'sheet', day: '2026-12-07', ending: 'week.json' })).toBe(
      'sheet-2026-12-07.week.json',
    );
    expect(fileName({ kind: 'phrase', about: 'Flam tap, walk', ending: 'mid' })).toBe(
      'phrase-Flam-tap-walk.mid',
    );
  });

  it('is one that every system takes, whatever a player is called', () => {
    const of = (who: string): string => fileName({ kind: 'note', who, day: '2026-11-30', ending: 'html' });
    expect(of('../Å. Öst: "x"')).toBe('note-Å-Öst-x-2026-11-30.html');
    expect(of('…')).toBe('note-2026-11-30.html');
    expect(of('x'.repeat(300))).toHaveLength(81);
  });

  it('has the short code; the whole name, or nobody, where that is wished', () => {
    const player = { code: 'AB', name: 'A. Bell' };
    expect([whoNamed('code', player), whoNamed('name', player), whoNamed('nobody', player)]).toEqual([
      'AB',
      'A. Bell',
      '',
    ]);
    expect(whoNamed('name', { code: 'AB', name: ' ' })).toBe('AB');
  });
});
