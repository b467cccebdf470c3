import { describe, expect, it } from 'vitest';
import type { Slot } from '../../../src/exercises/types';
import { reportOf } from '../../../src/grading/report';
import type { Report } from '../../../src/grading/types';
import { accentWalk, played, wobble, type Playing } from '../played';

function walked(strike: Playing['strike'], cycles = 8): Report {
  return reportOf(played({ bars: accentWalk, cycles, ...(strike ? { strike } : {}) }));
}

// Limits: common practice, no source.
describe('seam', () => {
  it('is positive where the first stroke after a change is late', () => {
    const { seam } = walked(({ slot }) => ({ late: slot === 0 ? 14 : 0 })).measures;
    // 32 bars, each with another variation before it but the first of the take
    expect(seam?.ms).toMatchObject({ value: 14, n: [31], margin: -0.4, band: 'close' });
    expect(seam?.dB).toMatchObject({ value: 0, band: 'holds' });
  });

  it('is measured against the same place in the pattern’s next repeat, not against the click', () => {
    const { seam } = walked(({ place }) => ({ late: place === 0 ? 14 : 0 })).measures;
    expect(seam?.ms.value).toBe(0);
  });

  it('without a repeat is measured against the same hand’s mean in the bar, in level within the kind', () => {
    const report = reportOf(
      played({
        bars: [
          ['a', 'rlrr'],
          ['b', 'RlRr'],
        ],
        cycles: 8,
        beatsPerBar: 1,
        strike: ({ variation, slot, kind }) => ({
          level: kind === 'accent' ? (slot === 0 ? -8 : -4) : -22,
          late: variation === 'b' && slot === 0 ? 9 : slot === 2 ? 4 : 0,
        }),
      }),
    );
    const b = report.variations[1].measures.seam;
    // R at 9 ms against R (4) and r (0): 9 - 2; R at -8 dB against the other right accent at -4
    expect(b?.ms).toMatchObject({ value: 7, n: [8] });
    expect(b?.dB).toMatchObject({ value: -4, n: [8] });
  });

  it('in level finds taps that begin a variation too loud', () => {
    const { seam } = walked((slot) => ({
      level:
        (slot.kind === 'accent' ? -4 : -22) + wobble(slot) + (slot.slot === 0 && slot.kind === 'tap' ? 5 : 0),
    })).variations[3].measures;
    expect(seam?.dB.value).toBeCloseTo(5, 0);
    expect(seam?.dB.band).toBe('not yet');
  });

  it('takes no spill for a seam: the first tap of rlrR is not beside an accent, its like later in the bar is', () => {
    const bars = [['accents off', 'rlrr lrll rlrr lrll'], ...accentWalk] as const;
    const due: readonly (Slot | undefined)[] = played({ bars, cycles: 8 }).grid.slots;
    const report = reportOf(
      played({
        bars,
        cycles: 8,
        strike: (slot) => {
          const [before, after] = [due[slot.index - 1], due[slot.index + 1]];
          const beside = [before, after].some((one) => one?.kind === 'accent' && one.hand !== slot.hand);
          return { level: (slot.kind === 'accent' ? -4 : -22 + (beside ? 6 : 0)) + wobble(slot) };
        },
      }),
    );
    expect(report.variations[4].measures.spill?.value).toBeCloseTo(6, 0);
    expect(report.variations[4].measures.seam?.dB.band).toBe('holds');
  });

  it('needs 6 changes', () => {
    expect(walked(undefined, 5).variations[1].measures.seam?.ms).toMatchObject({
      band: 'too few strokes',
      n: [5],
    });
    expect(walked(undefined, 6).variations[1].measures.seam?.ms).toMatchObject({ band: 'holds', n: [6] });
  });

  it('leaves out a first stroke that was missed', () => {
    const { seam } = walked(({ index }) => (index === 16 ? { status: 'missed' } : {})).measures;
    expect(seam?.ms.n).toEqual([30]);
  });

  it('is absent where no variation changes', () => {
    expect(
      reportOf(played({ bars: [['plain', 'Rlrr Lrll Rlrr Lrll']], cycles: 8 })).measures,
    ).not.toHaveProperty('seam');
  });
});
