import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { readTake, takeFrom, writeTake } from '../../src/sessions/take';

const { take } = modelTake({
  phrase: phraseNamed('Single paradiddle, accent walk'),
  bpm: 84,
  seed: 1,
  cycles: 2,
});

/** What a file holds, as far as these tests change it. */
interface File {
  hits: { atMs: number; velocity: number }[];
  phrase: { bars: { sticking: string }[] };
  tempo: unknown;
  settings: unknown;
  rig?: unknown;
}

/** The take as a file holds it, with one thing changed. */
function changed(change: (file: File) => void): unknown {
  const file = JSON.parse(writeTake(take)) as File;
  change(file);
  return file;
}

describe('a take file', () => {
  it('comes back as it was written', () => {
    expect(readTake(writeTake(take))).toEqual(take);
  });

  it('keeps unknown keys at every level', () => {
    const file = JSON.parse(writeTake(take));
    file.weather = 'rain';
    file.phrase.bars[0].colour = 'none';
    file.hits[3].pressure = 1;
    file.rig.surfaces[0].heights = { low: -24 };
    expect(readTake(writeTake(readTake(JSON.stringify(file))))).toEqual(file);
  });

  it('keeps feet, swing, ramps, dyn, roles and voicing', () => {
    const file = JSON.parse(writeTake(take));
    file.phrase.feet = 'K---H---';
    file.phrase.swing = 0.6;
    file.phrase.voicing = { accents: 'tom' };
    file.phrase.bars[0].dyn = 'p < f >';
    file.phrase.bars[0].role = 'listen';
    file.tempo = {
      ramp: [
        { bar: 0, bpm: 60 },
        { bar: 16, bpm: 132 },
      ],
    };
    expect(readTake(JSON.stringify(file))).toEqual(file);
  });

  it('comes back whatever the hits are (law)', () => {
    const hit = fc.record({
      atMs: fc.double({ min: -1e6, max: 1e7, noNaN: true }),
      port: fc.string(),
      channel: fc.integer({ min: 1, max: 16 }),
      note: fc.integer({ min: 0, max: 127 }),
      velocity: fc.integer({ min: 1, max: 127 }),
    });
    fc.assert(
      fc.property(fc.array(hit, { minLength: 2, maxLength: 40 }), fc.string(), (hits, notes) => {
        const ordered = hits.map((one) => ({ ...one, atMs: one.atMs + 0 })).sort((a, b) => a.atMs - b.atMs);
        const made = { ...take, notes, hits: ordered };
        expect(readTake(writeTake(made))).toEqual(made);
      }),
    );
  });
});

describe('a bad take file', () => {
  it('cut off: says where', () => {
    const text = writeTake(take);
    expect(() => readTake(text.slice(0, 900))).toThrow(/^line \d+, column \d+ must be JSON/);
    expect(() => readTake('')).toThrow('line 1, column 1 must be JSON');
  });

  it.each([
    ['foreign', { format: 'midi' }, 'format must be "evenhand-take", got "midi"'],
    ['newer', { version: 2 }, 'version must be 1, got 2 (written by a newer Evenhand'],
  ])('%s', (_, keys, message) => {
    expect(() => takeFrom({ ...JSON.parse(writeTake(take)), ...keys })).toThrow(message);
  });

  it.each([0, 128, 1.5, null])('with velocity %s', (velocity) => {
    const file = JSON.parse(writeTake(take));
    file.hits[12].velocity = velocity;
    expect(() => takeFrom(file)).toThrow(`hits[12].velocity must be an integer 1–127, got ${velocity}`);
  });

  it('with times that go backwards', () => {
    const file = changed((f) => {
      f.hits[7].atMs = 1;
    });
    expect(() => takeFrom(file)).toThrow(/^hits\[7\]\.atMs must not be before the hit ahead of it/);
  });

  it('empty, or of one stroke', () => {
    const empty = changed((f) => {
      f.hits = [];
    });
    expect(() => takeFrom(empty)).toThrow('hits must have at least 2 hits to be a take, got 0');
    const one = changed((f) => {
      f.hits.length = 1;
    });
    expect(() => takeFrom(one)).toThrow('hits must have at least 2 hits to be a take, got 1');
  });

  it('with a wrong letter or a short bar', () => {
    const wrong = changed((f) => {
      f.phrase.bars[2].sticking = 'rlRr lrLl rlRr lrLx';
    });
    expect(() => takeFrom(wrong)).toThrow(
      'phrase.bars[2].sticking: line 1, column 19 must be R or L (accent)',
    );
    const short = changed((f) => {
      f.phrase.bars[2].sticking = 'rlRr lrLl rlRr lrL';
    });
    expect(() => takeFrom(short)).toThrow(
      'phrase.bars[2].sticking must fill its bar: 15 partials in a bar of 16',
    );
  });

  it('with bpm 0, or none', () => {
    const zero = changed((f) => {
      f.tempo = { bpm: 0 };
    });
    expect(() => takeFrom(zero)).toThrow('tempo.bpm must be a tempo from 20 to 400 bpm, got 0');
    // NaN has no JSON; it is written as null.
    const none = changed((f) => {
      f.tempo = { bpm: null };
    });
    expect(() => takeFrom(none)).toThrow('tempo.bpm must be a tempo from 20 to 400 bpm, got null');
  });

  it('that lacks a key', () => {
    const lacking = changed((f) => {
      delete f.rig;
    });
    expect(() => takeFrom(lacking)).toThrow('rig is missing');
    expect(() => takeFrom(null)).toThrow('file must be a JSON object with a format');
    expect(() => takeFrom([])).toThrow('file must be a JSON object with a format');
  });

  it('with a setting that is none', () => {
    const file = changed((f) => {
      f.settings = { 'contrast.hold': 3 };
    });
    expect(() => takeFrom(file)).toThrow('settings.contrast.hold is not a setting');
  });
});
