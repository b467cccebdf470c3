import type { On } from '../state/commands';
import { isCold, restWords, type PlayedTake } from '../insight/rest';
import type { Desk } from './page-effects';
import { inTurn } from './queue';
import type { Playing } from './running-take';
import type { TakeDesk } from './takes';

/** What is played today, and what becomes of takes. */
interface Day {
  /** Reads what was played today. */
  open(): Promise<void>;
  /** Whether the take to come is the day's first. */
  cold(): boolean;
}

const PLAN = 'playing plan';
const MOST_A_DAY = 400;

export function dayOfPlay({ say, store }: Desk): Day {
  let takes: readonly PlayedTake[] = [];
  const sinceMidnight = (): string => new Date(new Date().setHours(0, 0, 0, 0)).toISOString();
  return {
    async open() {
      takes = await store().list({ most: MOST_A_DAY });
      say({ kind: 'rest', words: restWords(takes, sinceMidnight()) });
    },
    cold: () => isCold(takes, sinceMidnight()),
  };
}

/** The plan as it was kept; from now on each change is kept. */
export async function openPlan({ say, store }: Desk): Promise<void> {
  const kept = await store().kept(PLAN);
  if (kept !== undefined) say({ kind: 'kept plan', kept });
}

interface PlayParts {
  readonly play: Playing;
  readonly takes: TakeDesk;
  /** Ends the running take and shows it. */
  readonly stopped: () => Promise<void>;
}

/** What Play may ask for. */
export function playWires(on: On, desk: Desk, { play, takes, stopped }: PlayParts): void {
  const { sitting, say, store, attempt } = desk;
  // A note and a throw-away a moment apart: each sees what the one before it left.
  const turn = inTurn();
  const ofLast = (work: () => Promise<void>): void => attempt(() => turn(work));
  const keepPlan = (): void => attempt(() => store().keep(PLAN, sitting().plan));

  on('plan', ({ change }) => {
    say({ kind: 'plan', change });
    keepPlan();
  });
  on('click-plan', ({ change }) => {
    say({ kind: 'click', change });
    keepPlan();
  });
  on('tap', ({ atMs }) => say({ kind: 'tap', atMs }));
  on('tap-on-pad', (said) => say({ kind: 'tap on pad', on: said.on }));
  on('throw-away', () =>
    ofLast(async () => {
      const { last } = sitting();
      if (last === null) return;
      await store().delete(last.take.id);
      say({ kind: 'last', last: { ...last, kept: false } });
      await takes.list();
    }),
  );
  on('put-back', () =>
    ofLast(async () => {
      const { last } = sitting();
      if (last === null) return;
      await takes.put(last.take);
      say({ kind: 'last', last: { ...last, kept: true } });
    }),
  );
  on('note-last', ({ text }) =>
    ofLast(async () => {
      const { last } = sitting();
      if (last === null) return;
      const take = { ...last.take, notes: text };
      await takes.put(take);
      say({ kind: 'last', last: { ...last, take, kept: true } });
    }),
  );
  on('open-last', () =>
    attempt(async () => {
      const { last } = sitting();
      if (last !== null) await takes.review(last.take);
    }),
  );
  on('start', () => play.start());
  on('stop', () => attempt(stopped));
}
