import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../../src/exercises/phrase';
import { rigRemedyOf } from '../../../src/grading/remedy/rig-remedy';
import type { Report } from '../../../src/grading/types';
import type { Fault } from '../../../src/model/faults';
import { modelTake } from '../../../src/model/model-player';
import type { Rig } from '../../../src/sessions/types';
import { gradeTake } from '../../../src/take/grade-take';

// What is planted is the model player's; which step mends it is this app's own.
const phrase = phraseNamed('Single paradiddle, accent walk');
const leak: Fault = { kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' };

function graded(faults: readonly Fault[], change: (rig: Rig) => Rig = (rig) => rig, accentDb = -4): Report {
  const { take } = modelTake({ phrase, bpm: 84, seed: 31, cycles: 6, faults, accentDb });
  return gradeTake({ ...take, rig: change(take.rig) });
}

const taught = (rig: Rig): Rig => ({
  ...rig,
  surfaces: rig.surfaces.map((one) => ({ ...one, echo: { fromMs: 40, toMs: 70, ratio: 0.3, n: 12 } })),
});

describe('what the rig does to a take', () => {
  const planted: readonly (readonly [string, readonly Fault[], string, RegExp])[] = [
    ['echoes', [{ kind: 'echo', share: 0.08, ratio: 0.2 }], 'false notes', /Teach the rig its false notes/],
    [
      'strokes that come twice',
      [{ kind: 'twice', share: 0.1, ms: 25, db: 0 }],
      'false notes',
      /retrigger time/,
    ],
    ['one loudness', [{ kind: 'velocities', count: 1 }], 'heights', /velocity curve/],
    ['a few loudnesses', [{ kind: 'velocities', count: 3 }], 'heights', /velocity curve/],
    ['latency', [{ kind: 'latency', ms: 150 }], 'delays', /cable/],
  ];

  it.each(planted)('%s: opens its step, whatever else is out', (_, faults, step, todo) => {
    for (const both of [faults, [...faults, leak]]) {
      const remedy = rigRemedyOf(graded(both));
      expect(remedy?.step).toBe(step);
      expect(remedy?.sentence).toMatch(todo);
    }
  });

  it('is no reason where nothing is wrong with it', () => {
    expect(rigRemedyOf(graded([]))).toBeUndefined();
    expect(rigRemedyOf(graded([leak]))).toBeUndefined();
  });

  it('is done with once the rig knows its false notes: the sentence says no more of them', () => {
    const echoing: readonly Fault[] = [{ kind: 'echo', share: 0.08, ratio: 0.2 }];
    expect(graded(echoing).sentence).toMatch(/^See to the rig first: echoes/);
    const report = graded(echoing, taught);
    expect(report.falseNotesKnown).toBe(true);
    expect(report.counts.echoes).toBeGreaterThan(20);
    expect(report.sentence).toMatch(/^Every variation holds/);
    expect(rigRemedyOf(report)).toBeUndefined();
  });

  it('where over a quarter of the notes are false the take has no grade, and the step is all that is proposed', () => {
    const broken = graded([{ kind: 'echo', share: 0.6, ratio: 0.2 }]);
    expect(broken.misfit?.reason).toBe('rig');
    expect(rigRemedyOf(broken)?.step).toBe('false notes');
    expect(rigRemedyOf(graded([{ kind: 'echo', share: 0.6, ratio: 0.2 }], taught))?.sentence).toMatch(
      /retrigger/,
    );
  });

  it('accents that reach the loudest velocity are a reason only where accents are the question', () => {
    const flat: Fault = { kind: 'softs', db: 12 };
    expect(rigRemedyOf(graded([flat], undefined, 2))?.step).toBe('heights');
    expect(rigRemedyOf(graded([], undefined, 2))).toBeUndefined();
  });
});
