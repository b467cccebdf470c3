import { describe, expect, it } from 'vitest';

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
