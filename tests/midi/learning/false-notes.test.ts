import { describe, expect, it } from 'vitest';
import { condition } from '../../../src/midi/conditioning';
import {
  falseNotesFound,
  nextSingle,
  noFalseNotes,
  rigWithWindows,
} from '../../../src/midi/learning/false-notes';
import { windowWarnings } from '../../../src/midi/learning/window-warnings';
import { plainRigOf, reportedBy, type ModelKit, type Struck } from '../../model-kit';
import { normal, seeded } from '../../../src/model/random';
import type { Rig } from '../../../src/sessions/types';
import { settingsOf } from '../../../src/settings';

const settings = settingsOf('working');

/** A snare with late forerunners and early echoes, beside a tom and a pedal that the floor joins. */
const kit: ModelKit = {
  pads: [
    {
      id: 'snare',
      note: 38,
      forerunner: { share: 0.3, afterMs: -9, spreadMs: 1, ratio: 0.25 },
      echo: { share: 0.4, afterMs: 60, spreadMs: 8, ratio: 0.25 },
    },
    { id: 'tom', note: 48 },
    { id: 'kick', note: 36 },
  ],
  crosstalk: [
    { from: 'snare', to: 'tom', share: 0.5, afterMs: 1, spreadMs: 1, ratio: 0.2 },
    { from: 'kick', to: 'tom', share: 0.5, afterMs: 22, spreadMs: 2, ratio: 0.25 },
  ],
};
const rig = plainRigOf(kit);

/** Half a minute: twenty single strokes on each of three pads. */
function singles(seed: number): readonly Struck[] {
  const random = seeded(seed);
  return ['snare', 'tom', 'kick'].flatMap((pad, turn) =>
    Array.from({ length: 20 }, (_, n) => ({
      atMs: 500 * (20 * turn + n) + 15 * normal(random),
      pad,
      levelDb: -8 + 3 * normal(random),
    })),
  );
}

const learned = (seed: number) =>
  falseNotesFound(rig, reportedBy(kit, singles(seed), seed).hits.reduce(nextSingle(rig), noFalseNotes));

describe('half a minute of single strokes', () => {
  const found = learned(1);

  it('finds forerunners and echoes of the snare where they are, and none of the tom', () => {
    const [snare, tom] = found.surfaces;
    expect(snare.strokes).toBe(20);
    expect(snare.forerunner!.withinMs).toBeGreaterThan(9);
    expect(snare.forerunner!.withinMs).toBeLessThan(14);
    expect(snare.echo!.fromMs).toBeGreaterThan(30);
    expect(snare.echo!.toMs).toBeLessThan(90);
    expect([tom.forerunner, tom.echo]).toEqual([undefined, undefined]);
  });

  it('finds crosstalk by ordered pair, also late from the pedal', () => {
    expect(found.crosstalk.map(({ from, to }) => [from, to])).toEqual([
      ['snare', 'tom'],
      ['kick', 'tom'],
    ]);
    expect(found.crosstalk[1].fromMs).toBeGreaterThan(14);
    expect(found.crosstalk[1].toMs).toBeLessThan(30);
  });

  it('a stroke beside which another nearly as loud sounds is unclear', () => {
    const two = reportedBy(
      { pads: kit.pads.slice(1) },
      [
        { atMs: 0, pad: 'tom', levelDb: -8 },
        { atMs: 3, pad: 'kick', levelDb: -9 },
      ],
      1,
    ).hits.reduce(nextSingle(rig), noFalseNotes);
    expect(falseNotesFound(rig, two)).toMatchObject({ unclear: 1, crosstalk: [] });
  });

  it('stays as it was for what was not struck', () => {
    const before: Rig = {
      ...rig,
      crosstalk: [{ from: 'tom', to: 'snare', fromMs: -1, toMs: 4, ratio: 0.3, n: 3 }],
    };
    expect(rigWithWindows(before, found).crosstalk).toHaveLength(3);
  });
});

/** Accents and taps with flams on snare and tom over a pedal: 96 bpm in sixteenths, graces 20–40 ms ahead. */
function played(seed: number): readonly (Struck & { readonly grace: boolean })[] {
  const random = seeded(seed);
  const strikes: (Struck & { readonly grace: boolean })[] = [];
  for (let n = 0; n < 480; n += 1) {
    const atMs = 156.25 * n + 5 * normal(random);
    const isAccent = n % 4 === 0;
    const pad = n % 16 < 12 ? 'snare' : 'tom';
    const levelDb = (isAccent ? -4 : -18) + normal(random);
    if (n % 8 === 4) {
      strikes.push({ atMs: atMs - 30 + 3 * normal(random), pad, levelDb: -22 + normal(random), grace: true });
    }
    strikes.push({ atMs, pad, levelDb, grace: false });
    if (n % 8 === 0) strikes.push({ atMs: atMs + 78, pad: 'kick', levelDb: -5, grace: false });
  }
  return strikes.sort((a, b) => a.atMs - b.atMs);
}

describe('a rig that has learned its windows', () => {
  const runs = Array.from({ length: 10 }, (_, index) => {
    const seed = 100 + index;
    const report = reportedBy(kit, played(seed), seed);
    const own = rigWithWindows(rig, learned(seed));
    const { labels, strokes } = condition(own, settings, report.hits);
    const echoes = new Set(strokes.filter(({ echoLike }) => echoLike).map(({ hit }) => hit));
    const told = labels.map((label, index) => (echoes.has(index) ? 'echo' : label));
    return { told, truth: report.truth, plain: condition(rig, settings, report.hits).labels };
  });

  it('labels at least 99 % right', () => {
    const all = runs.flatMap(({ told, truth }) => told.map((label, index) => label === truth[index]));
    const share = all.filter((right) => right).length / all.length;
    expect(share).toBeGreaterThanOrEqual(0.99);
  });

  it('swallows no grace', () => {
    for (const { told, truth } of runs) {
      const swallowed = told.filter(
        (label, index) => truth[index] === 'stroke' && !['stroke', 'echo'].includes(label),
      );
      expect(swallowed).toEqual([]);
    }
  });

  it('which the defaults do not manage: forerunners of 9 ms and crosstalk of 22 ms pass them', () => {
    const right = runs.flatMap(({ plain, truth }) =>
      plain.map((label, index) => (truth[index] === 'stroke') === (label === 'stroke')),
    );
    expect(right.filter((one) => one).length / right.length).toBeLessThan(0.95);
  });
});

describe('a warning where a window would swallow what is played', () => {
  const warned = (of: Partial<Rig['surfaces'][0]>, bpm: number, crosstalk: Rig['crosstalk'] = []) =>
    windowWarnings({ ...rig, surfaces: [{ ...rig.surfaces[0], ...of }], crosstalk }, settings, bpm, 4).map(
      ({ words }) => words,
    );

  it('flams under a long forerunner window', () => {
    expect(warned({ forerunner: { withinMs: 22, ratio: 0.3, n: 4 } }, 100)).toEqual([
      'snare: false notes come up to 22 ms ahead of a stroke. Flams tighter than that are lost.',
    ]);
    expect(warned({ forerunner: { withinMs: 10, ratio: 0.3, n: 4 } }, 100)).toEqual([]);
  });

  // a sixteenth at 120 bpm lasts 125 ms, at 160 bpm 94 ms
  it('doubles in the echo window, at a tempo that brings them there', () => {
    const echo = { fromMs: 40, toMs: 100, ratio: 0.3, n: 9 };
    expect(warned({ echo }, 120)).toEqual([]);
    expect(warned({ echo }, 160)).toEqual([
      'snare: echoes last from 40 ms to 100 ms; at 160 bpm a double is 94 ms apart. A soft tap after an accent may be taken for an echo.',
    ]);
  });

  it('flams under late crosstalk', () => {
    const late = [{ from: 'snare', to: 'snare 2', fromMs: 18, toMs: 30, ratio: 0.3, n: 9 }];
    expect(warned({}, 100, late)).toEqual([
      'snare shakes snare 2 from 18 ms to 30 ms after a stroke. Soft notes of flams between them may be lost.',
    ]);
  });

  it('none by the defaults', () => {
    expect(warned({}, 200)).toEqual([]);
  });
});
