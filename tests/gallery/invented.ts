import { phraseNamed } from '../../src/exercises/phrase';
import { gridOf } from '../../src/exercises/grid';
import type { LivePass, LiveState } from '../../src/take/types';

/** One cycle of a bundled phrase. */
export function cycleOf(name: string, bpm = 84) {
  const phrase = phraseNamed(name);
  return { phrase, grid: gridOf(phrase, { bpm }, 0, phrase.bars.length) };
}

/** A seeded generator: the pictures are the same every time. */
export function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1664525 + 1013904223) % 4294967296;
    return state / 4294967296;
  };
}

/** Live passes of an invented player whose left tap before its accent leaks, up to a slot of a cycle. */
export function inventedLive(name: string, cycle: number, playedInCycle: number): LiveState {
  const { grid } = cycleOf(name);
  const next = random(7);
  const bell = () => next() + next() + next() + next() - 2;
  const passes = grid.slots.map((slot, index): LivePass[] => {
    const through = index < playedInCycle ? cycle : cycle - 1;
    return Array.from({ length: Math.min(8, through + 1) }, (_, back) => through - back)
      .reverse()
      .map((of) => {
        const leak = slot.type === 'up' && slot.hand === 'L' ? 5 : 0;
        const rest = slot.kind === 'accent' ? -5 : -21;
        const missed = index === 55 && of === cycle;
        return {
          cycle: of,
          status: missed ? 'missed' : 'matched',
          levelDb: missed ? null : rest + leak + bell() * 3,
          deviationMs: missed ? null : bell() * 14 + (slot.hand === 'L' ? -4 : 2),
          wrongHand: false,
        };
      });
  });
  return {
    strokes: 300,
    offsetMs: -6,
    lateMs: 0,
    told: 'all',
    passes,
    extras: [{ cycle, barInCycle: 3, at: 0.41, levelDb: -18 }],
    contrastDb: 14.2,
    unmapped: 0,
  };
}
