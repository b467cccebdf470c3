import type { Room } from '../state/library';
import { newPlayer, playerName, tidyName, type Player } from '../sessions/player';
import type { TakeSummary } from '../sessions/take-record';
import type { On } from '../state/commands';
import type { Desk } from './page-effects';
import type { SheetDesk } from './sheets';

/** The library on the page: whose turn it is, their takes and week sheets, and what the browser says of its storage. */
export interface KeepingDesk {
  /** Shows what was kept; asks the browser to keep it for good. */
  open(): Promise<void>;
  /** Shows players, takes and week sheets as they are now. */
  refresh(): Promise<void>;
  turnTo(playerId: string): Promise<void>;
  add(name: string): Promise<Player>;
  change(playerId: string, change: Partial<Omit<Player, 'id' | 'changedAt'>>): Promise<void>;
  merge(fromId: string, intoId: string): Promise<void>;
  forget(playerId: string): Promise<void>;
}

/** As many takes as Review lists; History reads them all. */
const LISTED = 50;

export function keepingDesk({ sitting, say, store }: Desk, sheetsOf: SheetDesk['shown']): KeepingDesk {
  async function refresh(): Promise<void> {
    const players = [...(await store().all('players'))].sort((a, b) => (a.name < b.name ? -1 : 1));
    const wanted = (await store().kept('player')) ?? '';
    const playerId = (players.find(({ id }) => id === wanted) ?? players[0])?.id ?? '';
    const [takes, nobodys, sheets] = await Promise.all([
      store().list({ playerId }),
      store().list({ playerId: '', most: LISTED }),
      store().all('sheets'),
    ]);
    const theirs = sheets.filter((sheet) => sheet.playerId === playerId);
    const shown = await sheetsOf(theirs, takes);
    say({ kind: 'keeping', change: { players, playerId, takes, sheets: shown } });
    say({ kind: 'kept', kept: newest(takes, nobodys) });
  }

  async function turnTo(playerId: string): Promise<void> {
    await store().keep('player', playerId);
    await refresh();
  }

  async function put(player: Player): Promise<void> {
    await store().place('players', { ...player, changedAt: new Date().toISOString() });
    await refresh();
  }

  return {
    refresh,
    turnTo,
    async open() {
      await refresh();
      const namesInFiles = (await store().kept('names in files')) === true;
      say({ kind: 'keeping', change: { namesInFiles, room: await room() } });
    },
    async add(name) {
      const player = newPlayer(crypto.randomUUID(), name, new Date().toISOString());
      await put(player);
      await turnTo(player.id);
      return player;
    },
    async change(playerId, change) {
      const player = sitting().keeping.players.find(({ id }) => id === playerId);
      if (player === undefined) return;
      const name = tidyName(change.name ?? player.name);
      await put({ ...player, ...change, name });
      const { limits } = change;
      if (limits !== undefined && playerId === sitting().keeping.playerId) say({ kind: 'limits', limits });
    },
    async merge(fromId, intoId) {
      const { players, playerId } = sitting().keeping;
      const [from, into] = [fromId, intoId].map((wanted) => players.find(({ id }) => id === wanted));
      if (from === undefined || into === undefined || from === into) return;
      const words = `All that is ${playerName(from)}’s becomes ${playerName(into)}’s. This cannot be undone.`;
      if (!window.confirm(words)) return;
      await store().mergePlayers(fromId, intoId);
      await (playerId === fromId ? turnTo(intoId) : refresh());
    },
    async forget(playerId) {
      const { players } = sitting().keeping;
      const player = players.find(({ id }) => id === playerId);
      if (player === undefined) return;
      const takes = await store().count(playerId);
      const words = `Delete ${playerName(player)} for good, with ${takes} takes, week sheets and notes? Downloaded files are not touched.`;
      if (!window.confirm(words)) return;
      await store().forgetPlayer(playerId);
      if (players.length === 1) {
        const fresh = newPlayer(crypto.randomUUID(), '', new Date().toISOString());
        await store().place('players', fresh);
      }
      await refresh();
    },
  };
}

/** The newest of two lists that are newest first. */
function newest(takes: readonly TakeSummary[], others: readonly TakeSummary[]): readonly TakeSummary[] {
  return [...takes.slice(0, LISTED), ...others]
    .sort((a, b) => (a.recordedAt < b.recordedAt ? 1 : -1))
    .slice(0, LISTED);
}

/** Asked once a page: a browser that agrees does not clear the library when it runs short of room. */
async function room(): Promise<Room | null> {
  const storage = (navigator as Partial<Navigator>).storage;
  if (storage === undefined) return null;
  const lasting = (await storage.persisted()) || (await storage.persist());
  const { usage, quota } = await storage.estimate();
  const mb = (bytes: number): number => bytes / 1_000_000;
  const free = usage === undefined || quota === undefined ? null : mb(quota - usage);
  return { lasting, usedMb: usage === undefined ? null : mb(usage), freeMb: free };
}

const PAGE_LOCK = 'evenhand-page';

/** Says whether another tab has the app open, and shows what happened there when the player comes back to this one. */
export function otherTabs({ say, attempt, sitting }: Desk, keeping: KeepingDesk): void {
  const locks = (navigator as Partial<Navigator>).locks;
  void locks?.request(PAGE_LOCK, { ifAvailable: true }, (lock) => {
    if (lock !== null) return new Promise(() => undefined);
    say({ kind: 'keeping', change: { otherTab: true } });
    return undefined;
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible' && sitting().running === null) attempt(keeping.refresh);
  });
}

/** What the Library screen and the top line may ask for. */
export function keepingWires(on: On, { sitting, say, store, attempt }: Desk, keeping: KeepingDesk): void {
  on('player', ({ id }) => attempt(() => keeping.turnTo(id)));
  on('new-player', ({ name }) => attempt(async () => void (await keeping.add(name))));
  on('change-player', ({ id, change }) => attempt(() => keeping.change(id, change)));
  on('merge-players', ({ fromId, intoId }) => attempt(() => keeping.merge(fromId, intoId)));
  on('forget-player', ({ id }) => attempt(() => keeping.forget(id)));
  on('give-take', ({ id, playerId }) =>
    attempt(async () => {
      await store().give([id], playerId);
      await keeping.refresh();
      const to = sitting().keeping.players.find((player) => player.id === playerId);
      if (to !== undefined) say({ kind: 'message', message: `The take is ${playerName(to)}’s now.` });
    }),
  );
  on('names-in-files', (wish) =>
    attempt(async () => {
      await store().keep('names in files', wish.on);
      say({ kind: 'keeping', change: { namesInFiles: wish.on } });
    }),
  );
  on('dismiss-files', () => say({ kind: 'keeping', change: { files: [] } }));
  on('leave-sheet', () => say({ kind: 'keeping', change: { sheetId: '' } }));
}
