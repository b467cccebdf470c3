import { Subject, VirtualTimeScheduler } from 'rxjs';
import { describe, expect, it } from 'vitest';
import { record, type RunningTakes, type TakeOpening } from '../../src/take/recorder';
import type { Take } from '../../src/sessions/types';
import type { RawHit } from '../../src/stroke';

const opening: TakeOpening = {
  format: 'evenhand-take',
  version: 1,
  id: 'a',
  player: 'Sample player A',
  recordedAt: '2026-03-02T17:05:11.000Z',
  source: 'played',
  phrase: {
    title: '',
    beatsPerBar: 4,
    partialsPerBeat: 1,
    cycles: 1,
    bars: [{ variation: '', sticking: 'rlrl' }],
  },
  tempo: { bpm: 120 },
  click: 'on',
  limits: 'working',
  settings: {},
  rig: { levelLaw: 'gm2', inputDelayMs: 0, outputDelayMs: 0, surfaces: [] },
  downbeatMs: 0,
  notes: '',
};
const hit = (atMs: number, port = 'Pad'): RawHit => ({ atMs, port, channel: 10, note: 38, velocity: 90 });

class Memory implements RunningTakes {
  readonly chunks = new Map<number, readonly RawHit[]>();
  begun = 0;
  finished: Take | null = null;
  discarded = false;
  full = false;
  isBegun = false;
  begin(): Promise<void> {
    this.begun += 1;
    this.isBegun = !this.full;
    return this.answer();
  }
  async append(_id: string, chunk: number, hits: readonly RawHit[]): Promise<boolean> {
    await this.answer();
    if (this.isBegun) this.chunks.set(chunk, hits);
    return this.isBegun;
  }
  /** All that was kept is deleted, as site data are. */
  deleteAll(): void {
    this.chunks.clear();
    this.isBegun = false;
  }
  finish(take: Take): Promise<void> {
    if (!this.full) this.finished = take;
    return this.answer();
  }
  discard(): Promise<void> {
    this.discarded = true;
    return this.answer();
  }
  keptTimes(): number[] {
    return [...this.chunks.values()].flat().map((one) => one.atMs);
  }
  private answer(): Promise<void> {
    return this.full ? Promise.reject(new Error('full')) : Promise.resolve();
  }
}

function recording(fromMs = -Infinity) {
  const scheduler = new VirtualTimeScheduler();
  const hits$ = new Subject<RawHit>();
  const store = new Memory();
  const keeping: (string | null)[] = [];
  const running = record(opening, hits$, store, {
    fromMs,
    scheduler,
    onFailing: (failing) => keeping.push(failing?.message ?? null),
  });
  const settled = (): Promise<void> => new Promise((done) => setTimeout(done, 0));
  const until = async (ms: number): Promise<void> => {
    scheduler.maxFrames = ms;
    scheduler.flush();
    scheduler.frame = ms;
    await settled();
  };
  return { scheduler, hits$, store, keeping, running, until };
}

describe('a take that is played', () => {
  it('begins in the store at once, before any hit', async () => {
    const { store, until } = recording();
    await until(0);
    expect(store.begun).toBe(1);
  });

  it('is never more than half a second behind in the store', async () => {
    const { hits$, store, until } = recording();
    await until(0);
    hits$.next(hit(10));
    await until(300);
    hits$.next(hit(310));
    expect(store.keptTimes()).toEqual([]);
    await until(500);
    expect(store.keptTimes()).toEqual([10, 310]);
    hits$.next(hit(510));
    await until(1000);
    expect(store.keptTimes()).toEqual([10, 310, 510]);
    expect(store.begun).toBe(1);
  });

  it('has every raw hit, in time order, equals as they came', async () => {
    const { hits$, running, store } = recording();
    for (const one of [hit(5), hit(9), hit(7, 'B'), hit(9, 'C'), hit(1)]) hits$.next(one);
    const { take } = await running.finish();
    expect(take.hits.map((one) => `${one.atMs} ${one.port}`)).toEqual([
      '1 Pad',
      '5 Pad',
      '7 B',
      '9 Pad',
      '9 C',
    ]);
    expect(store.finished).toEqual(take);
  });

  it('leaves out what was played along with the count-in', async () => {
    const { hits$, running } = recording(1000);
    for (const at of [900, 999, 1000, 1100]) hits$.next(hit(at));
    expect((await running.finish()).take.hits.map((one) => one.atMs)).toEqual([1000, 1100]);
  });

  it('takes no more hits after its end', async () => {
    const { hits$, running } = recording();
    hits$.next(hit(1));
    hits$.next(hit(2));
    const { take } = await running.finish();
    hits$.next(hit(3));
    expect(take.hits).toHaveLength(2);
    expect(hits$.observed).toBe(false);
  });

  it('tries again what could not be kept, and comes back whole from a full disk', async () => {
    const { hits$, running, store, keeping, until } = recording();
    await until(0);
    hits$.next(hit(1));
    store.full = true;
    await until(500);
    expect(keeping).toEqual(['full']);
    store.full = false;
    hits$.next(hit(600));
    await until(1100);
    expect(store.keptTimes()).toEqual([1, 600]);
    expect(keeping).toEqual(['full', null]);
    store.full = true;
    const { take, unkept } = await running.finish();
    expect(take.hits).toHaveLength(2);
    expect(store.finished).toBeNull();
    expect(unkept?.message).toBe('full');
  });

  it('says nothing of being kept where it always was, and why not each time it was not', async () => {
    const { hits$, store, keeping, until } = recording();
    await until(0);
    hits$.next(hit(1));
    await until(500);
    expect(keeping).toEqual([]);
    store.full = true;
    for (const atMs of [600, 1200]) {
      hits$.next(hit(atMs));
      await until(atMs + 500);
    }
    expect(keeping).toEqual(['full', 'full']);
  });

  it('whose store was deleted under it is kept anew, from its first hit on', async () => {
    const { hits$, running, store, keeping, until } = recording();
    await until(0);
    for (const atMs of [10, 600]) {
      hits$.next(hit(atMs));
      await until(atMs + 500);
    }
    expect([...store.chunks.keys()]).toEqual([0, 1]);
    store.deleteAll();
    hits$.next(hit(1200));
    await until(1700);
    expect([...store.chunks]).toEqual([[0, [hit(10), hit(600), hit(1200)]]]);
    hits$.next(hit(1800));
    await until(2300);
    expect(store.keptTimes()).toEqual([10, 600, 1200, 1800]);
    expect(store.begun).toBe(2);
    expect(keeping).toEqual([]);
    expect((await running.finish()).unkept).toBeNull();
  });

  it('leaves nothing in the store with one hit, or when discarded', async () => {
    const short = recording();
    short.hits$.next(hit(1));
    expect((await short.running.finish()).take.hits).toHaveLength(1);
    expect(short.store.finished).toBeNull();
    expect(short.store.discarded).toBe(true);

    const thrownAway = recording();
    thrownAway.hits$.next(hit(1));
    thrownAway.hits$.next(hit(2));
    await thrownAway.running.discard();
    expect(thrownAway.store.discarded).toBe(true);
  });
});

describe('what happens beside the strokes', () => {
  it('is kept with the take that is running, so that a page that dies keeps it too', async () => {
    const scheduler = new VirtualTimeScheduler();
    const store = new Memory();
    const openings: TakeOpening[] = [];
    (store as RunningTakes).begin = (one) => Promise.resolve(void openings.push(one));
    const recording = record(opening, new Subject<RawHit>(), store, { scheduler });
    await new Promise((done) => setTimeout(done, 0));
    recording.note({ kind: 'page hidden', atMs: 700 });
    scheduler.flush();
    await Promise.resolve();
    const { take } = await recording.finish();
    expect(openings.map(({ events }) => events)).toEqual([undefined, [{ kind: 'page hidden', atMs: 700 }]]);
    expect(take.events).toEqual([{ kind: 'page hidden', atMs: 700 }]);
  });

  it('hits are kept though no timer fires, as in a page that is out of sight', async () => {
    const store = new Memory();
    const hits$ = new Subject<RawHit>();
    record(opening, hits$, store, { scheduler: new VirtualTimeScheduler(), keptWithinMs: 500 });
    for (let atMs = 0; atMs <= 2000; atMs += 100) hits$.next(hit(atMs));
    await new Promise((done) => setTimeout(done, 0));
    expect(store.keptTimes().length).toBeGreaterThanOrEqual(13);
  });
});
