import { Subject } from 'rxjs';
import { describe, expect, it } from 'vitest';
import { readTake, writeTake } from '../../src/sessions/take';
import type { TakeEvent } from '../../src/sessions/take-events';
import type { Take } from '../../src/sessions/types';
import type { RawHit } from '../../src/stroke';
import { gradeTake } from '../../src/take/grade-take';
import type { RunningTakes, TakeOpening } from '../../src/take/recorder';
import { runTake, type Run, type TakePlan } from '../../src/take/run-take';
import type { LiveState } from '../../src/take/types';
import { modelRig } from '../../src/model/model-rig';

// Arithmetic: at 120 bpm a sixteenth lasts 125 ms, a beat 500 ms, a bar of four 2000 ms. The count-in is a bar of four beats;
// Start is pressed 400 ms before its first count.
const NOW_MS = 10_000;
const DOWNBEAT_MS = NOW_MS + 400 + 2000;
const GAP_MS = 125;

const plan: TakePlan = {
  format: 'evenhand-take',
  version: 1,
  id: 't1',
  player: 'Sample player A',
  recordedAt: '2026-03-02T17:05:11.000Z',
  source: 'played',
  phrase: {
    title: 'Two bars',
    beatsPerBar: 4,
    partialsPerBeat: 4,
    cycles: 4,
    bars: [
      { variation: 'accent on 1', sticking: 'Rlrr Lrll Rlrr Lrll' },
      { variation: 'accent on 2', sticking: 'rLrr lRll rLrr lRll' },
    ],
  },
  tempo: { bpm: 120 },
  click: 'on',
  limits: 'working',
  settings: {},
  rig: modelRig(1),
  notes: '',
};
const free: TakePlan = { ...plan, click: 'none' };

class Kept implements RunningTakes {
  opening: TakeOpening | null = null;
  readonly hits: RawHit[] = [];
  finished: Take | null = null;
  discarded = false;
  begin(opening: TakeOpening): Promise<void> {
    this.opening = opening;
    return Promise.resolve();
  }
  append(_id: string, _chunk: number, hits: readonly RawHit[]): Promise<boolean> {
    this.hits.push(...hits);
    return Promise.resolve(true);
  }
  finish(take: Take): Promise<void> {
    this.finished = take;
    return Promise.resolve();
  }
  discard(): Promise<void> {
    this.discarded = true;
    return Promise.resolve();
  }
}

interface Played {
  readonly run: Run;
  readonly store: Kept;
  readonly strike: (atMs: number, velocity?: number) => void;
  readonly tick: (atMs: number) => void;
  readonly shown: () => LiveState;
  /** When the input was told that the first bar begins. */
  readonly toldMs: number;
}

function begun(of: TakePlan, more: Partial<Parameters<typeof runTake>[1]> = {}): Played {
  const pad$ = new Subject<RawHit>();
  const ticks$ = new Subject<number>();
  const store = new Kept();
  let toldMs = NaN;
  const run = runTake(of, {
    nowMs: () => NOW_MS,
    hitsFor: (downbeatMs) => {
      toldMs = downbeatMs;
      return pad$;
    },
    ticks$,
    store,
    onTrouble: (error) => {
      throw error;
    },
    onFailing: (failing) => expect(failing).toBeNull(),
    ...more,
  });
  let last: LiveState | undefined;
  run.live$.subscribe((state) => (last = state));
  return {
    run,
    store,
    toldMs,
    strike: (atMs, velocity = 90) => pad$.next({ atMs, port: 'Model pad', channel: 10, note: 38, velocity }),
    tick: (atMs) => ticks$.next(atMs),
    shown: () => last!,
  };
}

/** Every slot from the first on, each a little late or early, accents loud. */
function playSlots({ run, strike }: Played, count: number, fromMs = DOWNBEAT_MS, lateMs = 0): void {
  for (const { index, kind } of run.grid.slots.slice(0, count))
    strike(fromMs + index * GAP_MS + lateMs, kind === 'accent' ? 110 : 45);
}

describe('a take begins', () => {
  it('with the downbeat a count-in of four beats and 400 ms after Start', () => {
    const { run, toldMs } = begun(plan);
    expect(run.downbeatMs).toBe(DOWNBEAT_MS);
    expect(toldMs).toBe(DOWNBEAT_MS);
    expect(run.count).toMatchObject({ bars: 1, beats: 4, sayBeats: 0, beatMs: 500, lengthMs: 2000 });
    expect(run.grid.slots[0].atMs).toBe(DOWNBEAT_MS);
    expect(run.takeId).toBe('t1');
  });

  it('with one bar of count-in at any tempo, and with what the lead asks for', () => {
    expect(begun({ ...plan, tempo: { bpm: 60 } }).run.downbeatMs).toBe(NOW_MS + 400 + 4000);
    const { run } = begun(plan, { lead: { countInBars: 2, sayFirst: true } });
    expect(run.downbeatMs).toBe(NOW_MS + 400 + 3 * 2000);
    expect(run.count.sayBeats).toBe(4);
  });

  it('and shows its beginning at once', () => {
    expect(begun(plan).shown()).toMatchObject({ strokes: 0, contrastDb: null, extras: [] });
  });

  it('and is over by itself a beat after its last bar', () => {
    expect(begun(plan).run.endMs).toBe(DOWNBEAT_MS + 4 * 2 * 2000 + 500);
  });
});

describe('what is of a take', () => {
  it('a first stroke up to a gap of 125 ms early is recorded, paired and graded; one before that is count-in', async () => {
    const played = begun(plan);
    played.strike(DOWNBEAT_MS - 500);
    played.strike(DOWNBEAT_MS - GAP_MS - 1);
    expect(played.shown().strokes).toBe(0);
    // The player is 40 ms ahead of the click from the first stroke on.
    playSlots(played, 128, DOWNBEAT_MS, -40);
    played.tick(Infinity);
    const { take } = await played.run.finish();
    expect(take.hits).toHaveLength(128);
    expect(take.hits[0].atMs).toBe(DOWNBEAT_MS - 40);
    expect(played.shown().passes[0][0]).toMatchObject({ cycle: 0, status: 'matched' });
    const report = gradeTake(take);
    expect(report.slots[0].status).toBe('matched');
    expect(report.counts).toMatchObject({ slots: 128, matched: 128, missed: 0, extra: 0 });
    expect(report.offsetMs).toBeCloseTo(-40, 6);
  });

  it('the edge: a stroke just a gap ahead of the downbeat is kept', async () => {
    const played = begun(plan);
    played.strike(DOWNBEAT_MS - GAP_MS);
    playSlots(played, 16);
    expect((await played.run.finish()).take.hits).toHaveLength(17);
  });

  it('what happened beside the strokes, in time order', async () => {
    const { run, ...played } = begun(plan);
    const gone: TakeEvent = { kind: 'port gone', atMs: DOWNBEAT_MS + 900, port: 'Pad' };
    const hidden: TakeEvent = { kind: 'page hidden', atMs: DOWNBEAT_MS + 300 };
    run.note(gone);
    run.note(hidden);
    playSlots({ run, ...played }, 16);
    expect((await run.finish()).take.events).toEqual([hidden, gone]);
  });
});

describe('a take ends', () => {
  it('by the tick at infinity: what is due in the last bar with a stroke is missed, and no more', () => {
    const played = begun(plan);
    playSlots(played, 20);
    played.tick(DOWNBEAT_MS + 20 * GAP_MS);
    expect(played.shown().passes[31]).toEqual([]);
    played.tick(Infinity);
    expect(played.shown().passes[31]).toMatchObject([{ status: 'missed' }]);
    expect(played.shown().passes.flat()).toHaveLength(32);
  });

  it('by Stop, before its end: kept whole, with the cycles that were due', async () => {
    const played = begun(plan);
    playSlots(played, 40);
    const { take } = await played.run.finish();
    expect(played.store.finished).toEqual(take);
    expect(take.phrase.cycles).toBe(4);
    expect(take.downbeatMs).toBe(DOWNBEAT_MS);
    expect(readTake(writeTake(take))).toEqual(take);
  });

  it('hears nothing after its end', async () => {
    const played = begun(plan);
    playSlots(played, 16);
    await played.run.finish();
    played.strike(DOWNBEAT_MS + 16 * GAP_MS);
    expect(played.store.finished?.hits).toHaveLength(16);
  });

  it.each([
    [0, 1],
    [1, 1],
    [2, 1],
    [3, 2],
    [5, 3],
    [8, 4],
    [99, 4],
  ])('without an end of its own, %d bars begun: it is of %d cycles', async (bars, cycles) => {
    const played = begun(plan);
    playSlots(played, 16);
    expect((await played.run.finish(bars)).take.phrase.cycles).toBe(cycles);
  });

  it('of one stroke: nothing is kept', async () => {
    const played = begun(plan);
    playSlots(played, 1);
    expect((await played.run.finish()).take.hits).toHaveLength(1);
    expect(played.store.discarded).toBe(true);
    expect(played.store.finished).toBeNull();
  });
});

describe('a take without a click', () => {
  // Its grid is on a clock of its own, from 0 ms; hits count from 150 ms after the start on.
  const FIRST_MS = NOW_MS + 700;

  it('has no count-in and no downbeat but the first stroke', () => {
    const { run, toldMs } = begun(free);
    expect(run.downbeatMs).toBeNull();
    expect(run.count).toMatchObject({ bars: 0, beats: 0, lengthMs: 0, beatMs: 500 });
    expect(run.grid.slots[0].atMs).toBe(0);
    expect(run.endMs).toBe(16_000 + 500);
    expect(toldMs).toBe(NOW_MS + 150 + 400);
  });

  it('the strike that started it, up to 150 ms after, is no part of it', async () => {
    const played = begun(free);
    played.strike(NOW_MS + 20);
    played.strike(NOW_MS + 149);
    played.strike(NOW_MS + 150);
    playSlots(played, 31, FIRST_MS);
    const { take } = await played.run.finish();
    expect(take.hits[0].atMs).toBe(NOW_MS + 150);
    expect(take.hits).toHaveLength(32);
  });

  it('says as its tempo what was played: 100 bpm where 120 stood on the desk', async () => {
    const played = begun(free);
    for (const { index, kind } of played.run.grid.slots.slice(0, 64))
      played.strike(FIRST_MS + index * 150, kind === 'accent' ? 110 : 45);
    const { take } = await played.run.finish();
    expect(take.downbeatMs).toBeNull();
    expect('bpm' in take.tempo && take.tempo.bpm).toBeCloseTo(100, 6);
  });

  it('the grid’s time goes at the player’s tempo: 150 ms a slot are 125 of the grid', () => {
    const played = begun(free);
    for (const { index } of played.run.grid.slots.slice(0, 32)) played.strike(FIRST_MS + index * 150);
    const here = played.run.gridTime(FIRST_MS + 40 * 150, played.shown());
    expect(here).toBeCloseTo(40 * 125, 3);
    expect(played.run.gridTime(FIRST_MS, null)).toBe(-Infinity);
  });

  it('there the picture is at the grid’s time; behind a click it is behind by what was begun late', () => {
    const own = begun(free).run;
    expect(own.playedTime(FIRST_MS, null)).toBe(-Infinity);
    const shown = { ...begun(plan).shown(), lateMs: 500 };
    const { run } = begun(plan);
    expect([run.playedTime(9000, null), run.playedTime(9000, shown)]).toEqual([9000, 8500]);
  });

  it('of too few strokes to tell a tempo keeps the desk’s', async () => {
    const played = begun(free);
    playSlots(played, 3, FIRST_MS);
    expect((await played.run.finish()).take.tempo).toEqual({ bpm: 120 });
  });

  it('is refused where a bar is to listen to', () => {
    const [first, second] = plan.phrase.bars;
    const called = { ...free.phrase, bars: [{ ...first, role: 'listen' as const }, second] };
    expect(() => begun({ ...free, phrase: called })).toThrow(/^Click can't be left out: the phrase /);
  });
});
