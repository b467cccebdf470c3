import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { phraseNamed } from '../../src/exercises/phrase';
import { voiced } from '../../src/exercises/voicings';
import { gradeTake } from '../../src/take/grade-take';
import { modelTake } from '../../src/model/model-player';
import { csvOfTake } from '../../src/take/take-csv';

const rowsOf = (csv: string): string[][] =>
  csv
    .trimEnd()
    .split('\r\n')
    .map((row) => row.split(','));

describe('a take as CSV', () => {
  const { take, truth } = modelTake({
    phrase: phraseNamed('Single paradiddle, accents off'),
    bpm: 60,
    seed: 3,
    added: 0.05,
  });
  const [head, ...rows] = rowsOf(csvOfTake(take));
  const at = (name: string): number => head.indexOf(name);

  it('has a row a slot and a row an extra: as many as the report counts', () => {
    const { counts } = gradeTake(take);
    expect(truth.addedHits.length).toBeGreaterThan(0);
    expect(counts.extra).toBeGreaterThan(0);
    expect(rows.filter((row) => row[at('status')] === 'extra')).toHaveLength(counts.extra);
    expect(rows).toHaveLength(counts.slots + counts.extra);
  });

  it('stands in time order: beats go up in each bar', () => {
    const times = rows.map((row) => (Number(row[at('bar')]) - 1) * 4 + Number(row[at('beat')]));
    expect(times).toEqual([...times].sort((a, b) => a - b));
  });

  it('an extra has a level and a beat, no slot, kind or deviation', () => {
    const extra = rows.find((row) => row[at('status')] === 'extra') ?? [];
    expect(Number(extra[at('level dB')])).toBeLessThan(0);
    expect(Number(extra[at('beat')])).toBeGreaterThan(0.5);
    expect([extra[at('slot')], extra[at('kind')], extra[at('deviation ms')]]).toEqual(['', '', '']);
  });

  it('says which strokes were on a wrong drum, the level each is judged at, and what it counts for', () => {
    const phrase = { ...voiced(phraseNamed('Single paradiddle, accent walk'), 'accents to toms'), cycles: 8 };
    const made = modelTake({ phrase, bpm: 90, seed: 3 }).take;
    let accents = 0;
    // every fourth accent of the right hand stays on the snare (General MIDI 38) in place of the floor tom (high, 43)
    const hits = made.hits.map((hit) =>
      hit.note === 43 && (accents += 1) % 4 === 0 ? { ...hit, note: 38 } : hit,
    );
    const report = gradeTake({ ...made, hits });
    const [names, ...all] = rowsOf(csvOfTake({ ...made, hits }));
    const of = (name: string): string[] => all.map((row) => row[names.indexOf(name)]);
    expect(of('wrong drum').filter((one) => one === 'yes')).toHaveLength(report.counts.wrongSurface ?? NaN);
    expect(report.counts.wrongSurface).toBe(16);
    expect(of('judged dB').map(Number)).toEqual(report.slots.map(({ judgedLevel }) => judgedLevel ?? 0));
    expect(of('terms')[1]).toBe('before after spill');
    expect(of('counts for')[0].split(' ')).toContain('contrast');
  });

  it('no name of a variation is run by a spreadsheet: no cell begins like a formula (law)', () => {
    const formula = fc
      .tuple(fc.constantFrom('=', '+', '-', '@', '\t', ' =', '\r', '＝'), fc.string({ maxLength: 12 }))
      .map((parts) => parts.join(''));
    fc.assert(
      fc.property(formula, (variation) => {
        const [bar] = take.phrase.bars;
        const named = { ...take, phrase: { ...take.phrase, bars: [{ ...bar, variation }] } };
        const first = csvOfTake(named).split('\r\n').slice(1).join('\r\n').split(',').slice(1).join(',');
        expect(first).toMatch(/^"?'/);
      }),
      { numRuns: 40, seed: 2 },
    );
  });
});
