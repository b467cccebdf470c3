import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../src/exercises/phrase';
import { modelTake } from '../src/model/model-player';
import type { Take } from '../src/sessions/types';
import { settingTable } from '../src/settings';
import { gradeTake } from '../src/take/grade-take';

const sources = import.meta.glob<string>('../src/**/*.ts', { eager: true, query: '?raw', import: 'default' });
const elsewhere = Object.entries(sources)
  .filter(([file]) => !file.endsWith('/src/settings.ts'))
  .map(([, text]) => text)
  .join('\n');

/** By its whole name, or by a name put together from its beginning or its end. */
function isUsed(key: string): boolean {
  const [of, what] = key.split('.');
  if (elsewhere.includes(`'${key}'`)) return true;
  return (
    [...elsewhere.matchAll(/`([^`$]*)\$\{[^}]*\}([^`$]*)(?:\$\{[^}]*\})?([^`$]*)`/g)].some(
      ([, before, between, after]) =>
        before + between + after !== '' &&
        key.startsWith(before) &&
        key.endsWith(after) &&
        key.includes(between) &&
        (before.startsWith(`${of}.`) || between.startsWith('.')),
    ) && what !== ''
  );
}

describe('the settings', () => {
  it('are each asked for somewhere: one that does nothing would be a lie in every report', () => {
    expect(Object.keys(settingTable).filter((key) => !isUsed(key))).toEqual([]);
  });

  it('each say their unit and where they are from', () => {
    for (const [key, { unit, source }] of Object.entries(settingTable)) {
      expect(unit, key).not.toBe('');
      expect(source, key).not.toBe('');
    }
  });

  it('are all in the report, as they were in force', () => {
    const { take } = modelTake({ phrase: phraseNamed('Single paradiddle, accent walk'), bpm: 84, seed: 5 });
    const { settings } = gradeTake({ ...take, settings: { 'unison.mostGaps': 0.3 } });
    expect(Object.keys(settings).sort()).toEqual(Object.keys(settingTable).sort());
    expect(settings['unison.mostGaps']).toBe(0.3);
  });
});

describe('a setting that a take changes moves its report', () => {
  const walk = phraseNamed('Single paradiddle, accent walk');
  const graded = (take: Take, settings: Take['settings'] = {}) => gradeTake({ ...take, settings });

  it('hand.restMs: a hand that rests longer has neither up nor down strokes', () => {
    // At 84 bpm the accent walk's hands strike again within 3 sixteenths, 536 ms.
    const { take } = modelTake({ phrase: walk, bpm: 84, seed: 5, cycles: 2 });
    expect(graded(take).strokeTypes.R.up.n).toBeGreaterThan(0);
    const none = graded(take, { 'hand.restMs': 100 }).strokeTypes;
    expect([none.R.up.n, none.R.down.n, none.L.up.n, none.L.down.n]).toEqual([0, 0, 0, 0]);
  });

  it('feet.limitGaps: a foot farther than that from its slot answers none', () => {
    const phrase = { ...walk, feet: 'K--- H--- K--- H---' };
    const { take } = modelTake({ phrase, bpm: 84, seed: 5, cycles: 2 });
    const missed = (settings: Take['settings']): number => graded(take, settings).feet!.counts.missed;
    expect(missed({})).toBe(0);
    expect(missed({ 'feet.limitGaps': 0.0001 })).toBeGreaterThan(20);
  });

  it('free.slotsOfLine: a line through four slots tells another tempo than one through sixteen', () => {
    const { take } = modelTake({ phrase: walk, bpm: 84, seed: 5, cycles: 2 });
    const free: Take = { ...take, click: 'none', downbeatMs: null };
    const tempoOf = (settings: Take['settings']) => graded(free, settings).freeTime?.tempo;
    expect(tempoOf({})).toEqual(tempoOf({ 'free.slotsOfLine': 16 }));
    expect(tempoOf({})).not.toEqual(tempoOf({ 'free.slotsOfLine': 4 }));
  });
});
