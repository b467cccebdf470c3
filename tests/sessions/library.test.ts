import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { libraryOf, mergeLibrary, readLibrary, writeLibrary, type Library } from '../../src/sessions/library';
import type { Held } from '../../src/sessions/library/merge';
import { newPlayer } from '../../src/sessions/player';
import type { WeekSheet } from '../../src/sessions/week-sheet';

const NOW = '2026-11-25T12:00:00.000Z';
const EARLIER = '2026-11-01T12:00:00.000Z';
const phrase = phraseNamed('Single paradiddle, accents off');
const { take } = modelTake({ phrase, bpm: 84, seed: 1, cycles: 2, id: 't1' });
const week: WeekSheet = {
  format: 'evenhand-week',
  version: 1,
  id: 'w1',
  student: 'K.',
  phrase,
  bpm: 80,
  limits: 'working',
  targets: [],
  words: '',
  due: null,
  changedAt: NOW,
};
const library: Library = libraryOf(
  {
    players: [newPlayer('p1', 'Kim', NOW), newPlayer('p2', '', NOW)],
    phrases: [
      { format: 'evenhand-phrase', version: 1, name: 'For Tuesday', phrase, bpm: 72, changedAt: NOW },
    ],
    rigs: [{ id: 'r1', rig: { ...take.rig, id: 'r1', name: 'Pad' }, changedAt: NOW }],
    sheets: [{ id: 'w1', playerId: 'p1', changedAt: NOW, file: week }],
    notes: [{ id: 'n1', playerId: 'p1', changedAt: NOW, file: { words: 'Low sticks.' } }],
    takes: [{ take, playerId: 'p1', sentence: 'Every variation holds.', graded: null }],
  },
  NOW,
);
const nothing: Held = { players: [], phrases: [], rigs: [], sheets: [], notes: [], takes: [] };
const outcomes = (held: Held, coming: Library): string[] =>
  mergeLibrary(held, coming).rows.map(({ list, key, outcome }) => `${list} ${key}: ${outcome}`);

describe('a library file', () => {
  it('comes back as it was written', () => {
    expect(readLibrary(writeLibrary(library))).toEqual({ library, refused: [] });
  });

  it('one bad take is refused with its place and stops nothing else', () => {
    const bad = { ...library.takes[0], take: { ...take, id: 't2', hits: [] } };
    const { library: read, refused } = readLibrary(
      writeLibrary({ ...library, takes: [bad, ...library.takes] }),
    );
    expect(read).toEqual(library);
    expect(refused).toEqual([
      {
        list: 'takes',
        index: 0,
        reason: 'takes[0].take.hits must have at least 2 hits to be a take, got 0',
      },
    ]);
  });

  it('a thing that is there twice is taken once', () => {
    const { library: read, refused } = readLibrary(
      writeLibrary({ ...library, players: [...library.players, newPlayer('p1', 'Kim again', NOW)] }),
    );
    expect(read).toEqual(library);
    expect(refused[0].reason).toBe('players[2] must not be there twice, got "p1"');
  });

  it.each([
    ['{"format":"evenhand-library"', 'line 1, column 29 must be JSON (the file seems cut off)'],
    ['{"format":"evenhand-take"}', 'format must be "evenhand-library", got "evenhand-take"'],
    [writeLibrary({ ...library, version: 2 as 1 }), 'version must be 1, got 2'],
    [JSON.stringify({ ...library, takes: 3 }), 'takes must be a list, got 3'],
  ])('%.40s is no library', (json, message) => {
    expect(() => readLibrary(json)).toThrow(message);
  });

  it('what was said of a take and is unsound is left out; the take stays', () => {
    const said = { ...library.takes[0], graded: { version: 1, bars: 'many' } as never };
    const { library: read, refused } = readLibrary(writeLibrary({ ...library, takes: [said] }));
    expect(read.takes[0].graded).toBeNull();
    expect(refused).toEqual([]);
  });
});

/** All that would then be here. */
function after(held: Held, coming: Library): Held {
  const { batch } = mergeLibrary(held, coming);
  const over = <Thing>(
    here: readonly Thing[],
    more: readonly Thing[] = [],
    key: (thing: Thing) => string,
  ): Thing[] => [...new Map([...here, ...more].map((thing) => [key(thing), thing])).values()];
  return {
    players: over(held.players, batch.players, ({ id }) => id),
    phrases: over(held.phrases, batch.phrases, ({ name }) => name),
    rigs: over(held.rigs, batch.rigs, ({ id }) => id),
    sheets: over(held.sheets, batch.sheets, ({ id }) => id),
    notes: over(held.notes, batch.notes, ({ id }) => id),
    takes: over(
      held.takes,
      batch.takes?.map((one) => one.take),
      ({ id }) => id,
    ),
  };
}

describe('merging', () => {
  it('into an empty browser: all of it is new, a second time nothing is', () => {
    expect(outcomes(nothing, library)).toEqual([
      'players p1: new',
      'players p2: new',
      'phrases For Tuesday: new',
      'rigs r1: new',
      'sheets w1: new',
      'notes n1: new',
      'takes t1: new',
    ]);
    const twice = mergeLibrary(after(nothing, library), library);
    expect(new Set(twice.rows.map(({ outcome }) => outcome))).toEqual(new Set(['same']));
    expect(Object.values(twice.batch).flat()).toEqual([]);
  });

  it('the newer wins, whichever side it is on', () => {
    const old = { ...nothing, players: [newPlayer('p1', 'Old name', EARLIER)] };
    expect(outcomes(old, library)[0]).toBe('players p1: newer');
    const newer = { ...nothing, players: [newPlayer('p1', 'Newest name', '2026-12-24T00:00:00.000Z')] };
    expect(outcomes(newer, library)[0]).toBe('players p1: older');
    expect(mergeLibrary(newer, library).batch.players?.map(({ id }) => id)).toEqual(['p2']);
  });

  it('neither is the newer: both are kept, the second under a name with a number', () => {
    const ours = { ...library.phrases[0], bpm: 60 };
    const held = { ...nothing, phrases: [ours] };
    expect(outcomes(held, library)[2]).toBe('phrases For Tuesday (2): both');
    const then = after(held, library);
    expect(then.phrases.map(({ name, bpm }) => [name, bpm])).toEqual([
      ['For Tuesday', 60],
      ['For Tuesday (2)', 72],
    ]);
    expect(outcomes(then, library)[2]).toBe('phrases For Tuesday (2): same');
  });

  it('two takes of one id that differ are two takes; who owns one makes no difference', () => {
    const other = { ...take, notes: 'another' };
    expect(outcomes({ ...nothing, takes: [other] }, library).at(-1)).toBe('takes t1 (2): both');
    expect(outcomes({ ...nothing, takes: [{ ...take, playerId: 'p9' }] }, library).at(-1)).toBe(
      'takes t1: same',
    );
  });

  it('what is said of a take comes along, so that History need not grade it again', () => {
    const { batch } = mergeLibrary(nothing, library);
    expect(batch.takes?.[0].summary).toMatchObject({
      id: 't1',
      playerId: 'p1',
      sentence: 'Every variation holds.',
    });
  });

  it('nothing here is lost and no newer thing is overwritten; merging twice is merging once (laws)', () => {
    const player = fc
      .tuple(fc.constantFrom('a', 'b'), fc.constantFrom('x', 'y', 'z'), fc.constantFrom(EARLIER, NOW))
      .map(([id, name, at]) => newPlayer(id, name, at));
    fc.assert(
      fc.property(
        fc.uniqueArray(player, { selector: ({ id }) => id, maxLength: 2 }),
        fc.uniqueArray(player, { selector: ({ id }) => id, maxLength: 2 }),
        (here, coming) => {
          const held = { ...nothing, players: here };
          const incoming = { ...library, players: coming };
          const once = after(held, incoming);
          for (const old of here) {
            const now = once.players.find(({ id }) => id === old.id);
            expect(now).toBeDefined();
            expect((now?.changedAt ?? '') >= old.changedAt).toBe(true);
          }
          expect(after(once, incoming)).toEqual(once);
        },
      ),
      { numRuns: 300, seed: 9 },
    );
  });
});
