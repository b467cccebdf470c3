import { keepsNothing } from '../sessions/storage-words';
import type { Take } from '../sessions/types';
import type { Effects } from '../state/dispatcher';
import type { State } from '../state/state';
import { wouldLose, type UnkeptTake } from '../state/unkept';
import type { Context } from './context';
import { describedTake } from './graded-once';

/** How long what could not be kept waits until it is tried again. */
const AGAIN_MS = 5000;

/** Keeps takes, and those that can't be kept in the page's memory. */
export interface Unkept {
  /** Keeps it as it is now; where that fails it is held, said so and tried again. @returns whether it is kept */
  keep(take: Take, from: UnkeptTake['from']): Promise<boolean>;
  /** Holds one that could not be kept. */
  hold(take: Take, from: UnkeptTake['from'], why: Error): void;
}

/**
 * Takes that could not be kept: held until they are, and not left without being asked.
 * @param settle grades one that is kept now and lists it
 * @param isPlaying whether a take is running: then nothing else is written
 */
export function unkeptEffects(
  { dispatch, store, attempt }: Context,
  settle: (take: Take) => Promise<unknown>,
  isPlaying: () => boolean,
) {
  let held: readonly UnkeptTake[] = [];
  let timer: ReturnType<typeof setInterval> | undefined;
  let isAsking = false;
  let isTrying = false;

  function hold(take: Take, from: UnkeptTake['from'], why: Error): void {
    const { sentence } = describedTake(take);
    const { message } = why;
    dispatch({ kind: 'take unkept', unkept: { take, sentence, why: message, from, downloaded: false } });
  }

  async function keep(take: Take, from: UnkeptTake['from']): Promise<boolean> {
    const why = await whyNotKept(take);
    if (why !== null) hold(take, from, why);
    else dispatch({ kind: 'unkept done', id: take.id });
    // What lasts as long as the page is as good as kept for a file, not for what was played.
    if (why === null && from === 'played' && !store().lasts) hold(take, from, keepsNothing());
    return why === null;
  }

  async function whyNotKept(take: Take): Promise<Error | null> {
    try {
      await store().put(take);
      return null;
    } catch (error) {
      return error instanceof Error ? error : new Error(String(error));
    }
  }

  async function tryAgain(): Promise<void> {
    if (isTrying || isPlaying() || !store().lasts) return;
    isTrying = true;
    try {
      for (const { take, sentence } of held) {
        if ((await whyNotKept(take)) !== null) return;
        dispatch({ kind: 'unkept done', id: take.id });
        dispatch({ kind: 'message', message: `Kept now: ${sentence}` });
        await settle(take);
      }
    } finally {
      isTrying = false;
    }
  }

  function follow({ unkept }: State): void {
    held = unkept;
    if (held.length > 0) timer ??= setInterval(() => attempt(tryAgain), AGAIN_MS);
    else {
      clearInterval(timer);
      timer = undefined;
    }
  }

  /** Only while there is something to lose: a page that always asks can't be taken back from the browser's memory. */
  function askBeforeLeaving(asks: boolean): void {
    if (asks === isAsking) return;
    isAsking = asks;
    if (asks) window.addEventListener('beforeunload', stay);
    else window.removeEventListener('beforeunload', stay);
  }

  return {
    changed(now) {
      follow(now);
      askBeforeLeaving(wouldLose(now));
    },
    keep,
    hold,
  } satisfies Effects & Unkept;
}

const stay = (event: BeforeUnloadEvent): void => event.preventDefault();
