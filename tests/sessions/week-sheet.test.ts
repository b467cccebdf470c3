import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import type { Fault } from '../../src/model/faults';
import { gradeTake } from '../../src/take/grade-take';
import { modelTake } from '../../src/model/model-player';
import { proposedTargets } from '../../src/sessions/week/proposed-targets';
import { outcomeWords, targetWords } from '../../src/sessions/week/target-words';
import { targetsMet, type Returned } from '../../src/sessions/week/targets-met';
import { readWeekSheet, weekSheetFrom, writeWeekSheet, type WeekSheet } from '../../src/sessions/week-sheet';

const phrase = phraseNamed('Single paradiddle, accent walk');
const sheet: WeekSheet = {
  format: 'evenhand-week',
  version: 1,
  id: 'w1',
  student: 'K. P.',
  phrase,
  bpm: 80,
  limits: 'working',
  targets: [
    { kind: 'tempo', bpm: 84 },
    { kind: 'holds' },
    { kind: 'holds', variation: 'accent on 4' },
    { kind: 'measure', measure: 'contrast', atLeast: 12 },
    { kind: 'measure', measure: 'leakBefore', variation: 'accent on 4', atMost: 2 },
    { kind: 'minutes', minutes: 2 },
  ],
  words: 'Low sticks. Slow is fine.',
  due: '2026-12-01',
  changedAt: '2026-11-24T10:00:00.000Z',
};

describe('a week sheet file', () => {
  it('comes back as it was written, unknown keys included', () => {
    const more = { ...sheet, paper: 'A5', targets: [{ ...sheet.targets[0], mood: 'easy' }] };
    expect(readWeekSheet(writeWeekSheet(more))).toEqual(more);
  });

  it.each([
    [{ format: 'evenhand-take' }, 'format must be "evenhand-week", got "evenhand-take"'],
    [{ version: 3 }, 'version must be 2, got 3 (written by a newer Evenhand; update this one)'],
    [{ due: '2026-02-30' }, 'due must be a day like 2026-12-01, got "2026-02-30"'],
    [{ due: 'Tuesday' }, 'due must be a day like 2026-12-01, got "Tuesday"'],
    [{ bpm: 4 }, 'bpm must be a tempo from 20 to 400 bpm, got 4'],
    [{ targets: [{ kind: 'stars' }] }, 'targets[0].kind must be "tempo", "holds", "measure" or "minutes"'],
    [
      { targets: [{ kind: 'tempo', bpm: '90' }] },
      'targets[0].bpm must be a tempo from 20 to 400 bpm, got "90"',
    ],
    [
      { targets: [{ kind: 'holds', variation: 'accent on 9' }] },
      'targets[0].variation must be a variation of the phrase, got "accent on 9"',
    ],
    [
      { targets: [{ kind: 'measure', measure: 'contrast' }] },
      'targets[0] must have one limit: atMost or atLeast',
    ],
    [
      { phrase: { ...phrase, bars: [{ variation: 'x', sticking: 'Rl' }] } },
      'phrase.bars[0].sticking must fill its bar',
    ],
  ])('%j is refused with its place', (wrong, message) => {
    expect(() => weekSheetFrom({ ...sheet, ...wrong })).toThrow(message);
  });
});

const played = (bpm: number, more: Partial<Parameters<typeof modelTake>[0]> = {}): Returned => {
  const { take } = modelTake({ phrase, bpm, seed: 5, cycles: 8, ...more });
  return { take, report: gradeTake(take) };
};

describe('which targets a returned take met', () => {
  const outcomes = (...returned: Returned[]): string[] =>
    targetsMet(sheet, returned).map(({ outcome }) => outcome);

  it('a sound take at 84 bpm: the tempo, contrast and leak are met', () => {
    // The model player's accents lie 16 dB above its taps: more than the 12 dB asked for.
    const [tempo, , , contrast, leak, minutes] = outcomes(played(84));
    expect([tempo, contrast, leak]).toEqual(['met', 'met', 'met']);
    // 8 cycles of 4 bars of 4 beats at 84 bpm: 91 s of playing.
    expect(minutes).toBe('not met');
  });

  it('a slower take does not meet the tempo; two takes add up their minutes', () => {
    const slow = played(60);
    expect(outcomes(slow)[0]).toBe('not met');
    expect(outcomes(slow, played(84))[5]).toBe('met');
  });

  it('a ramp meets the tempo where its bars about it were clean; a weak bar that is not yet meets none', () => {
    const ramp = [
      { bar: 0, bpm: 60 },
      { bar: 64, bpm: 100 },
    ];
    const [tempo] = targetsMet(sheet, [played(60, { ramp, cycles: 16 })]);
    expect(tempo.outcome).toBe('met');
    expect(tempo.best).toBeGreaterThan(84);
    const weak = played(84, { faults: [{ kind: 'softs', db: 9, variation: 'accent on 4' }] });
    expect(targetsMet(sheet, [weak])[0]).toMatchObject({ outcome: 'not met', best: null });
  });

  it('accents of −14 dB over taps of −20 dB: contrast is not met, and says 6 dB', () => {
    const [, , , contrast] = targetsMet(sheet, [played(84, { accentDb: -14 })]);
    expect(contrast.outcome).toBe('not met');
    expect(contrast.best).toBeGreaterThan(5);
    expect(contrast.best).toBeLessThan(7);
    expect(outcomeWords(contrast)).toMatch(/^contrast at least 12 dB: not met, [56]\.\d dB$/);
  });

  it('nothing came back, or too little: not told', () => {
    expect(outcomes()).toEqual(['not told', 'not told', 'not told', 'not told', 'not told', 'not met']);
    expect(outcomes(played(84, { cycles: 1 }))[0]).toBe('not told');
  });

  it.each([
    ['lag', 10],
    ['fade', 2],
    ['doubleGap', 5],
    ['balanceSoft', 2.5],
    ['balanceAccent', 2],
  ] as const)('%s within %d is missed on either side of it, and met at it', (measure, atMost) => {
    const target = { kind: 'measure', measure, atMost } as const;
    const back = played(84);
    const outcome = (value: number) => {
      const report = { ...back.report, measures: { [measure]: { value, interval: null, n: [9, 9] } } };
      return targetsMet({ ...sheet, targets: [target] }, [{ ...back, report }])[0];
    };
    expect([-atMost, 0, atMost].map((value) => outcome(value).outcome)).toEqual(['met', 'met', 'met']);
    for (const value of [atMost + 0.1, -atMost - 0.1])
      expect(outcome(value)).toEqual({ target, outcome: 'not met', best: value });
  });

  // Graces hold from 15 to 55 ms: the sheet names one of the two limits, the other holds all the same.
  it.each([
    [{ atMost: 55 }, 3, 'not met'],
    [{ atMost: 55 }, 14.9, 'not met'],
    [{ atMost: 55 }, 15, 'met'],
    [{ atMost: 55 }, 55, 'met'],
    [{ atMost: 55 }, 55.1, 'not met'],
    [{ atMost: 28 }, 29, 'not met'],
    [{ atLeast: 20 }, 19, 'not met'],
    [{ atLeast: 20 }, 21, 'met'],
    [{ atLeast: 20 }, 56, 'not met'],
  ] as const)(
    'a gap of graces %o is, at %d ms, %s: a flat flam is within no gap',
    (limit, value, expected) => {
      const report = { ...played(84).report, measures: { flamGap: { value, interval: null, n: [9] } } };
      const target = { kind: 'measure', measure: 'flamGap', ...limit } as const;
      const [met] = targetsMet({ ...sheet, targets: [target] }, [{ ...played(84), report }]);
      expect(met).toEqual({ target, outcome: expected, best: value });
    },
  );

  it('of several takes the one that stands best is the nearest: 30 ms, not the flat 3', () => {
    const back = [3, 30, 70].map((value) => ({
      ...played(84),
      report: { ...played(84).report, measures: { flamGap: { value, interval: null, n: [9] } } },
    }));
    const target = { kind: 'measure', measure: 'flamGap', atMost: 55 } as const;
    expect(targetsMet({ ...sheet, targets: [target] }, back)).toEqual([{ target, outcome: 'met', best: 30 }]);
  });

  it('a balance of −3 dB is not within 2 dB though it is less', () => {
    const report = { ...played(84).report, measures: { balanceSoft: { value: -3, interval: null, n: [9] } } };
    const target = { kind: 'measure', measure: 'balanceSoft', atMost: 2 } as const;
    const [balance] = targetsMet({ ...sheet, targets: [target] }, [{ ...played(84), report }]);
    expect(balance).toEqual({ target, outcome: 'not met', best: -3 });
  });
});

describe('targets in words', () => {
  it('name measure, variation and limit with its unit', () => {
    expect(sheet.targets.map(targetWords)).toEqual([
      '84 bpm, with four bars of five clean',
      'every variation holds',
      'accent on 4 holds',
      'contrast at least 12 dB',
      'leak before in accent on 4 at most 2 dB',
      '2 minutes of playing',
    ]);
    expect(targetWords({ kind: 'measure', measure: 'complete', atLeast: 0.99 })).toBe(
      'complete at least 99 %',
    );
  });

  it('are proposed from what is out; where all holds, the next step of tempo', () => {
    const leaky = played(84, { accentDb: -14 });
    expect(proposedTargets(leaky, 84)[0]).toMatchObject({
      kind: 'measure',
      atLeast: 12,
      measure: 'contrast',
    });
    const good = played(80);
    const variations = good.report.variations.map((one) => ({ ...one, band: 'holds' as const }));
    const holding = { ...good, report: { ...good.report, variations } };
    expect(proposedTargets(holding, 80)).toEqual([{ kind: 'tempo', bpm: 84 }]);
    const bars = good.report.bars.map((bar, index) => (index % 3 === 0 ? { ...bar, clean: false } : bar));
    const loose = { ...holding, report: { ...holding.report, bars } };
    expect(proposedTargets(loose, 80)).toEqual([{ kind: 'tempo', bpm: 80 }]);
  });

  it('proposed are never met by the take that they are proposed from', () => {
    const faults: readonly (readonly Fault[])[] = [
      [],
      [{ kind: 'leak-before', hand: 'L', db: 4, variation: 'accent on 4' }],
      [{ kind: 'late', hand: 'L', ms: 16 }],
      [{ kind: 'scatter', ms: 17 }],
      [{ kind: 'slip', bar: 3, slot: 4, slots: 20 }],
      [{ kind: 'missed', share: 0.04 }],
      [{ kind: 'swing', percent: 58 }],
      [{ kind: 'double-gap', ms: -15, variation: 'accent on 3' }],
    ];
    for (const planted of faults) {
      const { take } = modelTake({ phrase, bpm: 84, seed: 12, cycles: 8, faults: planted });
      const returned = { take, report: gradeTake(take) };
      const targets = proposedTargets(returned, 84);
      expect(targets.length, JSON.stringify(planted)).toBeGreaterThan(0);
      const outcomes = targetsMet({ ...sheet, bpm: 84, targets }, [returned]);
      expect(outcomes.filter(({ outcome }) => outcome === 'met')).toEqual([]);
    }
  });
});
