import { describe, expect, it } from 'vitest';
import { plainClick } from '../../src/exercises/click-plan';
import { phraseNamed } from '../../src/exercises/phrase';
import { courseFaultHelp, parseCourseFault } from '../../src/model/course-faults';
import { parseFault } from '../../src/model/faults';
import { modelTake, type ModelPlayer } from '../../src/model/model-player';

const phrase = phraseNamed('Single paradiddle, accent walk');
/** A sixteenth at 75 bpm lasts 200 ms, a bar 3200 ms. */
const G = 200;
const DOWNBEAT = 4000;

function made(fault: string, more: Partial<ModelPlayer> = {}) {
  const player = { phrase, bpm: 75, seed: 1, cycles: 4, timingSdMs: 0, levelSdDb: 0, offsetMs: 0, ...more };
  return modelTake({ ...player, faults: fault.split(' ').map(parseFault) });
}
const times = (fault: string, more: Partial<ModelPlayer> = {}): number[] =>
  made(fault, more).take.hits.map(({ atMs }) => atMs);
const SLOTS = 256;

describe('what may happen to a model player’s take (by definition of each)', () => {
  it('150 ms of latency: all is there, and as much later', () => {
    expect([times('latency:150')[0], times('latency:150').length]).toEqual([DOWNBEAT + 150, SLOTS]);
  });

  it('begun a beat late: the first stroke with the second beat, and four strokes fewer', () => {
    const late = made('late-start:4').take.hits;
    expect([late[0].atMs, late.length]).toEqual([DOWNBEAT + 4 * G, SLOTS - 4]);
    expect(late[0].velocity).toBe(made('latency:0').take.hits[0].velocity);
    expect(times('late-start:1bar')[0]).toBe(DOWNBEAT + 16 * G);
    expect(times('late-start:-4')[0]).toBe(DOWNBEAT - 4 * G);
  });

  it('a pause of two and a half bars from bar 3 on', () => {
    const all = times('pause:3:0:40');
    expect(all.length).toBe(SLOTS - 40);
    expect(all[32] - all[31]).toBe(41 * G);
  });

  it('stopped there and begun again from bar 1, until the click ends', () => {
    const { hits } = made('restart:3:0:40').take;
    expect(hits.length).toBe(SLOTS - 40);
    expect(hits.slice(32, 64).map(({ velocity }) => velocity)).toEqual(
      hits.slice(0, 32).map(({ velocity }) => velocity),
    );
  });

  it('the cable out: the strokes are not there, and the take says when the port was gone', () => {
    const { take } = made('cable:3:0:40');
    expect(take.hits.length).toBe(SLOTS - 40);
    expect(take.events).toEqual([
      { kind: 'port gone', atMs: DOWNBEAT + 32 * G - 40, port: 'Model pad' },
      { kind: 'port back', atMs: DOWNBEAT + 72 * G - 40, port: 'Model pad' },
    ]);
  });

  it('bars 2 and 3 swapped: bar 2 has its accent on the third partial', () => {
    const { hits } = made('swap:2:3').take;
    const accents = hits.flatMap(({ velocity }, index) => (velocity > 80 ? [index] : []));
    expect(accents.filter((slot) => slot >= 16 && slot < 48)).toEqual([18, 22, 26, 30, 33, 37, 41, 45]);
    expect(made('played-as:2:3:3').take.hits[128 + 18].velocity).toBeGreaterThan(80);
  });

  it('the other hand in everything: on two pads the other pad', () => {
    const notes = (fault: string): number[] => made(fault, { surfaces: 2 }).take.hits.map(({ note }) => note);
    expect(notes('mirror').map((note) => (note === 38 ? 48 : 38))).toEqual(notes('latency:0'));
  });

  it('0.4 % fast, a step, another rate', () => {
    expect(times('tempo:0.4')[255]).toBeCloseTo(DOWNBEAT + 255 * G * 0.996, 6);
    expect(times('step:9:-60')[128]).toBe(DOWNBEAT + 128 * G - 60);
    expect(times('step:9:-60')[127]).toBe(DOWNBEAT + 127 * G);
    expect(times('rate:2')[255]).toBe(DOWNBEAT + (255 * G) / 2);
    expect(times('rate:2/3')[3]).toBeCloseTo(DOWNBEAT + 3 * G * 1.5, 6);
  });

  it('rushing by 2 % in the bare bar of each four, and back with the click', () => {
    const all = times('bare-rush:2', {
      clicks: { ...plainClick, bare: { kind: 'steady', on: 3, off: 1 } },
    });
    expect(all[3 * 16 + 15]).toBeCloseTo(DOWNBEAT + (3 * 16 + 15 * 0.98) * G, 6);
    expect(all[4 * 16]).toBe(DOWNBEAT + 4 * 16 * G);
  });

  it('8 % of strokes come twice, at full strength', () => {
    const { take, truth } = made('twice:0.08:25');
    const share = truth.doubledHits.length / SLOTS;
    expect(share).toBeGreaterThan(0.04);
    expect(share).toBeLessThan(0.12);
    for (const hit of truth.doubledHits) {
      expect(take.hits[hit].velocity).toBe(take.hits[hit - 1].velocity);
      expect(take.hits[hit].atMs - take.hits[hit - 1].atMs).toBeGreaterThan(19);
    }
  });

  it('a pad with one velocity, a curve that makes all louder, swing', () => {
    expect(new Set(made('velocities:1').take.hits.map(({ velocity }) => velocity)).size).toBe(1);
    const [plain, curved] = ['latency:0', 'curve:0.6'].map((fault) => made(fault).take.hits[1].velocity);
    expect(curved).toBeCloseTo(127 * (plain / 127) ** 0.6, -0.5);
    expect(times('swing:62')[1]).toBeCloseTo(DOWNBEAT + G + 0.24 * G, 6);
  });

  it('time stamps over usb are up to 2 ms late, over bluetooth in steps of 11.25 ms', () => {
    const lateBy = (fault: string): number[] => times(fault).map((atMs, slot) => atMs - DOWNBEAT - slot * G);
    expect(Math.max(...lateBy('jitter:usb'))).toBeLessThan(2);
    expect(Math.min(...lateBy('jitter:usb'))).toBeGreaterThanOrEqual(0);
    expect(Math.max(...lateBy('jitter:bluetooth'))).toBeGreaterThan(10);
  });

  it('1/f drift: near strokes lie nearer to each other than far ones', () => {
    const drift = times('wander:8').map((atMs, slot) => atMs - DOWNBEAT - slot * G);
    const apart = (by: number): number =>
      drift.slice(by).reduce((sum, value, index) => sum + (value - drift[index]) ** 2, 0);
    expect(apart(1)).toBeLessThan(0.6 * apart(64));
  });

  it('a time of one’s own with a quarter of each error mended: autocovariances fall by a quarter (AR(1), by definition)', () => {
    const errors = times('correction:0.25', { timingSdMs: 6, cycles: 64 }).map(
      (atMs, slot) => atMs - DOWNBEAT - slot * G,
    );
    const together = (lag: number): number =>
      errors.slice(lag).reduce((sum, error, index) => sum + error * errors[index], 0);
    expect(together(2) / together(1)).toBeGreaterThan(0.65);
    expect(together(2) / together(1)).toBeLessThan(0.85);
  });
});

describe('as the command line writes them', () => {
  it.each(Object.keys(courseFaultHelp))('%s is read as its help writes it', (kind) => {
    const written = courseFaultHelp[kind as keyof typeof courseFaultHelp].split(/[\s[]/)[0];
    expect(parseCourseFault(written)?.kind).toBe(kind);
  });

  it.each(['late-start:x', 'rate:0', 'pause:0:4:40', 'jitter:din', 'twice:8:25', 'latency', 'missed:1.1'])(
    '%s is refused with the right way',
    (text) => {
      expect(() => parseFault(text)).toThrow(/^--fault must be written so, got ".*\(/);
    },
  );
});
