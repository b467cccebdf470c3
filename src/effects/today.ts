import type { On } from '../state/commands';
import { playerInTurn } from '../state/library';
import { takeWithTempo } from '../insight/today/opening';
import type { WeekItem } from '../sessions/player';
import type { Desk } from './page-effects';
import type { KeepingDesk } from './library';
import type { TakeDesk } from './takes';

const TICK_MS = 1000;

/** What the Today screen may ask for, and its clock. */
export function todayWires(on: On, desk: Desk, keeping: KeepingDesk, takes: TakeDesk): void {
  const { sitting, say, attempt } = desk;
  const tick = (): void => say({ kind: 'today', said: { kind: 'tick', nowMs: Date.now() } });
  tick();
  setInterval(() => {
    if (sitting().today.clock !== null) tick();
  }, TICK_MS);

  async function setList(list: readonly WeekItem[]): Promise<void> {
    const player = playerInTurn(sitting().keeping);
    if (player !== undefined) await keeping.change(player.id, { week: list });
  }
  const list = (): readonly WeekItem[] => playerInTurn(sitting().keeping)?.week ?? [];

  on('today', (asked) => {
    switch (asked.kind) {
      case 'length':
      case 'stop':
        say({ kind: 'today', said: asked });
        return;
      case 'start':
        say({ kind: 'today', said: { ...asked, nowMs: Date.now() } });
        return;
      case 'move on':
        say({ kind: 'today', said: { kind: 'move on', nowMs: Date.now() } });
        return;
      case 'open': {
        const { opening } = asked;
        if (opening.kind === 'phrase') say({ kind: 'today', said: { kind: 'open', opening } });
        else
          attempt(async () => {
            const take = await takes.find(opening.takeId);
            if (take !== undefined) say({ kind: 'again', take: takeWithTempo(take, opening.bpm) });
          });
        return;
      }
      case 'list': {
        const { phrase, bpm } = sitting();
        attempt(() => setList([...list(), { phrase, bpm, words: asked.words }]));
        return;
      }
      case 'unlist':
        attempt(() => setList(list().filter((_, index) => index !== asked.index)));
        return;
    }
  });
}
