import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { check } from '../src/cli/check';
import { convert } from '../src/cli/convert';
import { grade } from '../src/cli/grade';
import { model } from '../src/cli/model';
import { phrases } from '../src/cli/phrases';

const modules = import.meta.glob<Record<string, unknown>>('../src/**/*.ts');
const sources = import.meta.glob<string>('../src/**/*.ts', { eager: true, query: '?raw', import: 'default' });

interface Example {
  readonly file: string;
  readonly expression: string;
  readonly expected: string;
}

/** Every `@example EXPRESSION // => VALUE` of a docstring, also where the value stands on the next line. */
function examplesOf(file: string, text: string): Example[] {
  return [...text.matchAll(/@example ([^\n]+?)\s*(?:\n\s*\* )?\/\/ => ([^\n*]+)/g)].map((match) => ({
    file,
    expression: match[1].trim(),
    expected: match[2].trim(),
  }));
}

const examples = Object.entries(sources).flatMap(([file, text]) => examplesOf(file, text));

describe('the examples in the docstrings', () => {
  it('are found', () => {
    expect(examples.length).toBeGreaterThan(5);
  });

  it.each(examples)('$file: $expression', async ({ file, expression, expected }) => {
    const scope = {
      ...(await scopeOf('../src/settings.ts')),
      ...(await scopeOf('../src/exercises/sticking.ts')),
    };
    Object.assign(scope, await scopeOf('../src/errors.ts'), await scopeOf(file));
    // The example is our own text, run in the module's own scope.
    const run = (code: string): unknown =>
      new Function(...Object.keys(scope), `return (${code});`)(...Object.values(scope));
    const actual = run(expression);
    const isQuoted = expected.startsWith("'") || typeof actual !== 'string';
    const wanted = isQuoted ? run(expected.replaceAll('−', '-')) : expected;
    const digits = Math.max(0, ...[...expected.matchAll(/\.(\d+)/g)].map((match) => match[1].length));
    expect(rounded(actual, digits)).toEqual(rounded(wanted, digits));
  });
});

/** What a module exports; the examples of a file that draws (imports lit) are not run here. */
async function scopeOf(file: string): Promise<Record<string, unknown>> {
  return { ...(await modules[file]()) };
}

/** The value with every number in it rounded to the digits the example shows. */
function rounded(value: unknown, digits: number): unknown {
  if (typeof value === 'number') return Number(value.toFixed(digits));
  if (Array.isArray(value)) return value.map((one) => rounded(one, digits));
  if (typeof value === 'object' && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, rounded(one, digits)]));
  }
  return value;
}

describe('the commands in the README', () => {
  const folder = mkdtempSync(join(tmpdir(), 'evenhand-readme-'));
  const commands: Readonly<Record<string, (args: readonly string[]) => string>> = {
    check,
    convert,
    grade,
    model,
    phrases,
  };
  const lines = [...readFileSync('README.md', 'utf8').matchAll(/^npm run --silent evenhand -- (.+)$/gm)];

  it.each(lines.map(([, line]) => line))('%s', (line) => {
    const [name, ...args] = [...line.matchAll(/"([^"]+)"|(\S+)/g)].map((match) => match[1] ?? match[2]);
    // What a line would write beside the reader goes to a folder of the test's own.
    const moved = args.map((arg) => (/^[\w-]+\.mid$/.test(arg) ? join(folder, arg) : arg));
    expect(commands[name](moved).length).toBeGreaterThan(40);
  });

  it('are found', () => {
    expect(lines.length).toBeGreaterThanOrEqual(5);
  });
});
