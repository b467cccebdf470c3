import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { nextStep, takeHeld, type ClimbTake, type TakeHeld } from '../../src/insight/climb';
import { gradeTake } from '../../src/take/grade-take';
import { modelTake } from '../../src/model/model-player';

const MINUTE = 60_000;

/** Takes of half a minute, one a minute. */
function takes(...played: readonly (readonly [bpm: number, went: TakeHeld])[]): ClimbTake[] {
  return played.map(([bpm, went], index) => ({ bpm, went, endedAtMs: index * MINUTE, lengthMs: 30_000 }));
}
const facts = (of: readonly ClimbTake[], more: { ceilingBpm?: number; bestBpm?: number } = {}) => ({
  startBpm: 80,
  nowMs: (of.at(-1)?.endedAtMs ?? 0) + 1000,
  ...more,
});
const next = (of: readonly ClimbTake[], more: { ceilingBpm?: number; bestBpm?: number } = {}) =>
  nextStep(of, facts(of, more));

describe('a climb', () => {
  // grading.md section 7; common practice, no source
  it('begins at its tempo, and goes on there after one take that held', () => {
    expect(next([])).toMatchObject({ kind: 'play', bpm: 80 });
    expect(next(takes([80, 'held']))).toMatchObject({ kind: 'play', bpm: 80 });
  });

  it('goes up 3 % after two in a row that held: 80, 82', () => {
    expect(next(takes([80, 'held'], [80, 'held']))).toMatchObject({ kind: 'play', bpm: 82 });
    expect(next(takes([80, 'held'], [80, 'held'], [82, 'held']))).toMatchObject({ bpm: 82 });
    expect(next(takes([80, 'held'], [80, 'close'], [80, 'held']))).toMatchObject({ bpm: 80 });
  });

  it('goes down 7 % after two in a row that did not: 100, 93', () => {
    expect(next(takes([100, 'not held']))).toMatchObject({ kind: 'play', bpm: 100 });
    expect(next(takes([100, 'not held'], [100, 'not held']))).toMatchObject({ kind: 'play', bpm: 93 });
    expect(next(takes([100, 'not held'], [100, 'close']))).toMatchObject({ bpm: 100 });
  });

  it('rests as long as the take lasted within a tenth of the ceiling', () => {
    const played = takes([92, 'held']);
    expect(next(played, { ceilingBpm: 100 })).toMatchObject({ kind: 'rest', untilMs: 30_000, bpm: 92 });
    expect(nextStep(played, { startBpm: 80, ceilingBpm: 100, nowMs: 30_000 })).toMatchObject({
      kind: 'play',
      bpm: 92,
    });
    expect(next(takes([88, 'held']), { ceilingBpm: 100 })).toMatchObject({ kind: 'play' });
  });

  it('ends with the third failure in ten minutes, with one take at a tempo that held', () => {
    const played = takes([84, 'held'], [84, 'held'], [87, 'not held'], [87, 'not held'], [81, 'not held']);
    expect(next(played)).toMatchObject({ kind: 'play', bpm: 84, last: true });
    const after = [...played, ...takes([84, 'held'])].map((take, index) => ({
      ...take,
      endedAtMs: index * MINUTE,
    }));
    expect(next(after)).toMatchObject({ kind: 'done' });
  });

  it('does not count failures that lie more than ten minutes apart', () => {
    const apart = takes([87, 'not held'], [87, 'held'], [87, 'not held'], [87, 'not held']).map(
      (take, index) => ({ ...take, endedAtMs: index * 6 * MINUTE }),
    );
    expect(next(apart)).toMatchObject({ kind: 'play', last: false });
  });

  it('ends a tenth over last time’s best, on that take', () => {
    expect(next(takes([99, 'held'], [110, 'held']), { bestBpm: 100 })).toMatchObject({ kind: 'done' });
    expect(next(takes([99, 'held'], [108, 'held']), { bestBpm: 100 })).toMatchObject({
      kind: 'play',
      last: false,
    });
  });

  it('always ends, whatever is played: at most three more takes after the third failure', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom<TakeHeld>('held', 'close', 'not held'), { minLength: 40, maxLength: 60 }),
        (outcomes) => {
          const played: ClimbTake[] = [];
          let failures = 0;
          let after = 0;
          for (const went of outcomes) {
            const step = next(played);
            if (step.kind === 'done') break;
            expect(step.bpm).toBeGreaterThanOrEqual(20);
            if (failures >= 3) after++;
            played.push({ bpm: step.bpm, went, endedAtMs: played.length * 1000, lengthMs: 30_000 });
            if (went === 'not held') failures++;
          }
          expect(after).toBeLessThanOrEqual(3);
        },
      ),
    );
  });
});

describe('how a take went', () => {
  const phrase = phraseNamed('Single paradiddle, accent walk');
  it('held where it was played well, not where the accents are gone, not where another tempo was played', () => {
    const { take } = modelTake({ phrase, bpm: 84, seed: 2 });
    expect(takeHeld(gradeTake(take))).toBe('held');
    expect(takeHeld(gradeTake(modelTake({ phrase, bpm: 84, seed: 2, accentDb: -16 }).take))).toBe('not held');
    expect(takeHeld(gradeTake({ ...take, tempo: { bpm: 63 } }))).toBe('not held');
  });
});
