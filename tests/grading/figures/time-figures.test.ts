import { describe, expect, it } from 'vitest';
import type { Slot } from '../../../src/exercises/types';
import { reportOf } from '../../../src/grading/report';
import type { Report } from '../../../src/grading/types';
import { accentWalk, played, type Playing } from '../played';
import { seeded } from '../seeded';

const singles = [['singles', 'rlrl rlrl rlrl rlrl']] as const;
const roll = [['roll', 'rrll rrll rrll rrll']] as const;

/** 120 bpm, sixteenths: 125 ms apart; a swing of 62 % puts every second one 30 ms late. */
function take(bars: Playing['bars'], late: (slot: Slot) => number, more: Partial<Playing> = {}): Report {
  const random = seeded(41);
  const strike: Playing['strike'] = (slot) => ({ late: late(slot) + 3 * random.normal() });
  return reportOf(played({ bars, cycles: 6, strike, ...more }));
}
const swing = ({ partialInBeat }: Slot): number => (partialInBeat % 2 === 1 ? 30 : 0);

describe('lag and doubles told apart from swing', () => {
  it('a paradiddle swung at 62 % has no late hand and no wide doubles', () => {
    const { measures, variations } = take(accentWalk, swing);
    expect(measures.lag?.band).toBe('holds');
    expect(measures.doubleGap?.band).toBe('holds');
    for (const variation of variations) {
      expect(variation.measures.lag?.band).toBe('holds');
      expect(variation.measures.doubleGap?.band).toBe('holds');
    }
  });

  it('a left hand 18 ms late is told with that swing and without it', () => {
    const late = ({ hand }: Slot): number => (hand === 'L' ? 18 : 0);
    for (const report of [take(accentWalk, late), take(accentWalk, (slot) => late(slot) + swing(slot))]) {
      expect(Math.abs(report.measures.lag!.value! + 18)).toBeLessThan(2);
      expect(report.weakest?.measure).toBe('lag');
    }
  });

  it('in plain singles 16 ms may be swing: the wider limits of swing hold it where the notes are slow', () => {
    const late = ({ hand }: Slot): number => (hand === 'L' ? 16 : 0);
    expect(take(singles, late).measures.lag?.band).toBe('close');
    expect(take(singles, late, { bpm: 45 }).measures.lag?.band).toBe('holds');
  });

  it('a swing of 70 % fits its grid: the report grades it', () => {
    const report = take(accentWalk, ({ partialInBeat }) => (partialInBeat % 2 === 1 ? 50 : 0), {
      alignment: { misfit: { reason: 'swung' } },
    });
    expect(report.fits).toBe(true);
    expect(report.measures.lag?.band).toBe('holds');
  });

  it('an open roll’s second notes 15 ms late are wide doubles, in percent of their gap', () => {
    const report = take(roll, ({ slot }) => (slot % 2 === 1 ? 15 : 0));
    expect(Math.abs(report.measures.doubleGap!.value! - 12)).toBeLessThan(1.5);
    expect(report.perHand.R.measures.doubleGap?.band).toBe(report.measures.doubleGap?.band);
  });

  it('doubles of one hand only are that hand’s', () => {
    const report = take(accentWalk, ({ hand, slot }) => (hand === 'L' && slot % 8 === 7 ? 20 : 0));
    expect(report.perHand.L.measures.doubleGap!.value!).toBeGreaterThan(13);
    expect(Math.abs(report.perHand.R.measures.doubleGap!.value!)).toBeLessThan(3);
  });

  it('under four bars there is no verdict', () => {
    const report = take(singles, () => 0, { cycles: 3 });
    expect(report.measures.lag).toMatchObject({ band: 'too few strokes', value: null });
  });

  it('where both hands are due at once on two pads, their lag is still told', () => {
    const bars = [['together', '[rl] - [rl] - [rl] - [rl] - [rl] - [rl] - [rl] - [rl] -']] as const;
    const report = take(bars, ({ hand }) => (hand === 'R' ? 14 : 0));
    expect(Math.abs(report.measures.lag!.value! - 14)).toBeLessThan(2);
  });
});

describe('arrival', () => {
  const late =
    (ms: number, name = 'accent on 2') =>
    ({ variation }: Slot): number =>
      variation === name ? ms : 0;

  it('a variation 60 ms behind the rest doesn’t hold: its bars sit behind the other bars', () => {
    const report = take(accentWalk, late(60));
    expect(report.weakest).toMatchObject({ variation: 'accent on 2', measure: 'arrival' });
    expect(report.sentence).toMatch(
      /its bars sit 60 ms behind the other bars|its bars sit (59|61) ms behind/,
    );
    expect(report.variations[1].measures.arrival?.band).toBe('not yet');
    for (const v of [0, 2, 3]) expect(report.variations[v].measures.arrival?.band).toBe('holds');
  });

  it('of two variations one comes before the other', () => {
    const report = take(accentWalk.slice(0, 2), late(40));
    expect(report.sentence).toMatch(/comes (39|40|41) ms (before|after) the other bar/);
  });

  it('is absent from the take, from a phrase of one variation, and from a single cycle', () => {
    expect(take(accentWalk, late(60)).measures.arrival).toBeUndefined();
    expect(take(singles, () => 0).variations[0].measures.arrival).toBeUndefined();
    expect(take(accentWalk, late(60), { cycles: 1 }).variations[1].measures.arrival).toBeUndefined();
  });
});

describe('feel', () => {
  it('a swing of 62 % is told first, in percent, and names no variation', () => {
    const report = take(accentWalk, swing);
    expect(Math.abs(report.measures.feel!.value! - 12)).toBeLessThan(0.5);
    expect(report.measures.feel?.band).toBe('not yet');
    expect(report.sentence).toMatch(
      /^You swing: every second note falls at 62 % of its pair\. Every variation holds/,
    );
  });

  it('in plain singles it is said as either, with what would tell', () => {
    const { sentence, timeModel } = take(singles, swing);
    expect(sentence).toMatch(
      /^The right hand comes \d+ ms earlier than the left, or it is swung: lead with the other hand to know/,
    );
    expect(Math.abs(timeModel!.swingPercent! - 62)).toBeLessThan(0.5);
  });

  it('straight play holds', () => {
    const { feel } = take(accentWalk, () => 0).measures;
    expect(Math.abs(feel!.value!)).toBeLessThan(0.5);
    expect(feel?.band).toBe('holds');
  });
});

describe('how loud a roll is', () => {
  it('is the player’s choice: a clean single stroke roll at velocity 100 has no verdict on loudness', () => {
    const report = reportOf(
      played({ bars: singles, cycles: 8, strike: (slot) => ({ level: -4.2, late: slot.slot % 3 }) }),
    );
    expect(report.measures.softness?.value).toBe(-4.2);
    expect(report.measures.softness?.band).toBeUndefined();
    expect(report.weakest?.measure).not.toBe('softness');
  });
});

describe('the interval of scatter', () => {
  it('is wider for a take that drifts slowly than for one as spread that does not', () => {
    let walk = 0;
    const random = seeded(6);
    const drifting = reportOf(
      played({
        bars: accentWalk,
        cycles: 8,
        strike: () => ({ late: (walk = 0.97 * walk + 2 * random.normal()) }),
      }),
    );
    const white = reportOf(
      played({ bars: accentWalk, cycles: 8, strike: () => ({ late: 8 * random.normal() }) }),
    );
    const reach = ({ measures: { scatter } }: Report): number => scatter!.interval![1] / scatter!.value!;
    expect(reach(white)).toBeLessThan(1.12);
    expect(reach(drifting)).toBeGreaterThan(reach(white) + 0.1);
  });
});
