import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { remedyOf } from '../../src/grading/remedy/remedy';
import type { Report } from '../../src/grading/types';
import { parseFault } from '../../src/model/faults';
import { modelTake } from '../../src/model/model-player';
import { gradeTake } from '../../src/take/grade-take';

/** A model player whose graces are so many ms apart. A teacher's: flams 42 ms, drags 58 ms (grading design, section 5). */
function graded(name: string, bpm: number, gapMs: number, seed = 1): Report {
  const faults = [parseFault(`flam-gap:${gapMs}`)];
  return gradeTake(modelTake({ phrase: phraseNamed(name), bpm, seed, cycles: 4, faults }).take);
}

const leftOver = ({ counts, course }: Report): readonly unknown[] => [
  counts.missed,
  counts.gracesMissed,
  counts.extra,
  counts.echoes,
  course,
];
const nothing = [0, 0, 0, 0, []];

describe('graces are found in the room that they have', () => {
  it.each(['Single ratamacue', 'Double ratamacue', 'Triple ratamacue'])(
    '%s: drags of 58 ms at 120 and at 180, where they are wider than two strokes are apart',
    (name) => {
      expect(leftOver(graded(name, 120, 58))).toEqual(nothing);
      expect(leftOver(graded(name, 180, 58))).toEqual(nothing);
    },
  );

  it('even drags of 52 ms of a single ratamacue at 120 are drags: every stroke is right', () => {
    const report = graded('Single ratamacue', 120, 52);
    expect(report.measures.complete?.value).toBe(1);
    expect(report.measures.dragGap?.band).toBe('holds');
  });

  it('all graces of a Lesson 25 at 180', () => {
    expect(leftOver(graded('Lesson 25', 180, 52))).toEqual(nothing);
  });

  it('flams of 42 ms in sixteenths at 180 are no other rate, and neither they nor drags came twice', () => {
    expect(leftOver(graded('Flam tap', 180, 42))).toEqual(nothing);
    expect(leftOver(graded('Drag paradiddle #1', 150, 42))).toEqual(nothing);
  });

  it('a tap right before a grace keeps its slot (before: the grace took it, and the tap was the grace)', () => {
    expect(leftOver(graded('Triple ratamacue', 180, 58, 211))).toEqual(nothing);
  });

  it('those of the very first stroke lie before the downbeat', () => {
    expect(leftOver(graded('Lesson 25', 200, 58, 3))).toEqual(nothing);
  });
});

describe('graces before taps have limits of their own (common practice)', () => {
  const lesson = { phrase: phraseNamed('Lesson 25'), bpm: 120, seed: 5, cycles: 8 };

  it('6 dB under a tap hold', () => {
    expect(gradeTake(modelTake(lesson).take).measures.graceSoftness?.band).toBe('holds');
  });

  it('what mends them stops at 4 dB under the tap, where they hold, not at 12', () => {
    const { take } = modelTake({ ...lesson, faults: [parseFault('graces:8')] });
    const report = gradeTake(take);
    expect(report.weakest?.measure).toBe('graceSoftness');
    expect(remedyOf(report, take.phrase, lesson.bpm)?.stop.limit).toBe(-4);
  });
});
