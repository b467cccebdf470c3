import type { AlignStroke } from '../../src/alignment/types';
import { gridOf } from '../../src/exercises/grid';
import type { Grid, Phrase } from '../../src/exercises/types';

/** Sixteenths at 120 bpm, a bar a variation: a slot every 125 ms from 0. */
export function sixteenths(stickings: readonly string[], bars: number, bpm = 120): Grid {
  return gridOf(phraseOf(stickings, 4), { bpm }, 0, bars);
}

export function phraseOf(stickings: readonly string[], partialsPerBeat: number | number[]): Phrase {
  return {
    title: 'made for a test',
    beatsPerBar: 4,
    partialsPerBeat,
    cycles: 1,
    bars: stickings.map((sticking) => ({ variation: sticking, sticking })),
  };
}

export const ACCENT_ON_1 = 'Rlrr Lrll Rlrr Lrll';
export const ACCENT_ON_2 = 'rLrr lRll rLrr lRll';
export const ACCENTS_OFF = 'rlrr lrll rlrr lrll';

/** A stroke as loud as an accent (−4 dB) or a tap (−20 dB), of a hand nobody knows. */
export function stroke(atMs: number, change: Partial<AlignStroke> = {}): AlignStroke {
  return { atMs, levelDb: -20, hand: null, echoLike: false, ...change };
}

/** Every slot struck on time, accents at −4 dB and soft strokes at −20 dB. */
export function perfect(grid: Grid, change: Partial<AlignStroke> = {}): AlignStroke[] {
  return grid.slots.map((slot) =>
    stroke(slot.atMs, { levelDb: slot.kind === 'accent' ? -4 : -20, ...change }),
  );
}

/** A grid of slots at any times, all soft and right: for what looks at time alone. */
export function gridAt(times: readonly number[]): Grid {
  const gaps = times.map((at, i) =>
    Math.min(i > 0 ? at - times[i - 1] : Infinity, i + 1 < times.length ? times[i + 1] - at : Infinity),
  );
  const base = sixteenths([ACCENTS_OFF], 1).slots[0];
  return {
    slots: times.map((atMs, index) => ({ ...base, index, slot: index, atMs, gapMs: gaps[index] })),
    bars: [
      {
        index: 0,
        barInCycle: 0,
        cycle: 0,
        variation: 'any times',
        startMs: times[0],
        endMs: times[times.length - 1] + 100,
        beats: 4,
        beatsMs: [times[0]],
        firstSlot: 0,
        slots: times.length,
        partialsPerBeat: [4, 4, 4, 4],
        role: 'play',
      },
    ],
    barsPerCycle: 1,
    slotsPerCycle: times.length,
    feet: [],
    swing: 0.5,
    smallestGapMs: Math.min(...gaps),
    regular: false,
  };
}
