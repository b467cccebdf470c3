import { describe, expect, it } from 'vitest';
import { align } from '../../src/alignment/align';
import type { AlignStroke } from '../../src/alignment/types';
import { gridOf } from '../../src/exercises/grid';
import { phraseNamed } from '../../src/exercises/phrase';
import type { Grid, Phrase } from '../../src/exercises/types';
import { voiced } from '../../src/exercises/voicings';
import { settingsOf } from '../../src/settings';

const settings = settingsOf('working');
const walk: Phrase = { ...phraseNamed('Single paradiddle, accent walk'), cycles: 4 };

/** Each slot's stroke on time as loud as `levelDb` says; slots `from` to `to` play what is due `lag` places on. */
function played(
  { slots }: Grid,
  levelDb: (slot: Grid['slots'][number]) => number,
  { from = 0, to = 0, lag = 0 } = {},
): AlignStroke[] {
  return slots.map(({ atMs, shiftDb }, i) => {
    const meant = slots[i >= from && i < to ? (i + lag) % slots.length : i];
    const level = levelDb({ ...meant, shiftDb });
    return { atMs, levelDb: level, hand: null, echoLike: false, surface: meant.surface ?? 'pad' };
  });
}

describe('slips under dynamics', () => {
  const bars = walk.bars.map((bar, index) => ({ ...bar, dyn: index % 2 === 0 ? 'p' : 'f' }));
  const grid = gridOf({ ...walk, bars }, { bpm: 84 }, 0);
  // An accent under p is 19.1 dB softer than one under f: as soft as a tap there.
  const level = ({ kind, shiftDb }: Grid['slots'][number]) => (kind === 'accent' ? -4 : -20) + shiftDb;

  it('are told though a soft bar’s accents are no louder than a loud bar’s taps', () => {
    const slip = align(grid, played(grid, level, { from: 70, to: 97, lag: 1 }), settings);
    expect(slip.slipsNotToldBecause).toBeNull();
    expect(slip.slips).toHaveLength(1);
    expect(slip.slips[0]).toMatchObject({ bar: 4, lag: 1 });
  });

  it('are not found where there is none', () => {
    expect(align(grid, played(grid, level), settings)).toMatchObject({
      slips: [],
      slipsNotToldBecause: null,
    });
  });
});

describe('slips across drums', () => {
  const grid = gridOf(voiced(walk, 'accents to toms'), { bpm: 84 }, 0);
  // Toms that report 20 dB less than the snare: an accent there is softer than a tap on the snare.
  const level = ({ kind, surface }: Grid['slots'][number]) =>
    (kind === 'accent' ? -4 : -20) + (surface === 'snare' ? 0 : -20);

  it('are not found in a clean take on drums that report differently', () => {
    expect(align(grid, played(grid, level), settings).slips).toEqual([]);
  });

  it('are told by the drum that was struck', () => {
    const { slips } = align(grid, played(grid, level, { from: 70, to: 97, lag: 1 }), settings);
    expect(slips).toHaveLength(1);
    expect(slips[0]).toMatchObject({ bar: 4, lag: 1 });
  });

  it('strokes on the wrong drum here and there are no slip', () => {
    const strokes = played(grid, level).map((stroke, i) =>
      i % 9 === 4 ? { ...stroke, surface: 'snare' } : stroke,
    );
    expect(align(grid, strokes, settings).slips).toEqual([]);
  });
});
