import { describe, expect, it } from 'vitest';
import { plainClick } from '../../src/exercises/click-plan';
import { phraseNamed } from '../../src/exercises/phrase';
import { remedyOf } from '../../src/grading/remedy/remedy';
import type { Report } from '../../src/grading/types';
import { strengthWords } from '../../src/grading/words';
import { parseFault } from '../../src/model/faults';
import { modelTake, type ModelPlayer } from '../../src/model/model-player';
import { gradeTake } from '../../src/take/grade-take';

const WALK = phraseNamed('Single paradiddle, accent walk');

function graded(faults: string, more: Partial<ModelPlayer> = {}): Report {
  const player = { phrase: WALK, bpm: 84, seed: 3, cycles: 4, ...more };
  return gradeTake(
    modelTake({
      ...player,
      faults: faults
        .split(' ')
        .filter(Boolean)
        .map((fault) => parseFault(fault.replaceAll('_', ' '))),
    }).take,
  );
}
const kinds = ({ course }: Report): readonly string[] => course.map(({ kind }) => kind);

describe('what happened to a take is told as what it was (planted in a model player’s)', () => {
  it('nothing, where nothing happened', () => {
    expect(graded('').course).toEqual([]);
  });

  it('five notes for four, near none of the rates that are told, don’t fit; without the rule of half bars they were a slip', () => {
    const sixStroke = { phrase: phraseNamed('Six stroke roll'), bpm: 120, seed: 2, cycles: 4 };
    const { take } = modelTake({ ...sixStroke, faults: [parseFault('rate:5/4')] });
    const report = gradeTake(take);
    expect([report.fits, report.misfit, kinds(report)]).toEqual([false, { reason: 'subdivision' }, []]);
    expect(report.sentence).toBe(
      'The take does not fit its grid, so it has no grade: another subdivision or tempo was played.',
    );
    expect(gradeTake({ ...take, settings: { 'fit.leastBlocks': 0 } }).fits).toBe(true);
  });

  it('150 ms of latency at 84 bpm is taken off and said', () => {
    const report = graded('latency:150');
    expect(kinds(report)).toEqual(['latency']);
    const [{ ms }] = report.course as readonly { readonly ms: number }[];
    expect(Math.abs(ms - 146)).toBeLessThan(2);
    expect(Math.abs(report.offsetMs)).toBeLessThan(2);
    expect(report.counts.matched).toBe(256);
    expect(report.sentence).toMatch(/^Everything comes 14\d ms late: wireless headphones\?/);
  });

  it('250 ms at 120 are no slip', () => {
    const report = graded('latency:250', { bpm: 120 });
    expect([kinds(report), report.slips, report.counts.missed]).toEqual([['latency'], [], 0]);
  });

  it('a beat late, ended with the click, is a late start; what is left is graded', () => {
    const report = graded('late-start:4', { surfaces: 2 });
    expect(report.course).toEqual([{ kind: 'late start', slots: 4 }]);
    expect([report.counts.notPlayed, report.counts.missed, report.counts.wrongHand]).toEqual([4, 0, 0]);
    expect(report.sentence).toMatch(/^You began one beat late\. /);
    expect(graded('late-start:1bar').course).toEqual([{ kind: 'late start', slots: 16 }]);
  });

  it('a pause of two and a half bars is not played, and breaks the bar it began in', () => {
    const report = graded('pause:3:4:40');
    expect(report.course).toEqual([{ kind: 'pause', bar: 2, slot: 4, slots: 40 }]);
    expect([report.counts.notPlayed, report.counts.missed]).toEqual([40, 0]);
    expect(report.bars[2].broke).toEqual(['stopped']);
    expect(report.bars[3].role).toBe('notPlayed');
  });

  it('stopped and begun again from bar 1', () => {
    const report = graded('restart:3:4:40');
    expect(report.course).toEqual([{ kind: 'pause', bar: 2, slot: 4, slots: 40, from: 0 }]);
    expect([report.counts.missed, report.slips]).toEqual([0, []]);
  });

  it('stopping again and again in one variation names it', () => {
    const report = graded('pause:4:4:24 pause:8:4:24 pause:16:4:24', { cycles: 6 });
    expect(report.sentence).toMatch(
      /^You stop at accent on 4, three times; what was not played is not counted\./,
    );
  });

  it('0.2 % fast is a line, and no scatter', () => {
    const report = graded('tempo:0.2', { cycles: 8 });
    expect(report.sentence).toMatch(/^You rush: 0\.2 % faster than the click\..* Every variation holds\.$/);
    expect(report.measures.scatter?.band).toBe('holds');
  });

  it('one accent of 32 at 127 is not the first thing said', () => {
    const { take, truth, grid } = modelTake({ phrase: WALK, bpm: 84, seed: 3, cycles: 4 });
    const accent = truth.hitOfSlot[grid.slots.findIndex(({ kind }) => kind === 'accent')];
    const report = gradeTake({
      ...take,
      hits: take.hits.map((hit, i) => (i === accent ? { ...hit, velocity: 127 } : hit)),
    });
    expect(report.sentence).toMatch(/^Every variation holds\./);
  });

  it('a cable out is told as the cable, and breaks no bar', () => {
    const report = graded('cable:3:4:40');
    expect(kinds(report)).toEqual(['cable']);
    expect(report.bars[2].broke).toEqual([]);
    expect(report.sentence).toMatch(/^The cable was out from bar 3 on/);
  });

  it('bars 2 and 3 swapped on two pads', () => {
    const report = graded('swap:2:3', { surfaces: 2 });
    expect(report.course[0]).toEqual({
      kind: 'other bar',
      bar: 1,
      slots: 16,
      played: WALK.bars[2].variation,
    });
    expect(report.course.length).toBe(8);
    expect([report.slips, report.counts.otherBar]).toEqual([[], 128]);
  });

  it('the first bar all along is one sentence', () => {
    const report = graded('played-as:2:1 played-as:3:1 played-as:4:1');
    expect(report.sentence).toMatch(/^You played accent on 1 all along\./i);
  });

  it('the other hand in everything is graded as it was led', () => {
    const report = graded('mirror', { surfaces: 2 });
    expect(kinds(report)).toEqual(['mirror']);
    expect([report.counts.wrongHand, report.slips]).toEqual([0, []]);
  });

  it('0.4 % fast is graded and said', () => {
    const report = graded('tempo:0.4');
    expect(kinds(report)).toEqual(['tempo']);
    expect(report.fits).toBe(true);
    expect(report.measures.scatter?.band).toBe('holds');
  });

  it('in free time a tempo that runs away is told from beginning to end, a steady one is not', () => {
    const { take } = modelTake({ phrase: WALK, bpm: 100, seed: 9, cycles: 4 });
    const begin = take.downbeatMs ?? 0;
    const whole = take.hits[take.hits.length - 1].atMs - begin;
    const own = (squeeze: number): Report =>
      gradeTake({
        ...take,
        downbeatMs: null,
        click: 'none',
        hits: take.hits.map((hit) => {
          const share = (hit.atMs - begin) / whole;
          return { ...hit, atMs: begin + whole * (share - squeeze * share * share) };
        }),
      });
    const rushed = own(0.06);
    // d(share)/dt: 1 at the beginning, 1 − 0.12 at the end; quarters lie an eighth within
    expect(rushed.course).toMatchObject([{ kind: 'drift' }]);
    const [{ from, to }] = rushed.course as readonly { from: number; to: number }[];
    expect([from / 101.5, to / 111.7].every((share) => Math.abs(share - 1) < 0.02)).toBe(true);
    expect(rushed.sentence).toMatch(/^You rush: from 10\d to 11\d bpm by the end\. /);
    expect(own(0).course).toEqual([]);
  });

  it('what is said once is not said again: bars played as others, too few bars, what all variations have', () => {
    const swapped = graded('swap:2:3');
    expect(swapped.variations.map(({ band }) => band)).toEqual([
      'holds',
      'not played',
      'not played',
      'holds',
    ]);
    expect(swapped.sentence).not.toMatch(/% of the strokes are right/);
    expect(remedyOf(swapped, WALK, 84)).toBeUndefined();

    const { take } = modelTake({ phrase: { ...WALK, cycles: 8 }, bpm: 84, seed: 9, cycles: 8 });
    const short = gradeTake({ ...take, hits: take.hits.slice(0, 16) });
    expect(short.sentence).toBe('Only one bar of 32 was played: accent on 1 looks good so far.');
    expect(short.variations.map(({ band }) => band)).toEqual([
      'too few bars',
      ...Array(3).fill('not played'),
    ]);
    expect(strengthWords(short)).not.toMatch(/certain/);

    const { weakest, sentence } = gradeTake({
      ...take,
      hits: take.hits.slice(0, 16).filter((_, i) => ![3, 6, 9, 10, 13].includes(i)),
    });
    expect(weakest).toMatchObject({ scope: 'variation', variations: ['accent on 1'] });
    expect(sentence).toMatch(/^Accent on 1 is the weak bar: 6[89]\.\d % of the strokes are right/);

    const late = graded('late:L:18', { cycles: 8, seed: 9 });
    expect(late.variations.map(({ band }) => band)).toEqual(Array(4).fill('close'));
    expect(late.sentence).toMatch(/^In every variation /);
  });

  it('a last stroke late by over half a gap is late, no miss', () => {
    const { take } = modelTake({ phrase: WALK, bpm: 84, seed: 9, cycles: 4 });
    const late = take.hits.map((hit, i) =>
      i === take.hits.length - 1 ? { ...hit, atMs: hit.atMs + 125 } : hit,
    );
    const report = gradeTake({ ...take, hits: late });
    expect([report.counts.missed, report.counts.extra]).toEqual([0, 0]);
    // 178.6 ms are a sixteenth at 84 bpm: 0.7 of it, and the model player’s own offset
    expect(report.slots[255].deviationMs).toBeGreaterThan(115);
  });

  it('leak and spill of one hand in one variation are both named, and not as that hand’s loudness', () => {
    for (const seed of [9, 10, 11]) {
      const { sentence } = graded('leak-before:L:6:accent_on_4 spill:L:6:accent_on_4', { cycles: 8, seed });
      expect(sentence).toMatch(/^Accent on 4 is the weak bar: the tap due with the left /);
      expect(sentence).toMatch(/before its accent/);
      expect(sentence).toMatch(/beside the other hand’s accent/);
    }
  });

  it('bars that come 60 ms behind the others are told as that', () => {
    const { sentence, weakest } = graded('arrival:60:accent_on_2', { cycles: 8 });
    expect(weakest).toMatchObject({ measure: 'arrival', scope: 'variation' });
    expect(sentence).toMatch(
      /^Accent on 2 is the weak bar: its bars sit (59|6\d) ms behind the other bars\./,
    );
  });

  it('a step of nearly half a partial is told as that, not as a partial more', () => {
    for (const seed of [3, 4, 5, 6]) {
      const report = graded('step:9:-60', { bpm: 122, seed });
      expect(report.course).toHaveLength(1);
      expect(report.counts.slipped).toBe(0);
      expect(Math.abs((report.course[0] as { ms: number }).ms + 60)).toBeLessThan(4);
    }
  });

  it('60 ms early from half on is a step', () => {
    const report = graded('step:9:-60');
    expect(report.course[0]).toMatchObject({ kind: 'step', bar: 8, slot: 0 });
    expect(report.measures.scatter?.band).toBe('holds');
  });

  it('rushing where the click is bare is not scatter', () => {
    const clicks = { ...plainClick, bare: { kind: 'steady', on: 2, off: 2 } as const };
    const report = graded('bare-rush:2', { clicks });
    expect(report.course[0]).toMatchObject({ kind: 'tempo', bare: true });
    expect(report.measures.scatter?.band).toBe('holds');
  });

  it.each([
    ['rate:2', 2],
    ['rate:0.5', 0.5],
    ['rate:3/2', 1.5],
  ])('%s is said and graded', (fault, rate) => {
    const report = graded(fault);
    expect(report.course).toEqual([{ kind: 'rate', rate }]);
    expect([report.fits, report.counts.missed]).toEqual([true, 0]);
  });

  it('8 % of strokes that came twice are no extras', () => {
    const report = graded('twice:0.08:25');
    expect(kinds(report)).toEqual(['doubles']);
    expect(report.counts.doubles).toBeGreaterThan(10);
    expect([report.counts.extra, report.measures.complete?.value]).toEqual([0, 1]);
  });

  it('strokes that came twice are told beside taps that come so soon after an accent that they are like its echo', () => {
    const phrase = phraseNamed('Single paradiddle, accent walk, both leads');
    const report = graded('twice:0.05:25', { phrase, bpm: 163, seed: 249731 });
    expect(kinds(report)).toEqual(['doubles']);
    expect([report.counts.extra, report.counts.missed]).toEqual([0, 0]);
  });

  it('a pad of which over a quarter is false has no grade', () => {
    const report = graded('twice:0.45:25 echo:0.3:0.2');
    expect([report.fits, report.misfit?.reason]).toEqual([false, 'rig']);
  });

  it('of one velocity no level is measured, time is', () => {
    const report = graded('velocities:1');
    expect(kinds(report)).toEqual(['one loudness']);
    expect([report.measures.contrast?.band, report.measures.scatter?.band]).toEqual([
      'not measured',
      'holds',
    ]);
  });

  it('a slip stays a slip', () => {
    const report = graded('slip:2:4:16');
    expect([report.course, report.slips.length]).toEqual([[], 1]);
  });
});
