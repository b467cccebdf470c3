import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { grade } from '../../src/cli/grade';
import { strict } from '../../src/cli/log';
import { note } from '../../src/cli/note';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { writeTake } from '../../src/sessions/take';
import type { Take } from '../../src/sessions/types';

const folder = mkdtempSync(join(tmpdir(), 'evenhand-teacher-'));
const phrase = phraseNamed('Single paradiddle, accent walk');
function file(id: string, more: Partial<Take>): string {
  const path = join(folder, `${id}.take.json`);
  writeFileSync(path, writeTake({ ...modelTake({ phrase, bpm: 84, seed: 5, cycles: 4 }).take, id, ...more }));
  return path;
}
const student = file('student', { player: 'Model A', playerId: 'a' });
const teacher = file('teacher', { player: '', teacher: true });

describe('a teacher’s take among a student’s', () => {
  it('stands by itself, and is in no ceiling', () => {
    const { ceilings } = JSON.parse(grade([student, teacher, '--json', '--advice'])) as {
      ceilings: readonly { player: string; files: readonly string[] }[];
    };
    expect(ceilings.map(({ player, files }) => [player, files])).toEqual([['Model A', [student]]]);
    const rows = grade([student, teacher, '--summary']).split('\n');
    expect(rows.map((row) => row.slice(12, 19).trim())).toEqual(['player', 'MA', 'teacher', '']);
  });

  it('is left out of a note, which says so; alone it makes none', () => {
    const said: string[] = [];
    const out = join(folder, 'note.md');
    note([student, teacher, '--out', out], { ...strict, warn: (words) => said.push(words) });
    expect(said).toEqual(['note: 1 take of the teacher’s left out']);
    expect(readFileSync(out, 'utf8')).toContain('Single paradiddle');
    expect(() => note([teacher, '--out', out, '--force'])).toThrow(
      'takes must be a player’s, not the teacher’s alone',
    );
  });
});
