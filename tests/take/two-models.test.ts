import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { remedyOf } from '../../src/grading/remedy/remedy';
import type { Report } from '../../src/grading/types';
import { parseFault } from '../../src/model/faults';
import { modelTake } from '../../src/model/model-player';
import { gradeTake } from '../../src/take/grade-take';

const WALK = 'Single paradiddle, accent walk';

function graded(name: string, faults: readonly string[], more: { cycles?: number; bpm?: number } = {}) {
  const player = { phrase: phraseNamed(name), bpm: 84, seed: 5, cycles: 8, ...more };
  const { take } = modelTake({ ...player, faults: faults.map(parseFault) });
  const report = gradeTake(take);
  return { report, remedy: remedyOf(report, take.phrase, player.bpm) };
}

const out = ({ measures, variations }: Report, key: 'lag' | 'doubleGap' | 'leakBefore' | 'spill') =>
  [measures, ...variations.map((row) => row.measures)].filter((of) =>
    ['close', 'not yet'].includes(of[key]?.band ?? ''),
  ).length;

describe('each fault gets its own name (planted in a model player’s takes)', () => {
  it('a swing of 58 and of 62 % is the feel, no late hand and no wide double', () => {
    for (const percent of [58, 62]) {
      const { report } = graded(WALK, [`swing:${percent}`]);
      expect(report.sentence).toMatch(`You swing: every second note falls at ${percent} % of its pair.`);
      expect([out(report, 'lag'), out(report, 'doubleGap')]).toEqual([0, 0]);
    }
  });

  it('a left hand 18 ms late in it is told beside it', () => {
    const { report } = graded(WALK, ['swing:62', 'late:L:18']);
    expect(report.course.map(({ kind }) => kind)).toEqual(['swing']);
    expect(report.sentence).toMatch(/the strokes due with the right come 1[789] ms earlier/);
  });

  it('in singles, and in doubles, either is said, with what would tell', () => {
    expect(graded('single stroke roll', ['swing:60']).report.sentence).toMatch(
      /, or it is swung: lead with the other hand to know\.$/,
    );
    expect(graded('double stroke open roll', ['swing:60'], { bpm: 60 }).report.sentence).toMatch(
      /, or it is swung: play singles to know\.$/,
    );
  });

  it('a variation 5 dB loud all over is told by its contrast, not as a leak', () => {
    const { report } = graded(WALK, ['softs:5:accent on 4']);
    expect([report.weakest?.variation, report.weakest?.measure]).toEqual(['accent on 4', 'contrast']);
    expect([out(report, 'leakBefore'), out(report, 'spill')]).toEqual([0, 0]);
  });

  it('where every tap of a bar lies beside an accent, all of them are loud, and a bar without accents is offered', () => {
    const { report, remedy } = graded('Single paradiddle, rotations', ['softs:6:RLLR LRRL']);
    expect([report.weakest?.variation, report.weakest?.measure]).toEqual(['RLLR LRRL', 'softness']);
    expect(remedy?.phrase.bars.some(({ sticking }) => !/[RL]/.test(sticking))).toBe(true);
  });

  it('drags of 58 ms hold; flams of 58 ms stand apart', () => {
    expect(graded('Lesson 25', ['flam-gap:58'], { bpm: 100 }).report.measures.dragGap?.band).toBe('holds');
    expect(graded('Flam accent', ['flam-gap:66'], { bpm: 90 }).report.measures.flamGap?.band).not.toBe(
      'holds',
    );
  });

  it('a clean single stroke roll at velocity 100 has no verdict on loudness', () => {
    const { report } = graded('single stroke roll', ['softs:16']);
    expect(report.sentence).toMatch(/^The phrase holds\./);
    expect(report.measures.softness?.band).toBeUndefined();
  });

  it.each(['Pataflafla', 'Swiss army triplet', 'Inverted flam tap'])(
    '%s has its accents on its flams',
    (name) => {
      const [{ sticking }] = phraseNamed(name).bars;
      expect(sticking).toMatch(/\{[lr]\}[RL]/);
      expect(sticking).not.toMatch(/\{[lr]\}[rl]/);
      expect(graded(name, []).report.sentence).toMatch(/^The phrase holds\./);
    },
  );

  it('where all second notes are before an accent too, a positive fade is that leak', () => {
    const { report } = graded(WALK, ['leak-before:L:6']);
    expect(report.weakest?.measure).toBe('leakBefore');
    const reasons = report.variations.filter(({ band }) => band !== 'holds').map(({ measure }) => measure);
    expect(new Set(reasons)).toEqual(new Set(['leakBefore']));
  });
});
