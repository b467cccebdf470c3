import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/** A row of the tables of docs/reliability.md: its last cell names a test. A bar behind a backslash is no end of a cell. */
const rows = readFileSync('docs/reliability.md', 'utf8')
  .split('\n')
  .filter((line) => line.startsWith('| ') && !/^\| (fault|---|-+) /.test(line))
  .map((line) => {
    const [fault, promise, test] = line.slice(2, -2).split(/(?<!\\)\|/);
    const [, file, name] = /^`(tests\/[\w/.-]+)` › (.+)$/.exec(test.trim().replaceAll('\\|', '|')) ?? [];
    return { fault: fault.trim(), promise: promise.trim(), file, name };
  });

describe('every fault that is named has a promise and a test', () => {
  it('more than forty of them', () => {
    expect(rows.length).toBeGreaterThan(40);
  });

  it.each(rows)('$fault', ({ promise, file, name }) => {
    expect(promise).not.toBe('');
    expect(existsSync(file)).toBe(true);
    const text = readFileSync(file, 'utf8').replaceAll("\\'", "'");
    const isTest = new RegExp(`(it|describe)(\\.each\\(.*\\))?\\(\\s*['"\`]${escaped(name)}['"\`]`, 's');
    expect(isTest.test(text), `${file} has no test "${name}"`).toBe(true);
  });
});

function escaped(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
}
