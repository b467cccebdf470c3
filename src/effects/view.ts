import type { Effects } from '../state/dispatcher';
import { keptView } from '../state/view';
import type { Context } from './context';

const KEPT = 'view';

/** What Play shows is kept for another day; a teacher's choice of the one number is of this take alone. */
export function viewEffects({ state, dispatch, store, trouble }: Context) {
  const keep = (): void => {
    const { view, figureChoice } = state();
    store()
      .keep(KEPT, { ...view, figure: figureChoice })
      .catch(trouble);
  };
  const on = {
    view: keep,
    figure: ({ by }) => {
      if (by === 'player') keep();
    },
  } satisfies Effects['on'];
  return {
    on,
    async open(): Promise<void> {
      const kept = keptView(await store().kept(KEPT));
      if (kept !== undefined) dispatch({ kind: 'view kept', ...kept });
    },
  };
}
