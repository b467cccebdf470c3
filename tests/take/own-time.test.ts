import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import type { Report } from '../../src/grading/types';
import type { Take } from '../../src/sessions/types';
import { gradedOf, gradeTake } from '../../src/take/grade-take';
import { modelTake, type ModelPlayer } from '../../src/model/model-player';
import { meanBpm, ownTimeOf, whyNotFree } from '../../src/take/own-time';

// Free time: the model player's truth is the outside value (which stroke it meant for which slot, at which tempo).

const walk = phraseNamed('Single paradiddle, accent walk');
const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

/** A take as one without a click is kept: nobody says where its downbeat is, and the tempo said is another. */
function free(player: Omit<ModelPlayer, 'seed'>, seed: number) {
  const made = modelTake({ ...player, seed });
  const take: Take = { ...made.take, click: 'none', downbeatMs: null, tempo: { bpm: 84 } };
  return { ...made, take };
}

/** Share of slots whose stroke is the one the model player meant. */
function pairedRight({ take, truth }: ReturnType<typeof free>): number {
  const { alignment, strokes } = gradedOf(take);
  const right = truth.hitOfSlot.filter((meant, slot) => {
    const outcome = alignment.outcomes.at(slot);
    const stroke = outcome?.status === 'matched' ? strokes[outcome.stroke].hit : null;
    return stroke === meant;
  });
  return right.length / truth.hitOfSlot.length;
}

const bpmAt = (report: Report, bar: number): number => {
  const tempo = report.freeTime?.tempo;
  if (tempo === undefined || 'bpm' in tempo) return NaN;
  const beats = tempo.ramp.filter((point) => Math.floor(point.bar) === bar);
  return beats.reduce((sum, { bpm }) => sum + bpm, 0) / beats.length;
};

describe('a steady take in free time', () => {
  it.each([50, 84, 132, 168])(
    'at %d bpm has its tempo within three in a thousand and every stroke in its slot',
    (bpm) => {
      for (const seed of SEEDS) {
        const made = free({ phrase: walk, bpm }, seed);
        const report = gradeTake(made.take);
        expect(report.fits).toBe(true);
        expect(Math.abs(meanBpm(ownTimeOf(made.take)) / bpm - 1)).toBeLessThan(0.003);
        expect(pairedRight(made)).toBe(1);
        // What a click take has as its offset is in the player's own downbeat here.
        expect(Math.abs(report.offsetMs)).toBeLessThan(1);
        expect(Math.abs((report.freeTime?.downbeatMs ?? 0) - (4000 - 4))).toBeLessThan(6);
      }
    },
  );

  it('has the scatter of the same take with a click, but for what the lines take of it', () => {
    for (const seed of SEEDS) {
      const made = free({ phrase: walk, bpm: 96, timingSdMs: 9 }, seed);
      const { measures } = gradeTake(made.take);
      const clicked = gradeTake({ ...made.take, downbeatMs: 4000, tempo: { bpm: 96 } }).measures;
      const ratio = (measures.scatter?.value ?? 0) / (clicked.scatter?.value ?? 1);
      expect(ratio).toBeGreaterThan(0.9);
      expect(ratio).toBeLessThan(1.02);
      expect(measures.contrast?.value).toBe(clicked.contrast?.value);
    }
  });

  it('tells the fault that was planted, as with a click', () => {
    for (const seed of SEEDS) {
      const { take } = free(
        { phrase: walk, bpm: 96, faults: [{ kind: 'leak-before', hand: 'L', db: 8 }] },
        seed,
      );
      const report = gradeTake(take);
      expect(report.weakest?.measure).toBe('leakBefore');
      expect(report.weakest?.hand).toBe('L');
    }
  });
});

describe('a tempo that moves', () => {
  // grading.md, section 4: a gap changing by up to 1 % a bar is followed, 8 % in open–close–open.
  it.each([
    ['1 % a bar', 84, 84 * 1.01 ** 32],
    ['1 % a bar slower', 110, 110 * 0.99 ** 32],
  ])('by %s is followed: each bar’s tempo within a hundredth', (_, from, to) => {
    for (const seed of SEEDS) {
      const made = free(
        {
          phrase: walk,
          bpm: from,
          ramp: [
            { bar: 0, bpm: from },
            { bar: 32, bpm: to },
          ],
          cycles: 8,
        },
        seed,
      );
      const report = gradeTake(made.take);
      expect(pairedRight(made)).toBeGreaterThan(0.995);
      for (const bar of [0, 8, 16, 24, 30]) {
        const beatMs = 60_000 / from + ((bar + 0.5) / 32) * (60_000 / to - 60_000 / from);
        expect(Math.abs(bpmAt(report, bar) / (60_000 / beatMs) - 1)).toBeLessThan(0.01);
      }
    }
  });

  it('by 8 % a bar up and down again keeps 99 of 100 strokes in their slots', () => {
    const ramp = [
      { bar: 0, bpm: 60 },
      { bar: 8, bpm: 60 * 1.08 ** 8 },
      { bar: 16, bpm: 60 },
    ];
    for (const seed of SEEDS) {
      const made = free({ phrase: walk, bpm: 60, ramp, cycles: 4 }, seed);
      // Marked as open–close–open, with another tempo than was played.
      const plan = ramp.map(({ bar, bpm }) => ({ bar, bpm: 1.2 * bpm }));
      made.take = { ...made.take, tempo: { ramp: plan } };
      const report = gradeTake(made.take);
      expect(report.fits).toBe(true);
      expect(pairedRight(made)).toBeGreaterThan(0.99);
    }
  });
});

describe('what else may be in a free take', () => {
  it('strokes left out and added: 98 of 100 slots are told right', () => {
    for (const seed of SEEDS) {
      const made = free({ phrase: walk, bpm: 92, missed: 0.03, added: 0.02 }, seed);
      const report = gradeTake(made.take);
      expect(report.fits).toBe(true);
      expect(pairedRight(made)).toBeGreaterThan(0.98);
    }
  });

  it('strokes as uneven as a first year’s, 12 % of the gap: 99 of 100 slots are told right', () => {
    // At 84 bpm a sixteenth lasts 178.6 ms (arithmetic).
    const shares = SEEDS.map((seed) => pairedRight(free({ phrase: walk, bpm: 84, timingSdMs: 21.4 }, seed)));
    expect(shares.reduce((sum, one) => sum + one, 0) / shares.length).toBeGreaterThan(0.99);
  });

  it('a stray stroke first, or the first stroke left out: the accents say where the phrase began', () => {
    for (const seed of SEEDS) {
      const made = free({ phrase: walk, bpm: 92 }, seed);
      const [first, ...rest] = made.take.hits;
      const stray = { ...first, atMs: first.atMs - 700, velocity: 30 };
      const early = gradeTake({ ...made.take, hits: [stray, first, ...rest] });
      expect(early.counts.missed + early.counts.extra).toBeLessThanOrEqual(1);
      expect(early.slips).toEqual([]);
      const late = gradeTake({ ...made.take, hits: rest });
      expect(late.counts.missed).toBe(1);
      expect(late.slots[0].status).toBe('missed');
      expect(late.slips).toEqual([]);
    }
  });

  it('ghost notes at a fast tempo, which look like a pad’s echoes, are strokes', () => {
    for (const seed of SEEDS) {
      const made = free({ phrase: walk, bpm: 168, tapDb: -26 }, seed);
      const report = gradeTake(made.take);
      expect(Math.abs(meanBpm(ownTimeOf(made.take)) / 168 - 1)).toBeLessThan(0.003);
      expect(pairedRight(made)).toBeGreaterThan(0.99);
      expect(report.fits).toBe(true);
    }
  });

  it('a pad’s echoes are none', () => {
    for (const seed of SEEDS) {
      const faults = [{ kind: 'echo', share: 0.4, ratio: 0.2 } as const];
      const made = free({ phrase: walk, bpm: 84, faults }, seed);
      expect(Math.abs(meanBpm(ownTimeOf(made.take)) / 84 - 1)).toBeLessThan(0.003);
      expect(pairedRight(made)).toBeGreaterThan(0.99);
    }
  });

  it('grace notes lead to their strokes and are none', () => {
    const flams = phraseNamed('flam accent');
    for (const seed of SEEDS) {
      const made = free({ phrase: flams, bpm: 84, cycles: 8 }, seed);
      const report = gradeTake(made.take);
      expect(report.fits).toBe(true);
      expect(report.counts.matched).toBe(report.counts.slots);
      expect(Math.abs((report.measures.flamGap?.value ?? 0) - 30)).toBeLessThan(2);
    }
  });

  it('strokes at any time at all do not fit', () => {
    for (const seed of SEEDS) {
      const made = free({ phrase: walk, bpm: 84, timingSdMs: 90 }, seed);
      const hits = made.take.hits.toSorted((a, b) => a.atMs - b.atMs);
      const report = gradeTake({ ...made.take, hits });
      expect(report.fits).toBe(false);
    }
  });

  it('three strokes are too few, and it says so', () => {
    const { take } = free({ phrase: walk, bpm: 84 }, 1);
    expect(() => gradeTake({ ...take, hits: take.hits.slice(0, 3) })).toThrow(
      'hits must have at least 4 strokes that keep a time where there was no click; of these 3 fewer do',
    );
  });

  it('the same take gives the same report, byte for byte', () => {
    const { take } = free({ phrase: walk, bpm: 84 }, 1);
    expect(JSON.stringify(gradeTake(take))).toBe(JSON.stringify(gradeTake(structuredClone(take))));
  });
});

it('bars to listen to need a click', () => {
  const bars = [{ ...walk.bars[0], role: 'listen' as const }, walk.bars[1]];
  expect(whyNotFree({ ...walk, bars })).toMatch(/need a click/);
  expect(whyNotFree(walk)).toBeNull();
});
