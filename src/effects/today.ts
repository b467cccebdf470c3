import { interval, type Subscription } from 'rxjs';
import { currentPlayer } from '../state/selectors/library';
import type { Effects } from '../state/dispatcher';
import type { Player, WeekItem } from '../sessions/player';
import type { Context } from './context';

const TICK_MS = 1000;

/** The clock of Today while it runs, and the week's list that is kept with the player. */
export function todayEffects(
  { state, dispatch, attempt }: Context,
  change: (playerId: string, change: Pick<Player, 'week'>) => Promise<void>,
) {
  const tick = (): void => dispatch({ kind: 'date', dateMs: Date.now() });
  let ticking: Subscription | null = null;

  function withList(changed: (list: readonly WeekItem[]) => readonly WeekItem[]): void {
    const player = currentPlayer(state().library);
    if (player !== undefined) attempt(() => change(player.id, { week: changed(player.week ?? []) }));
  }

  const on = {
    'list phrase': ({ words }) => {
      const { phrase, bpm } = state();
      withList((list) => [...list, { phrase, bpm, words }]);
    },
    'unlist phrase': ({ index }) => withList((list) => list.filter((_, at) => at !== index)),
  } satisfies Effects['on'];
  return {
    on,
    open: tick,
    changed({ today: { clock } }) {
      if ((clock !== null) === (ticking !== null)) return;
      ticking?.unsubscribe();
      ticking = clock === null ? null : interval(TICK_MS).subscribe(tick);
    },
  } satisfies Effects & { open(): void };
}
