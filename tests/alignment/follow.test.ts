import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { align } from '../../src/alignment/align';
import { follow, outcomeAt, type FollowEvent, type FollowState } from '../../src/alignment/follow';
import { barAt } from '../../src/alignment/follow-answers';
import type { AlignStroke, Alignment, Extra, SlotOutcome } from '../../src/alignment/types';
import type { Grid } from '../../src/exercises/types';
import { settingsOf } from '../../src/settings';
import { ACCENT_ON_1, ACCENT_ON_2, perfect, phraseOf, sixteenths, stroke } from './made';
import { gridOf } from '../../src/exercises/grid';

const settings = settingsOf('working');
/** No slip is ever found: only the batch looks for them. */
const noSlips = { ...settings, 'slip.leastGain': Infinity };

function ran(follower: ReturnType<typeof follow>, events: readonly FollowEvent[]): FollowState {
  return events.reduce(follower.step, follower.start);
}

const struck = (strokes: readonly AlignStroke[]): FollowEvent[] =>
  strokes.map((one) => ({ kind: 'stroke', stroke: one }));

const END: FollowEvent = { kind: 'tick', atMs: Infinity };

function pairsOf(alignment: Alignment): (number | string)[] {
  return alignment.outcomes.map((outcome) =>
    outcome.status === 'matched' ? outcome.stroke : outcome.status,
  );
}

function livePairs(state: FollowState, grid: Grid): (number | string)[] {
  return grid.slots.map((_, slot) => {
    const outcome = outcomeAt(state, slot);
    if (outcome === undefined) return 'missed';
    return outcome.status === 'matched' ? outcome.stroke : outcome.status;
  });
}

/** Strokes near and far from a short grid, echo-like ones and hands among them, levels down to the threshold. */
const anyStrokes = fc
  .array(
    fc.record({
      atMs: fc.integer({ min: -300, max: 4300 }),
      levelDb: fc.integer({ min: -56, max: 0 }),
      hand: fc.constantFrom('R', 'L', null),
      echoLike: fc.boolean(),
    }),
    { maxLength: 60 },
  )
  .map((strokes) => strokes.sort((a, b) => a.atMs - b.atMs) as AlignStroke[]);

const anyGrid = fc.constantFrom(
  sixteenths([ACCENT_ON_1, ACCENT_ON_2], 2),
  gridOf({ ...phraseOf([ACCENT_ON_1, ACCENT_ON_2], 4), swing: 0.66 }, { bpm: 120 }, 0, 2),
  gridOf(phraseOf(['Rl rlr Lrlr l', 'r- L-l r--- L'], [2, 3, 4, 1]), { bpm: 120 }, 0, 2),
);

describe('live and batch', () => {
  it('are the same after every step, given the same offset and limit', () => {
    fc.assert(
      fc.property(
        anyStrokes,
        anyGrid,
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.double({ min: 0.4, max: 0.999, noNaN: true }),
        (strokes, grid, offsetMs, limitGaps) => {
          const fixed = { offsetMs, limitGaps };
          const follower = follow(grid, noSlips, {}, fixed);
          let state = follower.start;
          strokes.forEach((one, i) => {
            state = follower.step(state, { kind: 'stroke', stroke: one });
            const batch = align(grid, strokes.slice(0, i + 1), noSlips, { fixed });
            const paired = (pairs: (number | string)[]) => pairs.map((p) => (typeof p === 'number' ? p : -1));
            expect(paired(livePairs(state, grid))).toEqual(paired(pairsOf(batch)));
          });
          state = follower.step(state, END);
          const batch = align(grid, strokes, noSlips, { fixed });
          const { due } = state;
          expect(livePairs(state, grid).slice(0, due)).toEqual(pairsOf(batch).slice(0, due));
          expect(extrasSoFar(state)).toEqual(batch.extras);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('are the same where strokes were taken back, with and without ticks between', () => {
    fc.assert(
      fc.property(
        anyStrokes,
        fc.array(fc.nat(3), { maxLength: 60 }),
        fc.boolean(),
        (strokes, choices, ticks) => {
          const grid = sixteenths([ACCENT_ON_1, ACCENT_ON_2], 2);
          const fixed = { offsetMs: 7, limitGaps: 0.75 };
          const kept: number[] = [];
          const events: FollowEvent[] = [];
          strokes.forEach((one, i) => {
            events.push({ kind: 'stroke', stroke: one });
            const last = kept[kept.length - 1];
            if (choices[i] === 0 && last !== undefined) {
              events.push({ kind: 'retract', stroke: last });
              kept.pop();
            }
            if (ticks) events.push({ kind: 'tick', atMs: one.atMs });
            kept.push(i);
          });
          const state = ran(follow(grid, noSlips, {}, fixed), [...events, END]);
          const batch = align(
            grid,
            kept.map((i) => strokes[i]),
            noSlips,
            { fixed },
          );
          const { due } = state;
          const batchPairs = pairsOf(batch).map((p) => (typeof p === 'number' ? kept[p] : p));
          expect(livePairs(state, grid).slice(0, due)).toEqual(batchPairs.slice(0, due));
          expect(extrasSoFar(state)).toEqual(
            batch.extras.map(({ stroke: i, bar }) => ({ stroke: kept[i], bar })),
          );
          expect(state.strokes).toBe(kept.length);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('the changes of all steps add up to the outcomes, under a running offset too', () => {
    fc.assert(
      fc.property(anyStrokes, anyGrid, (strokes, grid) => {
        const outcomes = new Map<number, SlotOutcome>();
        const extras = new Set<number>();
        const follower = follow(grid, settings);
        let state = follower.start;
        for (const event of [...struck(strokes), END]) {
          state = follower.step(state, event);
          for (const change of state.changed) {
            if (change.kind === 'extra') extras.add(change.stroke);
            else if (change.kind === 'notExtra') extras.delete(change.stroke);
            else if (change.outcome === null) outcomes.delete(change.slot);
            else outcomes.set(change.slot, change.outcome);
          }
        }
        grid.slots.forEach((_, slot) => {
          expect(outcomes.get(slot)).toEqual(outcomeAt(state, slot));
        });
        expect([...extras].sort((a, b) => a - b)).toEqual(extrasSoFar(state).map((extra) => extra.stroke));
      }),
      { numRuns: 200 },
    );
  });
});

describe('the running offset', () => {
  it('is never beyond three quarters of a gap, whatever is played', () => {
    fc.assert(
      fc.property(anyStrokes, anyGrid, (strokes, grid) => {
        const follower = follow(grid, settings);
        let state = follower.start;
        for (const event of struck(strokes)) {
          state = follower.step(state, event);
          expect(Math.abs(state.offsetMs)).toBeLessThanOrEqual(0.75 * grid.smallestGapMs + 1e-9);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('a running take', () => {
  const grid = sixteenths([ACCENT_ON_1, ACCENT_ON_2], 8);

  it('a stroke on its slot is matched in the step it comes in', () => {
    const state = ran(follow(grid, settings), struck(perfect(grid).slice(0, 3)));
    expect(state.changed).toEqual([
      { kind: 'slot', slot: 2, outcome: { status: 'matched', stroke: 2, deviationMs: 0, wrongHand: false } },
    ]);
    expect(outcomeAt(state, 3)).toBeUndefined();
  });

  it('a slot nobody struck is a miss once no stroke can reach it: 0.75 of a gap of 125 ms after it', () => {
    const follower = follow(grid, settings);
    const played = ran(follower, struck(perfect(grid).slice(0, 3)));
    const before = follower.step(played, { kind: 'tick', atMs: 375 + 93 });
    expect(before.changed).toEqual([]);
    const after = follower.step(before, { kind: 'tick', atMs: 375 + 94 });
    expect(after.changed).toEqual([{ kind: 'slot', slot: 3, outcome: { status: 'missed' } }]);
  });

  it('the tick at infinity ends the last bar that has a stroke, and no further', () => {
    const state = ran(follow(grid, settings), [...struck(perfect(grid).slice(0, 20)), END]);
    expect(state.due).toBe(32);
    expect(outcomeAt(state, 31)).toEqual({ status: 'missed' });
    expect(outcomeAt(state, 32)).toBeUndefined();
  });

  it('a forerunner taken back gives its slot to the louder stroke', () => {
    const state = ran(follow(grid, settings), [
      { kind: 'stroke', stroke: stroke(-4, { levelDb: -40 }) },
      { kind: 'stroke', stroke: stroke(2, { levelDb: -4 }) },
      { kind: 'retract', stroke: 0 },
    ]);
    expect(outcomeAt(state, 0)).toMatchObject({ status: 'matched', stroke: 1 });
    expect(extrasSoFar(state)).toEqual([]);
    expect(state.strokes).toBe(1);
  });

  it('an echo-like stroke fills its slot at once, and leaves it to a real one', () => {
    const follower = follow(grid, settings, { offsetMs: 0 });
    const filled = ran(follower, [
      { kind: 'stroke', stroke: stroke(0, { levelDb: -4 }) },
      { kind: 'stroke', stroke: stroke(85, { levelDb: -26, echoLike: true }) },
    ]);
    expect(outcomeAt(filled, 1)).toMatchObject({ status: 'matched', stroke: 1 });
    const real = follower.step(filled, { kind: 'stroke', stroke: stroke(130) });
    expect(outcomeAt(real, 1)).toMatchObject({ status: 'matched', stroke: 2 });
  });

  it('the running offset is that of the strokes, from the first on', () => {
    const late = perfect(grid).map((one) => ({ ...one, atMs: one.atMs + 20 }));
    expect(ran(follow(grid, settings), struck(late.slice(0, 1))).offsetMs).toBeCloseTo(20, 9);
    expect(ran(follow(grid, settings), struck(late)).offsetMs).toBeCloseTo(20, 9);
  });

  it('a known offset counts as eight strokes: after eight at +20 ms it is half-way', () => {
    const late = perfect(grid).map((one) => ({ ...one, atMs: one.atMs + 20 }));
    const state = ran(follow(grid, settings, { offsetMs: 0 }), struck(late.slice(0, 8)));
    expect(state.offsetMs).toBeCloseTo(10, 9);
  });

  it('a take 0.6 of a gap late is first read as 0.4 early, and put right when bar 1 is over', () => {
    const late = perfect(grid).map((one) => ({ ...one, atMs: one.atMs + 75 }));
    const follower = follow(grid, settings);
    expect(ran(follower, struck(late.slice(0, 10))).offsetMs).toBeCloseTo(-50, 9);
    const state = ran(follow(grid, settings), [...struck(late), END]);
    expect(state.offsetMs).toBeCloseTo(75, 9);
    expect(livePairs(state, grid)).toEqual(late.map((_, i) => i));
  });
});

describe('once it is found how the strokes lie against the click', () => {
  const grid = sixteenths([ACCENT_ON_1, ACCENT_ON_2], 8);
  const shifted = (ms: (atMs: number, slot: number) => number): AlignStroke[] =>
    perfect(grid).map((one, slot) => ({ ...one, atMs: one.atMs + ms(one.atMs, slot) }));

  it('a take begun a beat late is on the grid, stroke by stroke, and bar 1 is put right', () => {
    const late = shifted(() => 500).slice(0, 96);
    const follower = follow(grid, settings);
    let state = ran(follower, struck(late.slice(0, 13)));
    expect(state.reading.lateMs).toBe(0);
    state = ran({ ...follower, start: state }, [...struck(late.slice(13)), END]);
    expect(state.reading).toMatchObject({ places: 4, lateMs: 500 });
    expect(livePairs(state, grid).slice(0, 96)).toEqual(late.map((_, i) => i));
    expect(extrasSoFar(state)).toEqual([]);
    expect(state.due).toBe(96);
  });

  it('slots that nobody can have struck yet are open again', () => {
    const late = shifted(() => 2000);
    const follower = follow(grid, settings);
    let state = follower.start;
    let told = 0;
    for (const event of struck(late.slice(0, 40))) {
      state = follower.step(state, event);
      if (state.reading.lateMs === 0 || told > 0) continue;
      told = state.strokes;
      // In its own bar the player is at stroke `told`: nothing behind that is missed.
      expect(livePairs(state, grid).slice(0, told)).toEqual(late.slice(0, told).map((_, i) => i));
      expect(outcomeAt(state, told)).toBeUndefined();
      expect(state.changed).toContainEqual({ kind: 'slot', slot: told, outcome: null });
    }
    expect(told).toBeGreaterThan(0);
  });

  it('a tempo 1 % slower is no lateness: all lie as the first', () => {
    const state = ran(follow(grid, settings), [...struck(shifted((atMs) => 0.01 * atMs)), END]);
    expect(livePairs(state, grid)).toEqual(grid.slots.map((_, slot) => slot));
    const late = grid.slots.map((_, slot) => {
      const outcome = outcomeAt(state, slot);
      return outcome?.status === 'matched' ? outcome.deviationMs - state.offsetMs : NaN;
    });
    for (const ms of late) expect(Math.abs(ms)).toBeLessThan(1);
  });

  it('a swing of 40 ms is neither early nor late', () => {
    const state = ran(follow(grid, settings), [...struck(shifted((_, slot) => (slot % 2) * 40)), END]);
    expect(state.reading.swingMs).toBeCloseTo(40, 6);
    for (const [slot] of grid.slots.entries()) {
      const outcome = outcomeAt(state, slot);
      expect(outcome).toMatchObject({ status: 'matched', stroke: slot });
      if (outcome?.status === 'matched') expect(outcome.deviationMs - state.offsetMs).toBeCloseTo(0, 6);
    }
  });

  it('but in the player’s own time nothing is moved', () => {
    const own = follow(grid, settings, { isOwnTime: true });
    const state = ran(own, [...struck(shifted(() => 500)), END]);
    expect(state.reading.lateMs).toBe(0);
  });
});

describe('on an irregular grid', () => {
  it('live finds the offset of a swung take as the batch does, to a tenth of a millisecond', () => {
    const grid = gridOf({ ...phraseOf([ACCENT_ON_1], 4), swing: 0.66 }, { bpm: 90 }, 0, 4);
    const late = perfect(grid).map((one) => ({ ...one, atMs: one.atMs - 13 }));
    expect(align(grid, late, settings).offsetMs).toBeCloseTo(-13, 9);
    expect(Math.abs(ran(follow(grid, settings), struck(late)).offsetMs + 13)).toBeLessThan(0.1);
  });
});

describe('pairs are decided anew', () => {
  const grid = sixteenths([ACCENT_ON_1, ACCENT_ON_2], 12);

  it('when bar 1 is over, and then with every quarter more strokes', () => {
    // Each stroke lies farther out than the one before, so that a limit made anew is another: it tells when that was.
    const spreading = perfect(grid).map((one, i) => ({
      ...one,
      atMs: one.atMs + (i % 2 === 0 ? 1 : -1) * (4 + 0.15 * i),
    }));
    const follower = follow(grid, settingsOf('working', { 'pairing.limitLeast': 0.01 }));
    const reviews: number[] = [];
    let state = follower.start;
    for (const event of struck(spreading)) {
      const before = state.limitGaps;
      state = follower.step(state, event);
      if (state.limitGaps !== before) reviews.push(state.strokes);
    }
    // Bar 1 has 16 slots, and is over a gap after its end: with the second or third stroke of bar 2.
    expect(reviews[0]).toBeGreaterThanOrEqual(17);
    expect(reviews[0]).toBeLessThanOrEqual(19);
    expect(reviews.length).toBeGreaterThanOrEqual(8);
    reviews.slice(1).forEach((count, i) => expect(count).toBe(Math.ceil(1.25 * reviews[i])));
  });

  it('so that a player who drifts a whole gap away is followed no worse than the batch', () => {
    // 0.55 ms a stroke over 192 strokes: 106 ms of a gap of 125.
    const drifting = perfect(grid).map((one, i) => ({ ...one, atMs: one.atMs + 0.55 * i }));
    const state = ran(follow(grid, settings), [...struck(drifting), END]);
    const batch = align(grid, drifting, noSlips);
    const same = livePairs(state, grid).filter((pair, slot) => pair === pairsOf(batch)[slot]);
    expect(same.length / grid.slots.length).toBeGreaterThanOrEqual(0.99);
  });
});

/** All extras so far, in time order. */
function extrasSoFar({ memory, offsetMs }: FollowState): Extra[] {
  const { strokes } = memory;
  return Array.from({ length: strokes.count }, (_, row) => row)
    .filter((row) => strokes.slotOf[row] < 0)
    .map((row) => ({ stroke: strokes.index[row], bar: barAt(memory, strokes.at[row] - offsetMs) }));
}
