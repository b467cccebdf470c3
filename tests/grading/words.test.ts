import { describe, expect, it } from 'vitest';
import { reasonWords, type Telling } from '../../src/grading/reasons';
import { reportOf } from '../../src/grading/report';
import { measureOrder, type Figure, type JudgedKey, type Measures } from '../../src/grading/types';
import {
  bandWords,
  figureWords,
  measureAim,
  measureName,
  measureUnit,
  strengthWords,
} from '../../src/grading/words';
import { settingsOf } from '../../src/settings';
import { accentWalk, played } from './played';

const settings = settingsOf('working');
const known: Telling = {
  handsKnown: true,
  aims: true,
  soft: 'tap',
  softest: 'tap',
  mayBeSwing: [],
  variations: 4,
  settings,
};
const assumed: Telling = { ...known, handsKnown: false };
const figure = (value: number, hand?: 'R' | 'L'): Figure => ({
  value,
  interval: [value, value],
  n: [32],
  margin: -1,
  supported: -1,
  band: 'close',
  sure: true,
  ...(hand ? { hand } : {}),
});
const seam = (ms: number, dB: number, worse: 'ms' | 'dB'): Measures => ({
  seam: {
    ms: { ...figure(ms), supported: worse === 'ms' ? -1 : 1 },
    dB: { ...figure(dB), supported: worse === 'dB' ? -1 : 1 },
  },
});
const said = (key: Exclude<JudgedKey, 'seam'>, value: number, telling = known, hand?: 'R' | 'L'): string =>
  reasonWords(key, { [key]: figure(value, hand) }, telling);

describe('each measure has its own plain words', () => {
  it.each([
    ['complete', 0.912, undefined, '91.2 % of the strokes are right'],
    ['scatter', 17.6, undefined, 'the strokes scatter by 18 ms about their own places'],
    ['leakBefore', 5.1, 'L', 'the left hand’s tap before its accent is 5.1 dB louder than its other taps'],
    ['leakAfter', 3, 'R', 'the right hand’s tap after its accent is 3.0 dB louder than its other taps'],
    [
      'spill',
      4,
      'L',
      'the left hand’s tap beside the other hand’s accent is 4.0 dB louder than its other taps',
    ],
    ['softRange', 8, 'R', 'the right hand’s taps differ by 8.0 dB from place to place'],
    ['softness', -9, undefined, 'the taps sit at −9.0 dB; the aim is −16 dB or softer'],
    [
      'ghostContrast',
      1.5,
      undefined,
      'the ghost notes are 1.5 dB softer than the taps; the aim is 5 dB or more',
    ],
    ['contrast', 6.2, undefined, 'the accents are 6.2 dB louder than the taps; the aim is 12 dB or more'],
    ['clarity', 0.88, undefined, 'an accent is louder than a tap in 88 of 100 pairs'],
    ['fade', -4.1, 'L', 'the second note of the left hand’s doubles is 4.1 dB softer than the first'],
    ['fade', 4.1, 'R', 'the second note of the right hand’s doubles is 4.1 dB louder than the first'],
    ['doubleGap', 9, undefined, 'the doubles are 9 % too wide, the second note late'],
    ['doubleGap', -9, undefined, 'the doubles are 9 % too narrow, the second note early'],
    ['balanceSoft', 5.2, undefined, 'the right hand’s taps are 5.2 dB louder than the left hand’s'],
    ['balanceSoft', -5.2, undefined, 'the left hand’s taps are 5.2 dB louder than the right hand’s'],
    ['balanceAccent', -3, undefined, 'the left hand’s accents are 3.0 dB louder than the right hand’s'],
    ['lag', 22, undefined, 'the right hand comes 22 ms later than the left'],
    ['lag', -22, undefined, 'the right hand comes 22 ms earlier than the left'],
    ['softSpread', 6.3, undefined, 'the taps vary by 6.3 dB from stroke to stroke'],
    ['accentSpread', 4, undefined, 'the accents vary by 4.0 dB from stroke to stroke'],
  ] as const)('%s %d', (key, value, hand, words) => {
    expect(said(key, value, known, hand)).toBe(words);
  });

  it.each([
    [
      'leakAfter',
      3,
      'R',
      'the tap due with the right after its accent is 3.0 dB louder than that hand’s other taps',
    ],
    ['softRange', 8, 'R', 'the taps due with the right differ by 8.0 dB from place to place'],
    ['fade', -4.1, 'L', 'the second note of the doubles due with the left is 4.1 dB softer than the first'],
    [
      'balanceSoft',
      5.2,
      undefined,
      'the taps due with the right are 5.2 dB louder than those due with the left',
    ],
    ['lag', -22, undefined, 'the strokes due with the right come 22 ms earlier than those due with the left'],
  ] as const)('with hands assumed: %s %d', (key, value, hand, words) => {
    expect(said(key, value, assumed, hand)).toBe(words);
  });

  it('of the seam speaks of the worse of time and level, with its direction', () => {
    expect(reasonWords('seam', seam(14, 1, 'ms'), known)).toBe(
      'the first stroke after the change comes 14 ms late',
    );
    expect(reasonWords('seam', seam(-14, 1, 'ms'), known)).toBe(
      'the first stroke after the change comes 14 ms early',
    );
    expect(reasonWords('seam', seam(2, 3.1, 'dB'), known)).toBe(
      'the first stroke after the change is 3.1 dB louder than its like later in the bar',
    );
  });

  it('calls soft strokes what they are', () => {
    expect(said('leakBefore', 5, { ...known, soft: 'ghost note' }, 'L')).toBe(
      'the left hand’s ghost note before its accent is 5.0 dB louder than its other ghost notes',
    );
  });

  it('has no aim where it is reached', () => {
    expect(said('contrast', 15, { ...known, aims: false })).toBe(
      'the accents are 15.0 dB louder than the taps',
    );
  });

  it('a difference that rounds to nought is none', () => {
    expect(said('leakBefore', 0.04, known, 'L')).toBe(
      'the left hand’s tap before its accent is as loud as its other taps',
    );
  });
});

describe('figures', () => {
  it.each([
    ['complete', 0.9844, '98.4 %'],
    ['clarity', 0.9812, '0.981'],
    ['contrast', 15.94, '15.9 dB'],
    ['softness', -20.07, '−20.1 dB'],
    ['balanceSoft', 0.6, 'R 0.6 dB louder'],
    ['balanceSoft', -0.6, 'L 0.6 dB louder'],
    ['balanceSoft', -0.01, '0.0 dB'],
    ['lag', -12, 'R 12 ms earlier'],
    ['asynchrony', -8.2, '8 ms early'],
    ['asynchrony', 8.2, '8 ms late'],
    ['scatter', 7.4, '7 ms'],
    ['doubleGap', 8.1, '8 % wide'],
    ['doubleGap', -8.1, '8 % narrow'],
    ['accentStretch', 1.25, '1.3 % longer'],
  ] as const)('%s %d is %s', (key, value, words) => {
    expect(figureWords(key, figure(value))).toBe(words);
  });

  it('carry their hand, a lower bound, or why there is none', () => {
    expect(figureWords('leakBefore', figure(5.12, 'L'))).toBe('L 5.1 dB');
    expect(figureWords('fade', figure(-1.2, 'R'))).toBe('R −1.2 dB');
    expect(figureWords('contrast', { ...figure(15), atLeast: true })).toBe('at least 15.0 dB');
    expect(figureWords('fade', { value: null, interval: null, n: [3], band: 'too few strokes' })).toBe(
      'too few strokes',
    );
  });

  it('of the seam are two', () => {
    const { seam: figures } = seam(2.4, -0.4, 'ms');
    expect(figureWords('seam', figures ?? expect.fail())).toBe('2 ms late, 0.4 dB softer');
  });
});

describe('names, units and aims', () => {
  it('every judged measure has a name and an aim, no two the same name', () => {
    expect(new Set(measureOrder.map(measureName)).size).toBe(measureOrder.length);
    for (const key of measureOrder) expect(measureAim(key, settings)).toMatch(/^aim (under|within|−?\d)/);
  });

  it('aims are the limits in force', () => {
    expect(measureAim('leakBefore', settings)).toBe('aim under 2 dB');
    expect(measureAim('leakBefore', settingsOf('first year'))).toBe('aim under 4 dB');
    expect(measureAim('softness', settings)).toBe('aim −16 dB or softer');
    expect(measureAim('balanceSoft', settings)).toBe('aim within 2.5 dB');
    expect(measureAim('scatter', settings)).toBe('aim under 8 % of the gap, 8 to 16 ms');
    expect(measureAim('complete', settings)).toBe('aim 99 % or more');
    expect(measureUnit('lag')).toBe('ms');
  });

  it('bands say whether they are sure', () => {
    expect(bandWords('close', true)).toBe('close, sure');
    expect(bandWords('holds', false)).toBe('holds, not sure');
    expect(bandWords('too few strokes', false)).toBe('too few strokes');
    expect(bandWords('not yet')).toBe('not yet');
  });
});

describe('how strong a sentence is', () => {
  const leaking = played({
    bars: accentWalk,
    cycles: 8,
    hands: 'assumed',
    strike: ({ variation, kind }) => ({
      level: kind === 'accent' ? (variation === 'accent on 4' ? -12 : -4) : -20,
    }),
  });

  it('says from how many strokes, how hands are known, and what levels are', () => {
    // 32 accents and 96 taps of accent on 4
    expect(strengthWords(reportOf(leaking))).toBe(
      'From 128 strokes: close, for certain. Hands assumed from the sticking. Levels are dB re velocity 127, not set to this rig.',
    );
  });

  it('never drops notes without a surface, or slips not looked for, in silence', () => {
    const words = strengthWords(
      reportOf({
        ...leaking,
        hands: 'known',
        conditioning: { forerunners: 0, crosstalk: 0, unmapped: 3 },
        alignment: { ...leaking.alignment, slipsNotToldBecause: 'no accents' },
      }),
    );
    expect(words).toBe(
      'From 128 strokes: close, for certain. Hands known from the surfaces. Slips not looked for: no accents.' +
        ' Three hits on notes that no surface owns. Levels are dB re velocity 127, not set to this rig.',
    );
  });
});
