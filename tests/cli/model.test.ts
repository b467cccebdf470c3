import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { grade } from '../../src/cli/grade';
import { model } from '../../src/cli/model';
import type { Report } from '../../src/grading/types';

const file = join(mkdtempSync(join(tmpdir(), 'evenhand-model-')), 'made.take.json');

function made(...args: readonly string[]): Report {
  model(['--bpm', '90', '--out', file, '--force', ...args]);
  return JSON.parse(grade([file, '--json'])) as Report;
}

describe('model, then grade (planted and found again; common practice, no source)', () => {
  const flams = ['--phrase', 'flam accent', '--cycles', '24'];

  it('a flam accent: graces 30 ms ahead, 22 dB under their accents, within 3 ms of each other', () => {
    const { measures, counts } = made(...flams);
    expect([counts.missed, counts.extra, counts.gracesMissed]).toEqual([0, 0, 0]);
    expect(Math.abs((measures.flamGap?.value ?? NaN) - 30)).toBeLessThan(1.5);
    expect(Math.abs((measures.graceEvenness?.value ?? NaN) - 3)).toBeLessThan(1);
    expect(Math.abs((measures.graceSoftness?.value ?? NaN) + 22)).toBeLessThan(1);
  });

  it('with an unevenness of 12 ms', () => {
    const { measures, weakest } = made(...flams, '--fault', 'flam-uneven:12', '--fault', 'flam-gap:42');
    expect(Math.abs((measures.graceEvenness?.value ?? NaN) - 12)).toBeLessThan(2);
    expect(weakest?.measure).toBe('graceEvenness');
  });

  it('with graces 14 dB louder', () => {
    const { weakest } = made(...flams, '--fault', 'grace:14');
    expect(weakest?.measure).toBe('graceSoftness');
    expect(Math.abs((weakest?.value ?? NaN) + 8)).toBeLessThan(1);
  });

  it('a groove: to the kit, over feet of its own, swung', () => {
    const report = made(
      ...['--phrase', 'single paradiddle', '--voicing', 'two surfaces'],
      ...['--feet', 'K--- h---', '--swing', '0.6'],
    );
    expect([report.fits, report.hands, report.counts.missed, report.counts.extra]).toEqual([
      true,
      'known',
      0,
      0,
    ]);
    expect(report.feet?.counts.missed).toBe(0);
    expect(grade([file])).toMatch(/^Bass drum foot: \d+ of \d+ strokes, scatter \d+ ms/m);
  });

  it.each([
    [['--swing', '0.8'], '--swing must be 0.50–0.70, got "0.8"'],
    [['--voicing', 'to the moon'], /^voicing must be one of: accents to toms/],
    [['--feet', 'K-q'], /^line 1, column 3 must be K \(bass drum foot\)/],
  ] as const)('%j is told', (args, message) => {
    expect(() => made('--phrase', 'flam', ...args)).toThrow(message);
  });
});
