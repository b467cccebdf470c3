import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { condition, nextHit, noHits } from '../../src/midi/conditioning';
import { refuseCrowd } from '../../src/midi/crowded';
import type { Rig, Surface } from '../../src/sessions/types';
import { settingsOf } from '../../src/settings';
import type { RawHit, Stroke } from '../../src/stroke';

const rig: Rig = {
  levelLaw: 'gm2',
  inputDelayMs: 0,
  outputDelayMs: 0,
  surfaces: [
    { id: 'snare', name: 'Snare', port: '*', channel: 10, notes: [38, 40], hand: null, trimDb: 0 },
    { id: 'tom', name: 'Tom', port: '*', channel: 10, notes: [48], hand: null, trimDb: 0 },
  ],
};
const settings = settingsOf('working');
const hit = (atMs: number, velocity: number, note = 38): RawHit => ({
  atMs,
  port: 'Kit A',
  channel: 10,
  note,
  velocity,
});
const labels = (...hits: RawHit[]): readonly string[] => condition(rig, settings, hits).labels;
const echoLike = (...hits: RawHit[]): boolean[] =>
  condition(rig, settings, hits).strokes.map((stroke) => stroke.echoLike);

// Windows and ratios: grading.md section 2 (common practice; echoes measured on real pads, 41–96 ms, 2–32 %).

describe('head and rim of one drum', () => {
  it('within 10 ms are one stroke, the louder', () => {
    expect(labels(hit(0, 90), hit(10, 60, 40))).toEqual(['stroke', 'zone']);
    expect(labels(hit(0, 60, 40), hit(10, 90))).toEqual(['zone', 'stroke']);
  });

  it('more than 10 ms apart are two', () => {
    expect(labels(hit(0, 60, 40), hit(10.1, 90))).toEqual(['stroke', 'stroke']);
  });

  it('equally loud are the earlier', () => {
    expect(labels(hit(0, 80), hit(3, 80, 40))).toEqual(['stroke', 'zone']);
  });
});

describe('a soft note just before the real one', () => {
  it('is a forerunner under 8 ms, and the louder is kept', () => {
    const { labels: told, strokes } = condition(rig, settings, [hit(0, 30), hit(7.9, 100)]);
    expect(told).toEqual(['forerunner', 'stroke']);
    expect(strokes.map((stroke) => stroke.velocity)).toEqual([100]);
  });

  it('is a stroke from 8 ms on', () => {
    expect(labels(hit(0, 30), hit(8, 100))).toEqual(['stroke', 'stroke']);
  });

  it('may come twice', () => {
    expect(labels(hit(0, 20), hit(3, 30), hit(6, 100))).toEqual(['forerunner', 'forerunner', 'stroke']);
  });

  it('is none where the later one is not louder', () => {
    expect(labels(hit(0, 100), hit(5, 100))).toEqual(['stroke', 'stroke']);
  });
});

describe('echoes of a pad', () => {
  it('are marked within 100 ms and under 35 % of the velocity, and stay strokes', () => {
    expect(labels(hit(0, 100), hit(60, 34))).toEqual(['stroke', 'stroke']);
    expect(echoLike(hit(0, 100), hit(60, 34))).toEqual([false, true]);
    expect(echoLike(hit(0, 100), hit(60, 35))).toEqual([false, false]);
    expect(echoLike(hit(0, 100), hit(100, 34))).toEqual([false, true]);
    expect(echoLike(hit(0, 100), hit(100.5, 34))).toEqual([false, false]);
  });

  it('do not echo themselves: a quiet stroke after an echo is held against the stroke before', () => {
    expect(echoLike(hit(0, 120), hit(60, 40), hit(110, 13))).toEqual([false, true, false]);
  });

  it('answer any stroke of the last 100 ms, not only the newest', () => {
    expect(echoLike(hit(0, 120), hit(50, 60), hit(90, 30))).toEqual([false, false, true]);
  });

  it('are none on another surface', () => {
    expect(echoLike(hit(0, 100), hit(60, 20, 48))).toEqual([false, false]);
  });

  it('do not answer a forerunner', () => {
    expect(echoLike(hit(0, 60), hit(5, 61), hit(103, 20))).toEqual([false, true]);
    expect(echoLike(hit(0, 60), hit(5, 61), hit(106, 20))).toEqual([false, false]);
  });
});

describe('a neighbouring drum that shakes along', () => {
  it('is crosstalk within 6 ms either side and under 35 %', () => {
    expect(labels(hit(0, 100), hit(6, 34, 48))).toEqual(['stroke', 'crosstalk']);
    expect(labels(hit(0, 34, 48), hit(6, 100))).toEqual(['crosstalk', 'stroke']);
    expect(labels(hit(0, 100), hit(6.1, 34, 48))).toEqual(['stroke', 'stroke']);
    expect(labels(hit(0, 100), hit(6, 35, 48))).toEqual(['stroke', 'stroke']);
  });

  it('is none where both drums are due', () => {
    const bothDue = (atMs: number): boolean => atMs < 50;
    const hits = [hit(0, 100), hit(3, 20, 48), hit(500, 100), hit(503, 20, 48)];
    expect(condition(rig, settings, hits, { bothDue }).labels).toEqual([
      'stroke',
      'stroke',
      'stroke',
      'crosstalk',
    ]);
  });
});

it('a note no surface owns is told as unmapped and stays among the hits', () => {
  expect(labels(hit(0, 100, 36), hit(200, 100))).toEqual(['unmapped', 'stroke']);
});

describe('laws', () => {
  const someHits = fc
    .array(
      fc.record({
        gapMs: fc.double({ min: 0, max: 130, noNaN: true }),
        velocity: fc.integer({ min: 1, max: 127 }),
        note: fc.constantFrom(38, 40, 48, 36),
      }),
      { maxLength: 60 },
    )
    .map((steps) => {
      let atMs = 0;
      return steps.map(({ gapMs, velocity, note }) => hit((atMs += gapMs), velocity, note));
    });

  it('every hit has one label, and the hits labelled stroke are the strokes, in order', () => {
    fc.assert(
      fc.property(someHits, (hits) => {
        const { labels: told, strokes } = condition(rig, settings, hits);
        expect(told).toHaveLength(hits.length);
        const kept = told.flatMap((label, index) => (label === 'stroke' ? [index] : []));
        expect(strokes.map((stroke) => stroke.hit)).toEqual(kept);
      }),
    );
  });

  it('a later time for all changes no label', () => {
    fc.assert(
      fc.property(someHits, (hits) => {
        const grid = hits.map((one) => ({ ...one, atMs: Math.round(one.atMs * 4) / 4 }));
        const later = grid.map((one) => ({ ...one, atMs: one.atMs + 4096 }));
        expect(labels(...later)).toEqual(labels(...grid));
      }),
    );
  });

  it('hit by hit gives the strokes of the whole take', () => {
    fc.assert(
      fc.property(someHits, (hits) => {
        const step = nextHit(rig, settings);
        let strokes: Stroke[] = [];
        let state = noHits;
        for (const one of hits) {
          state = step(state, one);
          const taken = new Set(state.takenBack.map((back) => back.hit));
          strokes = strokes.filter((stroke) => !taken.has(stroke.hit));
          if (state.added !== null) strokes.push(state.added);
        }
        expect(strokes).toEqual(condition(rig, settings, hits).strokes);
      }),
    );
  });

  it('no two strokes left are a zone, a forerunner or crosstalk of one another', () => {
    fc.assert(
      fc.property(someHits, (hits) => {
        const { strokes } = condition(rig, settings, hits);
        for (const a of strokes) {
          for (const b of strokes) {
            if (b.hit <= a.hit) continue;
            const apart = b.atMs - a.atMs;
            const noteA = hits[a.hit].note;
            const noteB = hits[b.hit].note;
            if (a.surface === b.surface && noteA !== noteB) expect(apart).toBeGreaterThan(10);
            if (noteA === noteB && b.velocity > a.velocity) expect(apart).toBeGreaterThanOrEqual(8);
            const quieter = Math.min(a.velocity, b.velocity);
            const louder = Math.max(a.velocity, b.velocity);
            if (a.surface !== b.surface && apart <= 6) expect(quieter).toBeGreaterThanOrEqual(0.35 * louder);
          }
        }
      }),
    );
  });
});

// grading.md section 2: windows are defaults that the rig learns per surface or pair of surfaces
describe('windows the rig has learned', () => {
  const surface = (id: string, note: number): Surface => ({
    id,
    name: id,
    port: '*',
    channel: 10,
    notes: [note],
    hand: null,
    trimDb: 0,
  });
  const of = (more: Partial<Rig>, first: Partial<Surface> = {}): Rig => ({
    levelLaw: 'gm2',
    inputDelayMs: 0,
    outputDelayMs: 0,
    surfaces: [{ ...surface('a', 38), ...first }, surface('b', 48)],
    ...more,
  });
  const labelsOf = (
    rig: Rig,
    ...hits: readonly (readonly [atMs: number, note: number, velocity: number])[]
  ) =>
    condition(
      rig,
      settingsOf('working'),
      hits.map(([atMs, note, velocity]) => ({ atMs, note, velocity, port: 'Kit', channel: 10 })),
    );

  it('late crosstalk of one ordered pair, and not the other way round', () => {
    const late = of({ crosstalk: [{ from: 'a', to: 'b', fromMs: 15, toMs: 30, ratio: 0.4, n: 9 }] });
    expect(labelsOf(late, [0, 38, 100], [20, 48, 30]).labels).toEqual(['stroke', 'crosstalk']);
    expect(labelsOf(late, [0, 48, 100], [20, 38, 30]).labels).toEqual(['stroke', 'stroke']);
    expect(labelsOf(of({}), [0, 38, 100], [20, 48, 30]).labels).toEqual(['stroke', 'stroke']);
  });

  it('crosstalk that comes before its stroke is taken back', () => {
    const early = of({ crosstalk: [{ from: 'a', to: 'b', fromMs: -12, toMs: 0, ratio: 0.4, n: 9 }] });
    expect(labelsOf(early, [0, 48, 30], [10, 38, 100]).labels).toEqual(['crosstalk', 'stroke']);
  });

  it('a learned window takes the place of the default whole', () => {
    const late = of({ crosstalk: [{ from: 'a', to: 'b', fromMs: 15, toMs: 30, ratio: 0.4, n: 9 }] });
    expect(labelsOf(late, [0, 38, 100], [2, 48, 30]).labels).toEqual(['stroke', 'stroke']);
  });

  it('a short forerunner window lets a tight flam pass, its ratio a loud grace', () => {
    const short = of({}, { forerunner: { withinMs: 4, ratio: 0.3, n: 5 } });
    expect(labelsOf(short, [0, 38, 20], [6, 38, 100]).labels).toEqual(['stroke', 'stroke']);
    expect(labelsOf(short, [0, 38, 50], [3, 38, 100]).labels).toEqual(['stroke', 'stroke']);
    expect(labelsOf(short, [0, 38, 20], [3, 38, 100]).labels).toEqual(['forerunner', 'stroke']);
  });

  it('echoes only where the pad has them: a tap 95 ms after an accent is none', () => {
    const told = (rig: Rig) =>
      labelsOf(rig, [0, 38, 120], [95, 38, 30]).strokes.map(({ echoLike }) => echoLike);
    expect(told(of({}))).toEqual([false, true]);
    expect(told(of({}, { echo: { fromMs: 30, toMs: 70, ratio: 0.4, n: 9 } }))).toEqual([false, false]);
  });
});

describe('more hits at one moment than hands can play', () => {
  const crowd = Array.from({ length: 200_000 }, (_, index) => hit(1000, 1 + (index % 127), 38 + (index % 2)));

  // How long it takes is in `npm run bench growth`; were it more than linear, this would take an hour.
  it('are labelled, 200,000 of them', () => {
    expect(condition(rig, settings, crowd).labels).toHaveLength(crowd.length);
  });

  it('change nothing of how a few are told', () => {
    const few = [hit(0, 30), hit(5, 100), hit(40, 20), hit(100, 60, 40), hit(104, 90)];
    const later = few.map((one) => ({ ...one, atMs: one.atMs + 5000 }));
    const { labels: told } = condition(rig, settings, [...crowd, ...later]);
    expect(told.slice(-few.length)).toEqual(labels(...few));
  });

  it('are not graded, and the hit that is one too many is named', () => {
    expect(() => {
      refuseCrowd(crowd);
    }).toThrow('hits[100].atMs is one stroke more than hands can play: 101 within 100 ms, from hits[0] on');
    // What a MIDI cable carries at its fastest with one hand's roll: a hit a millisecond, and no more in 100 ms.
    refuseCrowd(Array.from({ length: 1000 }, (_, index) => hit(index, 90)));
  });
});
