import { describe, expect, it } from 'vitest';
import { dispatcher } from '../../src/state/dispatcher';
import { areas, reduce } from '../../src/state/reducer';
import { firstState } from '../../src/state/state';

const read = (files: Record<string, string>): readonly (readonly [string, string])[] => Object.entries(files);
const actions = import.meta.glob<string>('../../src/state/actions.ts', {
  eager: true,
  query: '?raw',
  import: 'default',
});
const effects = import.meta.glob<string>('../../src/effects/*.ts', {
  eager: true,
  query: '?raw',
  import: 'default',
});
const components = import.meta.glob<string>('../../src/components/**/*.ts', {
  eager: true,
  query: '?raw',
  import: 'default',
});

const kinds = read(actions).flatMap(([, text]) =>
  [...text.matchAll(/readonly kind: '([^']+)'/g)].map(([, kind]) => kind),
);
/** The body of each `const on = { … }` of the effects. */
const tables = read(effects).flatMap(([file, text]) =>
  [...text.matchAll(/\bon(?: =|:) \{([\s\S]*?)\} satisfies Effects\['on'\]/g)].map(
    ([, body]) => [file, body] as const,
  ),
);
const set = (body: string, kind: string): boolean =>
  new RegExp(`^\\s*(?:'${kind}'|${kind.replaceAll(' ', '_')})[:,]|\\{ ?'?${kind}'?:`, 'm').test(body) ||
  new RegExp(`, '${kind}':`).test(body);
const isReduced = (kind: string): boolean => areas.some((area) => kind in area);
const setsOff = (kind: string): boolean => tables.some(([, body]) => set(body, kind));

describe('the one list of actions', () => {
  it('names each action once', () => {
    expect(kinds.length).toBeGreaterThan(100);
    expect(kinds.filter((kind, index) => kinds.indexOf(kind) !== index)).toEqual([]);
  });

  it('has none that nobody handles: the reducer, or an effect', () => {
    expect(tables.length).toBeGreaterThan(10);
    expect(kinds.filter((kind) => !isReduced(kind) && !setsOff(kind))).toEqual([]);
  });

  it('has none that nobody gives: an element, an effect', () => {
    const text = [...read(components), ...read(effects)].map(([, one]) => one).join('\n');
    // The three of History are told apart by what is chosen.
    const given = (kind: string): boolean =>
      text.includes(`kind: '${kind}'`) || (kind.startsWith('history ') && text.includes('kind: `history ${'));
    expect(kinds.filter((kind) => !given(kind))).toEqual([]);
  });

  it('no effect only passes an action on: what moves the state by itself stands in the reducer', () => {
    const passedOn = tables.flatMap(([file, body]) =>
      [...body.matchAll(/^\s*('?[\w ]+'?): \([^)]*\) =>\s*(?:\{\s*)?dispatch\(/gm)].map(
        ([, kind]) => `${file}: ${kind}`,
      ),
    );
    expect(passedOn).toEqual([]);
  });
});

describe('the way of an action', () => {
  it('is the reducer, then whoever follows the state, then the effects', () => {
    const { state, dispatch, listen } = dispatcher(firstState);
    const seen: string[] = [];
    listen([
      {
        on: { tempo: () => seen.push(`effect at ${state().bpm}`) },
        changed: ({ bpm }) => seen.push(`shown ${bpm}`),
      },
    ]);
    dispatch({ kind: 'tempo', bpm: 90 });
    expect(seen).toEqual(['shown 90', 'effect at 90']);
  });

  it('where nothing moves nobody is told, and the effects come all the same', () => {
    const { dispatch, listen } = dispatcher(firstState);
    const seen: string[] = [];
    listen([{ on: { start: () => seen.push('effect') }, changed: () => seen.push('shown') }]);
    dispatch({ kind: 'start' });
    expect(seen).toEqual(['effect']);
  });

  it('an effect may give the next action: each is seen whole before the next', () => {
    const { state, dispatch, listen } = dispatcher(firstState);
    listen([{ on: { go: () => dispatch({ kind: 'tempo', bpm: 100 }) } }]);
    dispatch({ kind: 'go', screen: 'play' });
    expect([state().screen, state().bpm]).toEqual(['play', 100]);
  });

  it('bad input becomes the problem line and changes nothing else', () => {
    const { problem, ...rest } = reduce(firstState, { kind: 'cycles', cycles: 0 });
    expect(problem).toBe('Cycles must be a whole number from 1 to 999, got 0');
    expect({ ...rest, problem: '' }).toEqual(firstState);
  });
});
