import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { printable, shownName } from '../../src/cli/shown';
import type { Take } from '../../src/sessions/types';
import { evenhand } from './process';

const folder = mkdtempSync(join(tmpdir(), 'evenhand-shown-'));
/** Clears the screen, turns writing round, and claims a second line. */
const EVIL = '\u001b[2J\u009b31m\u202eevil\r\nother.take.json: sound';

/** A take with such names, and a file named so. */
function evilTake(): string {
  const take = JSON.parse(readFileSync('recorded-sessions/left-up-stroke-leaks.take.json', 'utf8')) as Take;
  const bars = take.phrase.bars.map((bar) => ({ ...bar, variation: `${bar.variation}${EVIL}` }));
  const file = join(folder, 'evil\n\u001b[31m.take.json');
  writeFileSync(
    file,
    JSON.stringify({ ...take, player: EVIL, phrase: { ...take.phrase, title: EVIL, bars } }),
  );
  return file;
}

/** Everything but printable characters and ends of lines. */
const UNSEEN = /[^\P{C}\n]/u;

describe('control characters', () => {
  it('are written out, and letters of any script are not', () => {
    expect(printable('Käthe \u001b[2J 打 é\n')).toBe('Käthe \\u001b[2J 打 é\n');
    expect(shownName('a\r\nb\tc')).toBe('a\\u000d\\u000ab\\u0009c');
    // What ends a row of CSV; alone it would overwrite the line.
    expect(printable('a\r\nb\rc')).toBe('a\r\nb\\u000dc');
  });

  it('of titles, variations, players and file names reach no terminal', { timeout: 60_000 }, () => {
    const file = evilTake();
    const runs = [
      ['check', file],
      ['grade', file],
      ['grade', file, file],
      ['grade', file, '--json', '--advice'],
      ['grade', `${file}\u0007`],
      ['convert', file, join(folder, `${String(performance.now())}\u001b.csv`)],
      ['note', file, '--out', join(folder, `${String(performance.now())}\u001b.md`)],
      ['phrases', EVIL],
      [EVIL],
    ].map((args) => evenhand(args));
    for (const { out, err } of runs) {
      expect(out).not.toMatch(UNSEEN);
      expect(err).not.toMatch(UNSEEN);
    }
    const [checked, graded, , json, gone] = runs;
    expect(checked.out).toMatch(/^.*\n$/);
    expect(checked.out).toContain('\\u001b[2J');
    expect(graded.out).not.toMatch(/^other\.take\.json/m);
    expect(JSON.parse(json.out)).toMatchObject({ reports: [{ weakest: expect.anything() as unknown }] });
    expect(gone).toMatchObject({ status: 3, out: '', err: expect.stringMatching(/^.*\n$/) as string });
  });
});
