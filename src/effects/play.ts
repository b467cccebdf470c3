import { isCold, restWords } from '../insight/rest';
import { keepsNothing } from '../sessions/storage-words';
import type { Take } from '../sessions/types';
import type { Effects } from '../state/dispatcher';
import { planInUse } from '../state/selectors/run';
import type { LastTake } from '../state/takes';
import type { Context } from './context';
import { describedTake, reportOnce } from './graded-once';
import { queue } from './queue';
import type { RunningTake } from './running-take';
import type { Takes } from './takes';
import type { Unkept } from './unkept';

const PLAN = 'playing plan';
const nowMs = (): number => performance.now();

/** What is played today. */
interface Day {
  /** Says where it is time to rest, after a take that is listed by now. */
  tell(): void;
  /** Whether the take to come is the day's first. */
  cold(): boolean;
}

/** Of the player in turn: what others played today makes nobody warm, and nobody tired. */
export function dayOfPlay({ state, dispatch }: Context): Day {
  const sinceMidnight = (): string => new Date(new Date().setHours(0, 0, 0, 0)).toISOString();
  return {
    tell: () => dispatch({ kind: 'rest due', words: restWords(state().library.takes, sinceMidnight()) }),
    cold: () => isCold(state().library.takes, sinceMidnight()),
  };
}

interface PlayParts {
  readonly running: RunningTake;
  readonly takes: Pick<Takes, 'review' | 'settle' | 'show'>;
  readonly unkept: Pick<Unkept, 'keep' | 'hold'>;
  readonly day: Day;
  /** Shows the takes that are kept, as they are now. */
  readonly list: () => Promise<void>;
}

/** A take is begun and ended, and what becomes of it after. */
export function playEffects(context: Context, { running, takes, unkept, day, list }: PlayParts) {
  const { state, dispatch, store, attempt } = context;
  // A note and a throw-away a moment apart: each sees what the one before it left.
  const inOrder = queue();
  const keepPlan = (): void => attempt(() => store().keep(PLAN, state().plan));

  /** @param stay the player has gone elsewhere, and stays there */
  async function stop(stay: boolean): Promise<void> {
    const ended = await running.stop();
    if (ended === undefined) return;
    const { take } = ended;
    const why = ended.unkept ?? (store().lasts ? null : keepsNothing());
    if (why !== null) unkept.hold(take, 'played', why);
    // What is said of it comes first; the store has every hit of it already.
    dispatch({ kind: 'played', last: { take, sentence: describedTake(take).sentence, kept: true } });
    // Where one stays in Play, Review has it whenever it is opened.
    const stays = stay || planInUse(state()).then === 'stay';
    dispatch({ kind: 'reviewed', take, report: reportOnce(take), ...(stays ? { stay: true } : {}) });
    // A climb goes on by the player's own takes.
    if (state().climb !== null && take.teacher !== true) {
      dispatch({ kind: 'climbed', report: reportOnce(take), take, atMs: nowMs() });
    }
    if (ended.unkept !== null) return;
    await takes.settle(take);
    day.tell();
  }

  function ofLast(work: (last: LastTake) => Promise<LastTake>): void {
    attempt(() =>
      inOrder(async () => {
        const { last } = state();
        if (last !== null) dispatch({ kind: 'played', last: await work(last) });
      }),
    );
  }

  const isUnkept = (id: string): boolean => state().unkept.some(({ take }) => take.id === id);

  async function putBack(last: LastTake, take: Take): Promise<LastTake> {
    if (await unkept.keep(take, 'played')) await takes.settle(take);
    return { ...last, take, kept: true };
  }

  async function throwAway(last: LastTake): Promise<LastTake> {
    const { id } = last.take;
    // Where it could not be kept there is nothing to delete.
    if (!isUnkept(id)) {
      await store().delete(id);
      await list();
    }
    dispatch({ kind: 'unkept done', id });
    return { ...last, kept: false };
  }

  const on = {
    start: () => running.start(),
    stop: () => attempt(() => stop(false)),
    go: () => {
      if (running.isRunning()) attempt(() => stop(true));
    },
    figure: ({ figure, by }) => running.note({ kind: 'figure', atMs: nowMs(), figure, by }),
    plan: keepPlan,
    'click plan': keepPlan,
    'throw away': () => ofLast(throwAway),
    'put back': () => ofLast((last) => putBack(last, last.take)),
    'annotate last': ({ text }) => ofLast((last) => putBack(last, { ...last.take, notes: text })),
    'open last': () =>
      attempt(async () => {
        const { last } = state();
        if (last === null) return;
        if (isUnkept(last.take.id)) takes.show(last.take);
        else await takes.review(last.take);
      }),
  } satisfies Effects['on'];
  return {
    on,
    /** The plan as it was kept. */
    async open(): Promise<void> {
      const kept = await store().kept(PLAN);
      if (kept !== undefined) dispatch({ kind: 'plan kept', kept });
    },
  };
}
