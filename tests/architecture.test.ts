import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { circles, commentsOf, exportsOf, sourceUnder, type Import } from './house/source';

/** The import table. A folder may import itself, the four top files, and what stands here. */
const FOLDERS: Readonly<Record<string, { from: readonly string[]; packages: readonly string[] }>> = {
  exercises: { from: [], packages: [] },
  words: { from: ['exercises'], packages: [] },
  alignment: { from: ['exercises'], packages: [] },
  grading: { from: ['words', 'exercises', 'alignment'], packages: ['simple-statistics'] },
  sessions: { from: ['words', 'exercises', 'grading'], packages: ['valibot', 'idb'] },
  // grading: its statistics and intervals, for midi/learning
  midi: { from: ['words', 'exercises', 'sessions', 'grading'], packages: ['rxjs', 'webmidi', 'midi-file'] },
  click: { from: ['exercises', 'midi'], packages: ['rxjs'] },
  take: {
    from: ['words', 'exercises', 'midi', 'click', 'alignment', 'grading', 'sessions'],
    packages: ['rxjs'],
  },
  model: { from: ['exercises', 'midi', 'sessions', 'take'], packages: [] },
  insight: { from: ['words', 'exercises', 'grading', 'sessions', 'take', 'model'], packages: [] },
  state: {
    from: ['words', 'exercises', 'midi', 'click', 'grading', 'sessions', 'take', 'insight'],
    packages: ['rxjs'],
  },
  components: {
    from: ['words', 'exercises', 'grading', 'sessions', 'midi', 'take', 'insight', 'state'],
    packages: ['lit', 'chart.js', 'vexflow'],
  },
  effects: {
    from: ['words', 'exercises', 'midi', 'click', 'sessions', 'take', 'insight', 'state'],
    packages: ['rxjs'],
  },
  cli: {
    from: ['words', 'exercises', 'sessions', 'grading', 'midi', 'take', 'insight', 'model'],
    packages: [],
  },
};

/** An outside thing is imported in exactly one file. */
const ONLY_IMPORTER: Readonly<Record<string, string>> = {
  vexflow: 'components/notation/engraver.ts',
  'midi-file': 'midi/standard-midi-file.ts',
  webmidi: 'midi/web-midi.ts',
  idb: 'sessions/store-connection.ts',
  'chart.js': 'components/pictures/drawing.ts',
};

/** Composition roots: the page's, the far view's, and what opens one of the two. */
const ROOTS = ['main.ts', 'far.ts', 'open.ts'];
/** Files that may touch the world; every other one outside components and cli is pure. */
const TOUCHES_WORLD = ['midi/web-midi.ts', 'click/web-audio.ts', 'sessions/browser-store.ts', ...ROOTS];
const WORLD =
  /\b(document|window|navigator|localStorage|performance\.now|Date\.now|Math\.random|setTimeout|setInterval|requestAnimationFrame)\b/;

const TOP = ['units', 'exact', 'errors', 'stroke', 'settings', 'ordered', 'column', 'text'];
const sources = sourceUnder('src');
const outside = sourceUnder('tests', 'bench', 'scripts');
/** The same, by their path below src. */
const files = sources.map(({ file, text }) => ({ file: inSource(file), text }));

interface Line {
  readonly file: string;
  readonly target: string;
}

function inSource(file: string): string {
  return file.replace(/^src\//, '');
}

const packageOf = (target: string): string =>
  target
    .split('/')
    .slice(0, target.startsWith('@') ? 2 : 1)
    .join('/');
const folderOf = (file: string): string => (file.includes('/') ? file.split('/')[0] : '');
/** The path below src that a relative import of `file` leads to. */
const resolved = ({ file, target }: Line): string => join(file, '..', target);

describe('who may import whom', () => {
  const all = sources.flatMap(({ imports }) =>
    imports.map(({ file, target }): Line => ({ file: inSource(file), target })),
  );

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

  it.each(Object.entries(ONLY_IMPORTER))('%s is imported by %s alone', (name, importer) => {
    const importers = new Set(all.filter((one) => packageOf(one.target) === name).map((one) => one.file));
    importers.delete(importer);
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

describe('no circle', () => {
  it('is found where two files import each other, and where one imports itself', () => {
    const edges = new Map([
      ['a', ['b']],
      ['b', ['c', 'a']],
      ['c', ['d']],
      ['d', ['d']],
    ]);
    expect(circles(edges)).toEqual([['d'], ['a', 'b']]);
  });

  it('of imports stands in src, of types neither', () => {
    const edges = new Map(
      sources.map(({ file, imports }) => [file, imports.flatMap(({ to }) => (to === undefined ? [] : [to]))]),
    );
    expect(circles(edges)).toEqual([]);
  });
});

/**
 * What is exported is imported: in src; or by a test, a bench or a script where the file needs it itself, so that a part
 * can be tested alone. A Lit element's class is the public name of its tag.
 */
describe('what is exported', () => {
  const importers = new Map<string, Set<string>>();
  const note = ({ file, to, names }: Import): void => {
    for (const name of names === 'everything' ? ['*'] : names) {
      const key = `${to} ${name}`;
      importers.set(key, (importers.get(key) ?? new Set()).add(file));
    }
  };
  for (const { imports } of [...sources, ...outside]) imports.forEach(note);

  const unused = sources.flatMap((source) =>
    exportsOf(source).flatMap(({ name, isElement }) => {
      const by = [`${source.file} ${name}`, `${source.file} *`].flatMap((key) => [
        ...(importers.get(key) ?? []),
      ]);
      if (isElement || by.some((file) => file.startsWith('src/'))) return [];
      const usedHere = source.text.split(new RegExp(`\\b${name}\\b`)).length > 2;
      if (by.length > 0 && usedHere) return [];
      return [`${source.file}: ${name}${by.length > 0 ? ' (only a test imports it)' : ''}`];
    }),
  );

  it('has somebody who imports it', () => {
    expect(unused).toEqual([]);
  });
});

describe('comments', () => {
  it('cite no issue: they say why by themselves', () => {
    const citing = [...sources, ...outside].flatMap((source) =>
      commentsOf(source)
        .filter((comment) => /\b(issue|ticket|bug|pull request|PR)s? ?#?\d|(^|[\s(])#\d+\b/i.test(comment))
        .map((comment) => `${source.file}: ${comment}`),
    );
    expect(citing).toEqual([]);
  });

  it('give a reason wherever a rule of the linter is lifted', () => {
    const silent = [...sources, ...outside].flatMap((source) =>
      commentsOf(source)
        .filter((comment) => comment.includes('eslint-disable') && !/ -- \S+ \S+/.test(comment))
        .map((comment) => `${source.file}: ${comment}`),
    );
    expect(silent).toEqual([]);
  });
});
