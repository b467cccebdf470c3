import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readTake, takeFrom } from '../../src/sessions/take';
import type { Take } from '../../src/sessions/types';

// What a file may say: times of one day, levels, trims and delays a rig can have, no more bars than an hour has.

const steady = readTake(readFileSync('recorded-sessions/steady.take.json', 'utf8'));
const [pad] = steady.rig.surfaces;
const withRig = (rig: Partial<Take['rig']>): unknown => ({ ...steady, rig: { ...steady.rig, ...rig } });
const DAY_MS = 86_400_000;
const last = steady.hits.length - 1;

describe('a take is refused', () => {
  it.each([
    [
      { ...steady, hits: steady.hits.with(last, { ...steady.hits[last], atMs: 2 * DAY_MS }) },
      `hits[${last}].atMs must be within a day of the downbeat`,
    ],
    [{ ...steady, downbeatMs: -2 * DAY_MS }, 'hits[0].atMs must be within a day of the downbeat'],
    [{ ...steady, downbeatMs: 1e300 }, 'downbeatMs must be a time in ms, got 1e+300'],
    [
      { ...steady, events: [{ atMs: 1e12, kind: 'page hidden' }] },
      'events[0].atMs must be within a day of the downbeat',
    ],
    [withRig({ inputDelayMs: 1e6 }), 'rig.inputDelayMs must be −2000 to 2000 ms, got 1000000'],
    [
      withRig({ surfaces: [{ ...pad, trimDb: -1e9 }] }),
      'rig.surfaces[0].trimDb must be −60 to 60 dB, got -1000000000',
    ],
    [
      withRig({ surfaces: Array.from({ length: 129 }, (_, id) => ({ ...pad, id: `s${id}` })) }),
      'rig.surfaces must have at most 128 surfaces',
    ],
    [
      { ...steady, phrase: { ...steady.phrase, cycles: 10_000 } },
      'phrase.cycles must make at most 400000 partials, an hour of the finest: its bars have 64, got 10000',
    ],
    [{ ...steady, settings: { 'echo.windowMs': 1e9 } }, 'settings.echo.windowMs must be 0 to 1000'],
    [{ ...steady, settings: { 'few.group': -1 } }, 'settings.few.group must be 1 to 40, got -1'],
  ])('that says %#', (data, message) => {
    expect(() => takeFrom(data)).toThrow(message);
  });
});

describe('a text is refused before anything is made of it', () => {
  it('where it is nested deeper than any file of ours', () => {
    const deep = `{"format":"evenhand-take","x":${'['.repeat(100_000)}`;
    expect(() => readTake(deep)).toThrow('file must not be nested more than 64 deep');
  });

  it('and brackets in texts are none', () => {
    const notes = `"\\"${'['.repeat(100)}`;
    expect(takeFrom(JSON.parse(JSON.stringify({ ...steady, notes }))).notes).toBe(notes);
    expect(readTake(JSON.stringify({ ...steady, notes })).notes).toBe(notes);
  });
});
