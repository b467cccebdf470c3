import type { Effects } from '../state/dispatcher';
import { guessesFrom } from '../state/guess-first';
import type { Context } from './context';

const KEPT = 'guesses';

/** What Review keeps beside its takes: whether to guess first, and how often it was right. */
export function reviewEffects({ state, dispatch, store, attempt }: Context) {
  const keep = (): void => attempt(() => store().keep(KEPT, state().reviewing.guesses));
  const on = { guess: keep, 'guess first': keep } satisfies Effects['on'];
  return {
    on,
    async open(): Promise<void> {
      const guesses = guessesFrom(await store().kept(KEPT));
      if (guesses !== undefined) dispatch({ kind: 'guesses kept', guesses });
    },
  };
}
