import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/cli/check';
import { phraseNamed } from '../../src/exercises/phrase';
import { libraryOf, writeLibrary } from '../../src/sessions/library';
import { newPlayer } from '../../src/sessions/player';
import { weekSheetHtml } from '../../src/sessions/paper/week-page';
import { writeWeekSheet, type WeekSheet } from '../../src/sessions/week-sheet';

const folder = mkdtempSync(join(tmpdir(), 'evenhand-check-'));
function written(name: string, text: string): string {
  const file = join(folder, name);
  writeFileSync(file, text);
  return file;
}
const week: WeekSheet = {
  format: 'evenhand-week',
  version: 1,
  id: 'w1',
  student: '<i>K.</i>',
  phrase: phraseNamed('flam accent'),
  bpm: 70,
  limits: 'working',
  targets: [{ kind: 'tempo', bpm: 76 }],
  words: 'Low grace notes.',
  due: '2026-12-01',
  changedAt: '2026-11-24T10:00:00.000Z',
};
const AT = '2026-11-25T12:00:00.000Z';
const library = libraryOf(
  { players: [newPlayer('p1', 'Kim', AT)], phrases: [], rigs: [], sheets: [], notes: [], takes: [] },
  AT,
);

describe('check, by a file’s ending', () => {
  it('says what is in a week sheet and in a library', () => {
    expect(check([written('a.week.json', writeWeekSheet(week))])).toContain(
      'sound, week sheet of "Flam accent", 70 bpm, 1 target',
    );
    expect(check([written('a.library.json', writeLibrary(library))])).toContain(
      'sound, library of 0 takes, 1 player',
    );
  });

  it('names everything that is unsound in a library', () => {
    const bad = written('b.library.json', writeLibrary({ ...library, takes: [{} as never] }));
    expect(() => check([bad])).toThrow('takes[0].take');
    const other = written('b.week.json', readFileSync('recorded-sessions/steady.take.json', 'utf8'));
    expect(() => check([other])).toThrow('format must be "evenhand-week", got "evenhand-take"');
  });
});

describe('a week sheet on paper', () => {
  it('has student, day, tempo, targets and words, and no markup of a name', () => {
    const page = weekSheetHtml(week);
    for (const words of [
      'Week sheet for &lt;i&gt;K.&lt;/i&gt;',
      'until 2026-12-01',
      'Flam accent, 70 bpm',
      '76 bpm, with four bars of five clean',
      'Low grace notes.',
    ])
      expect(page).toContain(words);
    expect(page).not.toContain('<i>');
  });
});
