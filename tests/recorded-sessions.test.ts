import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import index from '../recorded-sessions/index.json';
import type { JudgedKey, Report } from '../src/grading/types';
import { gradeTake } from '../src/take/grade-take';
import { readTake } from '../src/sessions/take';

/** What was planted in each session, as its notes say, and so what its sentence must be about. */
const planted: Readonly<
  Record<string, { measure?: JudgedKey; hand?: 'R' | 'L'; variation?: string; says: RegExp }>
> = {
  steady: { says: /^Every variation holds/ },
  'left-up-stroke-leaks': {
    measure: 'leakBefore',
    hand: 'L',
    variation: 'accent on 4',
    says: /left.* before its accent/,
  },
  'stick-not-stopped': {
    measure: 'leakAfter',
    hand: 'R',
    variation: 'accent on 2',
    says: /right.* after its accent/,
  },
  'left-spills': { measure: 'spill', hand: 'L', says: /left.* beside the other hand/ },
  'weak-second-of-double': { measure: 'fade', says: /second note .* softer/ },
  'right-three-db-louder': { measure: 'balanceAccent', says: /right are 3\.\d dB louder/ },
  'left-late': { measure: 'lag', says: /left .* later|right .* earlier/ },
  'rushed-seam': { measure: 'seam', says: /first stroke after the change .* early/ },
  'lost-slot': { says: /slipped: one partial ahead from bar 10, beat 2/ },
  'echoing-trigger': { says: /^See to the rig first: echoes/ },
  'two-pads-left-lead': {
    measure: 'contrast',
    variation: 'accent on 3, left lead',
    says: /accents are .* dB louder than the taps/,
  },
  'over-feet': {
    measure: 'leakBefore',
    hand: 'L',
    variation: 'accent on 4',
    says: /left.* before its accent/,
  },
  'unisons-left-late': { measure: 'lag', says: /right hand comes 1[678] ms earlier than the left/ },
  'accents-to-toms': {
    measure: 'leakAfter',
    hand: 'R',
    variation: 'accent on 2',
    says: /right.* after its accent/,
  },
  'call-and-response': { measure: 'fade', says: /second note .* softer/ },
  'uneven-flams': { measure: 'graceEvenness', says: /gaps vary by 1[5678] ms/ },
  'free-time': {
    measure: 'leakBefore',
    hand: 'R',
    variation: 'accent on 3',
    says: /right before its accent/,
  },
};

const folder = 'recorded-sessions';
const text = (name: string): string => readFileSync(`${folder}/${name}`, 'utf8');

/** Every number to 1e-9, relative or absolute; all else to the letter. */
function expectClose(actual: unknown, golden: unknown, path: string): void {
  if (typeof golden === 'number' && typeof actual === 'number') {
    expect(Math.abs(actual - golden), `${path}: ${actual} for ${golden}`).toBeLessThanOrEqual(
      1e-9 * Math.max(1, Math.abs(golden)),
    );
  } else if (typeof golden === 'object' && golden !== null && typeof actual === 'object' && actual !== null) {
    expect(Object.keys(actual), path).toEqual(Object.keys(golden));
    for (const [key, value] of Object.entries(golden)) {
      expectClose((actual as Record<string, unknown>)[key], value, `${path}.${key}`);
    }
  } else {
    expect(actual, path).toBe(golden);
  }
}

describe('the recorded sessions', () => {
  const names = Object.keys(planted);

  it('are all here, at least ten, each with its golden report', () => {
    const takes = readdirSync(folder).filter((file) => file.endsWith('.take.json'));
    expect(takes.map((file) => file.replace('.take.json', '')).sort()).toEqual([...names].sort());
    expect(index.map(({ name }) => name).sort()).toEqual([...names].sort());
    expect(names.length).toBeGreaterThanOrEqual(10);
  });

  it.each(names)('%s is labelled a model player’s, and gives its golden report', (name) => {
    const take = readTake(text(`${name}.take.json`));
    expect(take.source).toBe('model');
    expect(take.player).toBe('Model player');
    const golden = JSON.parse(text(`${name}.report.json`)) as Report;
    const report = gradeTake(take);
    expectClose(JSON.parse(JSON.stringify(report)), golden, name);
    expect(index.find((entry) => entry.name === name)?.sentence).toBe(report.sentence);
  });

  it.each(Object.entries(planted))(
    '%s: its planted fault is its sentence',
    (name, { measure, hand, variation, says }) => {
      const { sentence, weakest } = gradeTake(readTake(text(`${name}.take.json`)));
      expect(sentence).toMatch(says);
      if (measure !== undefined) expect(weakest?.measure).toBe(measure);
      if (hand !== undefined) expect(weakest?.hand).toBe(hand);
      if (variation !== undefined) expect(weakest?.variation).toBe(variation);
    },
  );

  it('over feet and across toms nothing is lost: every foot found, no stroke on another drum, bars to listen to not due', () => {
    const graded = (name: string): Report => gradeTake(readTake(text(`${name}.take.json`)));
    const feet = graded('over-feet').feet;
    expect(feet?.counts.missed).toBe(0);
    expect(feet?.counts.matched).toBeGreaterThan(100);
    expect(graded('accents-to-toms').counts).toMatchObject({ missed: 0, extra: 0, wrongSurface: 0 });
    const call = graded('call-and-response');
    expect(call.bars.filter(({ role }) => role === 'listen')).toHaveLength(32);
    expect(call.counts).toMatchObject({ slots: 512, missed: 0, extra: 0 });
  });
});
