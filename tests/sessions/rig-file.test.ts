import { describe, expect, it } from 'vitest';
import { readRigFile, rigFileOf, writeRigFile } from '../../src/sessions/rig-file';
import { readTake } from '../../src/sessions/take';
import type { Rig } from '../../src/sessions/types';

const rig: Rig = {
  levelLaw: 'gm2',
  inputDelayMs: 6.5,
  outputDelayMs: 21,
  surfaces: [
    {
      id: 'snare',
      name: 'Snare',
      port: 'Kit',
      channel: 10,
      notes: [38, 40],
      hand: null,
      trimDb: -0.5,
      trimmed: true,
      thresholdVelocity: 4,
      heights: { R: { low: { db: -25, n: 8 }, half: { db: -14, n: 8 }, full: { db: -4, n: 8 } } },
      spots: { R: 0.75, L: -0.75, leftDb: 0.6 },
      closestPairMs: 14,
      afterAccent: { db: 2.5, withinMs: 90, n: 10 },
      forerunner: { withinMs: 5, ratio: 0.3, n: 4 },
      echo: { fromMs: 40, toMs: 80, ratio: 0.2, n: 9 },
    },
    { id: 'rim', name: 'Rim', port: 'Kit', channel: 10, notes: [37], hand: null, trimDb: 0 },
  ],
  crosstalk: [{ from: 'snare', to: 'rim', fromMs: -2, toMs: 14, ratio: 0.2, n: 5 }],
  delays: { spreadMs: 7, leftMs: 1.5, n: 60, output: 'audio clock' },
  start: { surface: 'rim' },
  clumpedPorts: [],
};
const file = rigFileOf(rig, 'r1', 'Practice room');

/** The file with one value replaced, by path. */
function withValue(path: readonly (string | number)[], value: unknown): string {
  const copy = structuredClone(file) as unknown as Record<string | number, unknown>;
  let at = copy;
  for (const key of path.slice(0, -1)) at = at[key] as Record<string | number, unknown>;
  at[path[path.length - 1]] = value;
  return JSON.stringify(copy);
}

// take-format.md: a bad file is refused with its place, unknown keys survive, a newer version is refused by name
describe('a rig file', () => {
  it('comes back as it was written, unknown keys included', () => {
    const more = { ...file, made: 'by hand', rig: { ...file.rig, room: 'attic' } };
    expect(readRigFile(writeRigFile(more))).toEqual(more);
  });

  it.each([
    [['format'], 'evenhand-take', 'format must be "evenhand-rig", got "evenhand-take"'],
    [['version'], 2, 'version must be 1, got 2 (written by a newer Evenhand; update this one)'],
    [['rig', 'id'], '', 'rig.id must not be empty, got ""'],
    [['rig', 'surfaces', 1, 'id'], 'snare', 'rig.surfaces[1].id must not be another’s, got "snare"'],
    [['rig', 'surfaces', 1, 'notes'], [37, 38], 'rig.surfaces[1].notes[1] must not be owned by "Snare" too'],
    [['rig', 'surfaces', 0, 'notes', 0], 128, 'rig.surfaces[0].notes[0] must be an integer 0–127, got 128'],
    [['rig', 'surfaces', 0, 'echo', 'ratio'], 20, 'rig.surfaces[0].echo.ratio must be a share 0–1, got 20'],
    [
      ['rig', 'surfaces', 0, 'heights', 'R', 'low', 'db'],
      '−25',
      'rig.surfaces[0].heights.R.low.db must be −90 to 90 dB',
    ],
    [['rig', 'crosstalk', 0, 'to'], 'tom', 'rig.crosstalk[0].to must be the id of a surface, got "tom"'],
    [['rig', 'start', 'surface'], 'tom', 'rig.start.surface must be the id of a surface, got "tom"'],
  ] as const)('with %j = %j is refused with its place', (path, value, message) => {
    expect(() => readRigFile(withValue(path, value))).toThrow(message);
  });

  it('cut off: says where', () => {
    expect(() => readRigFile(writeRigFile(file).slice(0, 100))).toThrow(
      'must be JSON (the file seems cut off)',
    );
  });

  it('two pads with one note on two ports are two surfaces', () => {
    const text = withValue(['rig', 'surfaces', 1], { ...rig.surfaces[1], port: 'Other', notes: [38] });
    expect(readRigFile(text).rig.surfaces).toHaveLength(2);
  });
});

describe('a take with a rig that has learned', () => {
  const hit = (atMs: number) => ({ atMs, port: 'Kit', channel: 10, note: 38, velocity: 90 });
  const take = {
    format: 'evenhand-take',
    version: 1,
    id: 't',
    player: '',
    recordedAt: '2026-03-02T17:05:11.000Z',
    source: 'played',
    phrase: {
      title: 'x',
      beatsPerBar: 4,
      partialsPerBeat: 2,
      cycles: 1,
      bars: [{ variation: 'a', sticking: 'RrLl RrLl' }],
    },
    tempo: { bpm: 80 },
    click: 'on',
    limits: 'working',
    settings: {},
    downbeatMs: 0,
    hits: [hit(0), hit(400)],
    notes: '',
  };

  it('keeps all of it', () => {
    expect(readTake(JSON.stringify({ ...take, rig: file.rig })).rig).toEqual(file.rig);
  });

  it('and says where it is wrong', () => {
    const wrong = { ...rig, delays: { ...rig.delays, leftMs: -1 } };
    expect(() => readTake(JSON.stringify({ ...take, rig: wrong }))).toThrow(
      'rig.delays.leftMs must be 0 to 2000 ms, got -1',
    );
  });
});
