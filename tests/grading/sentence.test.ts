import { describe, expect, it } from 'vitest';
import type { Slot } from '../../src/exercises/types';
import { reportOf } from '../../src/grading/report';
import { verdictWords } from '../../src/grading/sayings';
import type { Figure, Report } from '../../src/grading/types';
import { accentWalk, played, rotations, wobble, type Playing, type Struck } from './played';

const walk = (strike: (slot: Slot) => Struck, more: Partial<Playing> = {}): Report =>
  reportOf(played({ bars: accentWalk, cycles: 8, strike, ...more }));

const base = ({ kind }: Slot): number => (kind === 'accent' ? -4 : -22);
/** The left hand’s tap before its accent, 6 dB loud in the fourth variation. */
const leaking = (slot: Slot): Struck => ({
  level: base(slot) + (slot.variation === 'accent on 4' && slot.hand === 'L' && slot.type === 'up' ? 6 : 0),
});
const LEAK = 'the left hand’s tap before its accent is 6.0 dB louder than its other taps';

// What the sentence says is this app's own; the numbers in it are those planted.
describe('the sentence on the weakest variation', () => {
  it('names the variation, the hand and the stroke, and by how much', () => {
    expect(walk(leaking).sentence).toBe(`Accent on 4 is the weak bar: ${LEAK}.`);
  });

  it('with hands assumed speaks of strokes due', () => {
    expect(walk(leaking, { hands: 'assumed' }).sentence).toBe(
      'Accent on 4 is the weak bar: the tap due with the left before its accent is 6.0 dB louder than that hand’s other taps.',
    );
  });

  it('keeps sticking as it is written, where a capital is an accent', () => {
    const report = reportOf(
      played({
        bars: [
          ['rlrr lrll', 'rlrr lrll rlrr lrll'],
          ['Rlrr Lrll', 'Rlrr Lrll Rlrr Lrll'],
        ],
        cycles: 8,
        strike: ({ cycle, variation }) => ({ late: variation === 'rlrr lrll' ? 18 - 36 * (cycle % 2) : 0 }),
      }),
    );
    expect(report.sentence).toBe(
      'rlrr lrll is the weak bar: the strokes scatter by 19 ms about their own places.',
    );
  });

  it('of a phrase of one variation goes straight to the reason', () => {
    const report = reportOf(
      played({
        bars: [['plain', 'Rlrr Lrll Rlrr Lrll']],
        cycles: 8,
        strike: ({ kind }) => ({ level: kind === 'accent' ? -12 : -20 }),
      }),
    );
    expect(report.sentence).toBe('The accents are 8.0 dB louder than the taps; the aim is 12 dB or more.');
  });

  it('names both where one is as bad as the other, and two of four at most', () => {
    const report = walk((slot) => ({
      level:
        slot.kind === 'accent' ? ({ 'accent on 2': -13, 'accent on 3': -12.5 }[slot.variation] ?? -4) : -22,
    }));
    expect(report.sentence).toBe(
      'Accent on 2 and accent on 3 are the weak bars: in accent on 2, the accents are 9.0 dB louder than the taps; the aim is 12 dB or more.',
    );
  });

  it('what more than half of the variations have is the phrase’s, with its hand', () => {
    const late = walk(({ hand, kind }) => ({
      level: kind === 'accent' ? -4 : -24,
      late: hand === 'R' ? -20 : 0,
    }));
    expect(late.weakest).toMatchObject({ scope: 'hand', measure: 'lag' });
    expect(late.weakest?.variations).toHaveLength(4);
    expect(late.sentence).toBe('In every variation the right hand comes 20 ms earlier than the left.');
    const most = walk(({ kind, variation }) => ({
      level: kind === 'accent' ? (variation === 'accent on 2' ? -4 : -14) : -22,
    }));
    expect(most.weakest).toMatchObject({ scope: 'kind', measure: 'contrast' });
    expect(most.sentence).toMatch(/^In most variations the accents are 8\.0 dB louder than the taps/);
  });

  it('a variation of which every bar was left out has its row, not played, and names nothing', () => {
    const report = walk(({ variation, kind }): Struck =>
      variation === 'accent on 3' ? { status: 'notPlayed' } : { level: kind === 'accent' ? -4 : -24 },
    );
    expect(report.variations.map(({ band }) => band)).toEqual(['holds', 'holds', 'not played', 'holds']);
    expect(report.variations[2].measures).toEqual({});
    expect(report.sentence).toMatch(
      /^Every variation that was played often enough holds; accent on 3 was not played\. /,
    );
  });

  it('no variation holds from under three bars of it', () => {
    const good = ({ kind }: Slot): Struck => ({ level: kind === 'accent' ? -4 : -24 });
    const two = walk(good, { cycles: 2 });
    expect(two.variations.map(({ band }) => band)).toEqual(Array(4).fill('too few bars'));
    expect(two.sentence).toBe('Too few bars to say that it holds: all of it looks good so far.');
    expect(walk(good, { cycles: 3 }).variations.map(({ band }) => band)).toEqual(Array(4).fill('holds'));
  });

  it('names no leak of the same hand beside a fade: it is the fade’s shadow', () => {
    const report = walk(leaking);
    const out = (value: number, hand: 'R' | 'L'): Figure => ({
      value,
      interval: [value, value],
      n: [32],
      margin: -1.2,
      supported: -1.2,
      band: 'not yet',
      sure: true,
      hand,
    });
    const beside = (hand: 'R' | 'L'): string =>
      verdictWords(
        {
          ...report,
          variations: [
            { ...report.variations[0], measures: { leakBefore: out(6, hand) } },
            { ...report.variations[1], measures: { fade: { ...out(-6, 'L'), supported: -1.3 } } },
          ],
        },
        {
          scope: 'variation',
          variations: ['accent on 2'],
          variation: 'accent on 2',
          measure: 'fade',
          slot: null,
          value: -6,
        },
        32,
      );
    const fading =
      'Accent on 2 is the weak bar: the second note of the left hand’s doubles is 6.0 dB softer than the first.';
    expect(beside('L')).toBe(fading);
    expect(beside('R')).toBe(
      `${fading} Accent on 1 comes next: the right hand’s tap before its accent is 6.0 dB louder than its other taps.`,
    );
  });

  it('where all hold says so first, and what to polish, without an aim that is reached', () => {
    const report = walk((slot) => ({
      level: slot.kind === 'accent' ? ({ 'accent on 2': -9 }[slot.variation] ?? -4) : -24,
      late: 0,
    }));
    expect(report.sentence).toBe(
      'Every variation holds. To polish: accent on 2, where the accents are 15.0 dB louder than the taps.',
    );
  });

  it('where all are ideal has nothing to polish', () => {
    expect(walk(({ kind }) => ({ level: kind === 'accent' ? -4 : -24 })).sentence).toBe(
      'Every variation holds. Nothing measured asks for polish.',
    );
  });

  it('gives no praise that the interval doesn’t support', () => {
    // leaks of 1.8 dB, give or take: within the 2 dB that hold, but not surely
    const report = walk((slot) => ({
      level: base(slot) + 2 * wobble(slot) + (slot.kind !== 'accent' && slot.type === 'up' ? 1.8 : 0),
    }));
    expect(report.sentence).toMatch(
      /^Every variation holds, though these strokes leave some doubt\. To polish: /,
    );
  });

  it('where each variation holds by itself, but the take doesn’t, says that', () => {
    // 4 changes into each variation are too few, 15 in the take are not
    const report = walk(
      ({ slot, kind }) => ({ level: kind === 'accent' ? -4 : -24, late: slot === 0 ? 14 : 0 }),
      {
        cycles: 4,
      },
    );
    expect(report.sentence).toBe(
      'Every variation holds by itself; over the whole take, the first stroke after the change comes 14 ms late.',
    );
  });

  it('of too few strokes for any verdict says so', () => {
    const report = walk(({ index }) => (index < 3 ? {} : { status: 'tooSoft' }), { cycles: 1 });
    expect(report.sentence).toBe('Too few strokes for a verdict. Play the phrase round a few more times.');
    expect(report.weakest).toBeNull();
  });

  it('of too few strokes in each variation speaks of the whole take', () => {
    const report = walk(
      ({ index, kind }) => (index % 6 === 0 ? { level: kind === 'accent' ? -4 : -8 } : { status: 'tooSoft' }),
      { cycles: 1 },
    );
    expect(report.sentence).toMatch(/^Too few strokes to judge a variation by itself; over the whole take, /);
  });
});

describe('the sentence on other things comes first', () => {
  const misfit = (reason: 'subdivision' | 'tempo' | 'swung' | 'unpaired', tempoBpm?: number): string =>
    walk(leaking, { alignment: { misfit: tempoBpm === undefined ? { reason } : { reason, tempoBpm } } })
      .sentence;

  it('a take that doesn’t fit its grid: the reason, and the tempo where one fits', () => {
    expect(misfit('tempo', 88.2)).toBe(
      'The take does not fit its grid, so it has no grade: it was played at about 88 bpm.',
    );
    expect(misfit('subdivision')).toBe(
      'The take does not fit its grid, so it has no grade: another subdivision or tempo was played.',
    );
    expect(misfit('swung')).toBe(
      'The take does not fit its grid, so it has no grade: it was played swung, and the phrase is not written so.',
    );
    expect(misfit('unpaired')).toBe(
      'The take does not fit its grid, so it has no grade: under 60 % of the slots or of the strokes found their partner.',
    );
  });

  it('the rig from 2 % of strokes, with the weakest variation as second clause', () => {
    // 512 strokes: 2 % is 10.24
    expect(walk(leaking, { echoes: 10 }).sentence).toBe(`Accent on 4 is the weak bar: ${LEAK}.`);
    expect(walk(leaking, { echoes: 11, conditioning: { forerunners: 26, crosstalk: 51 } }).sentence).toBe(
      'See to the rig first: echoes after 2 % of the strokes, false notes before 5 % of the strokes,' +
        ` crosstalk with 10 % of the strokes; then accent on 4 is the weak bar: ${LEAK}.`,
    );
  });

  it('a surface that clips, only where accents are the question', () => {
    const loud = walk((slot) => (slot.kind === 'accent' ? { level: 0, velocity: 127 } : leaking(slot)));
    expect(loud.sentence).toBe(`Accent on 4 is the weak bar: ${LEAK}.`);
    const flat = walk(({ kind }) => (kind === 'accent' ? { level: 0, velocity: 127 } : { level: -8 }));
    expect(flat.measures.contrast).toMatchObject({ value: 8, atLeast: true });
    expect(flat.measures.contrast?.band).toBeUndefined();
    expect(flat.sentence).toMatch(
      /^See to the rig first: accents on "pad" reach velocity 127, the most it can report; then in every variation the taps sit at −8\.0 dB/,
    );
  });

  const slipped = (lag: number, slot: number, more: Partial<Playing> = {}): Report =>
    reportOf(
      played({
        bars: rotations,
        cycles: 8,
        strike: ({ bar, slot: at }) => (bar === 2 && at >= slot ? { status: 'slipped' } : {}),
        slips: [{ bar: 2, slot, slots: 16 - slot, lag }],
        ...more,
      }),
    );

  it('a slip, by the first displaced accent', () => {
    // bar 3 is Rrlr Llrl Rrlr Llrl: from slot 2 on the next accent is slot 4, on beat 2
    expect(slipped(1, 2).sentence).toBe('The pattern slipped: one partial ahead from bar 3, beat 2.');
    expect(slipped(-2, 8).sentence).toBe('The pattern slipped: two partials behind from bar 3, beat 3.');
  });

  it('a slip whose accent is off the beat names the partial', () => {
    const report = walk(({ bar, slot }) => (bar === 1 && slot >= 4 ? { status: 'slipped' } : {}), {
      slips: [{ bar: 1, slot: 4, slots: 12, lag: 1 }],
    });
    expect(report.sentence).toBe('The pattern slipped: one partial ahead from bar 2, beat 2, partial 2.');
  });

  it('a slip after the rig, as second clause', () => {
    expect(slipped(1, 2, { echoes: 40 }).sentence).toMatch(
      /^See to the rig first: echoes after \d % of the strokes; then the pattern slipped: one partial ahead from bar 3, beat 2\.$/,
    );
  });
});
