import { from, map, merge } from 'rxjs';
import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { gridOf } from '../../src/exercises/grid';
import { gradeTake } from '../../src/take/grade-take';
import { gridMs, steadyBeatMs } from '../../src/take/free-run';
import { followed } from '../../src/take/live/live';
import { modelTake, type ModelPlayer } from '../../src/model/model-player';
import { positionAt } from '../../src/take/position';
import { runTake, type Run } from '../../src/take/run-take';
import type { LiveEvent, LiveState } from '../../src/take/types';
import { memoryStore } from '../../src/sessions/memory-store';
import type { Take } from '../../src/sessions/types';
import { settingsOf } from '../../src/settings';
import { timeWords } from '../../src/components/shared/position-words';

// A take without a click as the page follows it; the model player's tempo is the outside value.

const walk = phraseNamed('Single paradiddle, accent walk');
const TICK_MS = 50;

function free(player: Omit<ModelPlayer, 'seed'>, seed: number): Take {
  const { take } = modelTake({ ...player, seed });
  return { ...take, click: 'none', downbeatMs: null, tempo: { bpm: 84 } };
}

/** Hits and, between them, a tick every 50 ms; the state after each. */
function shownOver(take: Take): { readonly atMs: number; readonly shown: LiveState }[] {
  const { phrase, hits, rig } = take;
  const ticks: { atMs: number; event: LiveEvent }[] = [];
  for (let atMs = hits[0].atMs - 1000; atMs < hits[hits.length - 1].atMs + 500; atMs += TICK_MS)
    ticks.push({ atMs, event: { kind: 'tick', atMs } });
  const all = [
    ...hits.map((hit) => ({ atMs: hit.atMs, event: { kind: 'hit', hit } as LiveEvent })),
    ...ticks,
  ];
  all.sort((a, b) => a.atMs - b.atMs);
  const shown: { atMs: number; shown: LiveState }[] = [];
  const grid = gridOf(phrase, { bpm: 84 }, 0);
  let atMs = -Infinity;
  merge(from(all))
    .pipe(
      map((one) => {
        ({ atMs } = one);
        return one.event;
      }),
      followed({ grid, rig, settings: settingsOf('working'), free: 'steady' }),
    )
    .subscribe((state) => shown.push({ atMs, shown: state }));
  return shown;
}

describe('a running take in free time', () => {
  it.each([60, 84, 120])(
    'at %d bpm, with 84 on the desk, shows the slots the report has, and the tempo',
    (bpm) => {
      for (const seed of [1, 2, 3, 4, 5]) {
        const take = free({ phrase: walk, bpm, cycles: 2 }, seed);
        const shown = shownOver(take);
        const last = shown[shown.length - 1].shown;
        expect(Math.abs((last.freeTime?.bpm ?? 0) / bpm - 1)).toBeLessThan(0.02);
        expect(Math.abs(last.freeTime?.fasterPercent ?? 99)).toBeLessThan(4);
        const report = gradeTake(take);
        const passes = last.passes.flatMap((of, slot) => of.map((pass) => ({ slot, pass })));
        const right = passes.filter(({ slot, pass }) => {
          const due = report.slots[slot + pass.cycle * last.passes.length];
          return (
            pass.status === due.status &&
            (pass.levelDb === null || Math.abs(pass.levelDb - (due.level ?? 0)) < 1e-9)
          );
        });
        expect(passes.length).toBeGreaterThan(0.95 * report.slots.length);
        expect(right.length / passes.length).toBeGreaterThan(0.98);
      }
    },
  );

  it('shows ghost notes at a fast tempo, which look like a pad’s echoes, and not a pad’s echoes', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const fast = shownOver(free({ phrase: walk, bpm: 168, tapDb: -26, cycles: 2 }, seed));
      expect(Math.abs((fast[fast.length - 1].shown.freeTime?.bpm ?? 0) / 168 - 1)).toBeLessThan(0.02);
      const faults = [{ kind: 'echo', share: 0.4, ratio: 0.2 } as const];
      const slow = shownOver(free({ phrase: walk, bpm: 84, cycles: 2, faults }, seed));
      expect(Math.abs((slow[slow.length - 1].shown.freeTime?.bpm ?? 0) / 84 - 1)).toBeLessThan(0.02);
    }
  });

  it('is as at first in a steady take whose taps come just as an echo would: sixteenths at 150 bpm, 100 ms apart', () => {
    const { take } = modelTake({ phrase: walk, bpm: 150, seed: 1, cycles: 2 });
    const hits = take.hits.map((hit, index) => ({
      ...hit,
      atMs: 5000 + index * 100,
      velocity: index % 4 === Math.floor(index / 16) % 4 ? 110 : 38,
    }));
    const shown = shownOver({ ...take, hits, click: 'none', downbeatMs: null, tempo: { bpm: 84 } });
    const { freeTime } = shown[shown.length - 1].shown;
    expect(Math.abs((freeTime?.bpm ?? 0) - 150)).toBeLessThan(0.1);
    expect(Math.abs(freeTime?.fasterPercent ?? 99)).toBeLessThan(0.1);
  });

  it('tells that the tempo rose: from 80 to 100 bpm it is a quarter faster at the end', () => {
    const ramp = [
      { bar: 0, bpm: 80 },
      { bar: 32, bpm: 100 },
    ];
    const shown = shownOver(free({ phrase: walk, bpm: 80, ramp, cycles: 8 }, 3));
    const { freeTime } = shown[shown.length - 1].shown;
    expect(Math.abs((freeTime?.bpm ?? 0) - 100)).toBeLessThan(2.5);
    expect(Math.abs((freeTime?.fasterPercent ?? 0) - 24)).toBeLessThan(4);
  });

  it('shows nothing missed before the first stroke, however long that takes', () => {
    const take = free({ phrase: walk, bpm: 84, cycles: 1 }, 1);
    const [first] = shownOver({ ...take, hits: [take.hits[0]] });
    expect(first.shown.passes.flat()).toEqual([]);
    expect(first.shown.freeTime).toEqual({ line: null, bpm: null, fasterPercent: null });
    const grid = gridOf(walk, { bpm: 84 }, 0);
    expect(positionAt(grid, gridMs({ line: null }, steadyBeatMs(grid), 99_999))).toEqual({
      phase: 'first stroke',
    });
  });

  it('stands in the bar the player is in', () => {
    const take = free({ phrase: walk, bpm: 120, cycles: 1 }, 2);
    const shown = shownOver(take);
    const grid = gridOf(walk, { bpm: 84 }, 0);
    // The model’s downbeat is at 4000 ms; at 120 bpm a bar lasts two seconds.
    const inThirdBar = shown.find(({ atMs }) => atMs >= 4000 + 5000);
    expect(
      positionAt(grid, gridMs(inThirdBar?.shown.freeTime ?? { line: null }, steadyBeatMs(grid), 9100)),
    ).toEqual({
      phase: 'playing',
      bar: 2,
      barInCycle: 2,
      cycle: 0,
      beat: 2,
    });
  });
});

describe('a take without a click, run and kept', () => {
  function begun(take: Take): Run {
    const { hits, downbeatMs, ...plan } = take;
    expect(downbeatMs).toBeNull();
    return runTake(plan, {
      nowMs: () => 0,
      hitsFor: () => from(hits),
      ticks$: from([Infinity]),
      store: memoryStore(),
      onTrouble: (error) => expect(error).toBeUndefined(),
      onFailing: (failing) => expect(failing).toBeNull(),
    });
  }

  it('says as its tempo what was played, and keeps every hit raw', async () => {
    const take = free({ phrase: walk, bpm: 97 }, 4);
    const { take: kept } = await begun(take).finish();
    expect(kept.hits).toEqual(take.hits);
    expect(kept.downbeatMs).toBeNull();
    expect('bpm' in kept.tempo && Math.abs(kept.tempo.bpm - 97)).toBeLessThan(0.5);
    expect(gradeTake(kept).sentence).toBe(gradeTake(take).sentence);
  });

  it('does not take the strike that started it, nor shows it', async () => {
    const take = free({ phrase: walk, bpm: 97, cycles: 1 }, 4);
    const start = { ...take.hits[0], atMs: 90, velocity: 120 };
    const run = begun({ ...take, hits: [start, ...take.hits] });
    const shown: LiveState[] = [];
    run.live$.subscribe((state) => shown.push(state));
    expect(shown[shown.length - 1].strokes).toBe(take.hits.length);
    expect((await run.finish()).take.hits).toEqual(take.hits);
  });

  it('has no end by itself before the first stroke', () => {
    const run = begun(free({ phrase: walk, bpm: 97 }, 4));
    expect(run.gridTime(1e9, null)).toBe(-Infinity);
    expect(run.gridTime(1e9, null) > run.endMs).toBe(false);
  });

  it('refuses a phrase with bars to listen to, and says why', () => {
    const take = free({ phrase: walk, bpm: 97 }, 4);
    const bars = walk.bars.map((bar, index) => (index === 0 ? { ...bar, role: 'listen' as const } : bar));
    expect(() => begun({ ...take, phrase: { ...walk, bars } })).toThrow(
      "Click can't be left out: the phrase has bars to listen to: they need a click to come in time",
    );
  });
});

it('the tempo in words', () => {
  const line = { atBeat: 0, atMs: 0, beatMs: 650 };
  expect(timeWords(null)).toBe('Your own tempo shows here.');
  expect(timeWords({ line, bpm: 91.8, fasterPercent: null })).toBe('92 bpm');
  expect(timeWords({ line, bpm: 91.8, fasterPercent: 0.4 })).toBe('92 bpm, as at first');
  expect(timeWords({ line, bpm: 91.8, fasterPercent: 2.13 })).toBe('92 bpm, 2.1 % faster than at first');
  expect(timeWords({ line, bpm: 91.8, fasterPercent: -3 })).toBe('92 bpm, 3.0 % slower than at first');
});
