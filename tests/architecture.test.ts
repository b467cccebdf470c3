import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

/** The import table. A folder may import itself, the four top files, and what stands here. */
const FOLDERS: Readonly<Record<string, { from: readonly string[]; packages: readonly string[] }>> = {
  exercises: { from: [], packages: [] },
  alignment: { from: ['exercises'], packages: [] },
  grading: { from: ['exercises', 'alignment'], packages: ['simple-statistics'] },
  sessions: { from: ['exercises', 'grading'], packages: ['valibot', 'idb'] },
  // grading: its statistics and intervals, for midi/learning
  midi: { from: ['exercises', 'sessions', 'grading'], packages: ['rxjs', 'webmidi', 'midi-file'] },
  click: { from: ['exercises', 'midi'], packages: ['rxjs'] },
  take: { from: ['exercises', 'midi', 'click', 'alignment', 'grading', 'sessions'], packages: ['rxjs'] },
  model: { from: ['exercises', 'midi', 'sessions', 'take'], packages: [] },
  insight: { from: ['exercises', 'grading', 'sessions', 'take', 'model'], packages: [] },
  state: {
    from: ['exercises', 'midi', 'click', 'grading', 'sessions', 'take', 'insight'],
    packages: ['rxjs'],
  },
  components: {
    from: ['exercises', 'grading', 'sessions', 'midi', 'take', 'insight', 'state'],
    packages: ['lit', 'chart.js', 'vexflow'],
  },
  effects: {
    from: ['exercises', 'midi', 'click', 'sessions', 'take', 'insight', 'state'],
    packages: ['rxjs'],
  },
  cli: { from: ['exercises', 'sessions', 'grading', 'midi', 'take', 'insight', 'model'], packages: [] },
};

/** An outside thing is imported in exactly one file. */
const ONLY_DOOR: Readonly<Record<string, string>> = {
  vexflow: 'components/notation/engraver.ts',
  'midi-file': 'midi/standard-midi-file.ts',
  webmidi: 'midi/web-midi.ts',
  idb: 'sessions/browser-store.ts',
  'chart.js': 'components/pictures/drawing.ts',
};

/** Composition roots: the page's, the far view's, and what opens one of the two. */
const ROOTS = ['main.ts', 'far.ts', 'open.ts'];
/** Files that may touch the world; every other one outside components and cli is pure. */
const TOUCHES_WORLD = ['midi/web-midi.ts', 'click/web-audio.ts', 'sessions/browser-store.ts', ...ROOTS];
const WORLD =
  /\b(document|window|navigator|localStorage|performance\.now|Date\.now|Math\.random|setTimeout|setInterval|requestAnimationFrame)\b/;

const TOP = ['units', 'exact', 'errors', 'stroke', 'settings'];
const SOURCE = join(import.meta.dirname, '../src');
const files = readdirSync(SOURCE, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts') && !file.endsWith('.d.ts'))
  .map((file) => ({ file, text: readFileSync(join(SOURCE, file), 'utf8') }));

interface Import {
  readonly file: string;
  readonly target: string;
}

function importsOf({ file, text }: { file: string; text: string }): Import[] {
  const found = [...text.matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)];
  return found.map((match) => ({ file, target: match[1] }));
}

const packageOf = (target: string): string =>
  target
    .split('/')
    .slice(0, target.startsWith('@') ? 2 : 1)
    .join('/');
const folderOf = (file: string): string => (file.includes('/') ? file.split('/')[0] : '');
/** The path below src that a relative import of `file` leads to. */
const resolved = ({ file, target }: Import): string => join(file, '..', target);

describe('who may import whom', () => {
  const all = files.flatMap(importsOf);

  it('reads every source file', () => {
    expect(files.length).toBeGreaterThan(40);
    expect(all.length).toBeGreaterThan(100);
  });

  it.each(Object.keys(FOLDERS))('%s keeps to its row of the table', (folder) => {
    const allowed = FOLDERS[folder];
    const wrong = all
      .filter(({ file }) => folderOf(file) === folder)
      .filter((one) => {
        if (one.target.startsWith('node:')) return folder !== 'cli';
        if (!one.target.startsWith('.')) return !allowed.packages.includes(packageOf(one.target));
        const to = resolved(one);
        if (to.startsWith('../recorded-sessions/')) return folder !== 'effects';
        return !(TOP.includes(to) || [folder, ...allowed.from].includes(folderOf(to)));
      });
    expect(wrong).toEqual([]);
  });

  it('nothing imports components, effects or the command line, save main', () => {
    const wrong = all.filter(
      (one) =>
        one.target.startsWith('.') &&
        ['components', 'cli', 'effects'].includes(folderOf(resolved(one))) &&
        folderOf(one.file) !== folderOf(resolved(one)) &&
        !ROOTS.includes(one.file),
    );
    expect(wrong).toEqual([]);
  });

  it.each(Object.entries(ONLY_DOOR))('%s is imported by %s alone', (name, door) => {
    const importers = new Set(all.filter((one) => packageOf(one.target) === name).map((one) => one.file));
    importers.delete(door);
    expect([...importers]).toEqual([]);
  });

  it('the core has no world in it: no DOM, clock or unseeded randomness', () => {
    const wrong = files
      .filter(
        ({ file }) =>
          !['components', 'cli', 'effects'].includes(folderOf(file)) && !TOUCHES_WORLD.includes(file),
      )
      .flatMap(({ file, text }) => {
        const code = text.replaceAll(/\/\*[\s\S]*?\*\/|\/\/.*|'(?:[^'\\\n]|\\.)*'|`(?:[^`\\]|\\.)*`/g, '');
        const found = WORLD.exec(code);
        return found === null ? [] : [`${file}: ${found[0]}`];
      });
    expect(wrong).toEqual([]);
  });
});
