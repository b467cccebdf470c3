import { fileName, whoInNames, type WhoInNames } from '../sessions/file-name';
import {
  activePlayers,
  broughtBack,
  deletedAt,
  newPlayer,
  playerName,
  tidyName,
  type Player,
} from '../sessions/player';
import { TEACHER } from '../sessions/teacher';
import { codeFor, inNaturalOrder, playerLabels } from '../sessions/player-code';
import type { KeptFile, Unreadable } from '../sessions/store-types';
import type { TakeSummary } from '../sessions/take-record';
import type { Effects } from '../state/dispatcher';
import { archiveTerms, type BrowserStorage, type SheetShown } from '../state/library';
import { counted } from '../text';
import { OF_ALL, OF_NOBODY, OF_TURN } from '../state/takes';
import type { Context } from './context';
import { saveFile } from './save-file';
import { writtenIn } from './written';
import { keepTurnOfWindow, turnOfWindow } from './window-turn';

/** Week sheets as the page shows them. */
interface Sheets {
  shown(kept: readonly KeptFile[], takes: readonly TakeSummary[]): Promise<readonly SheetShown[]>;
}

/** How many months the archive keeps players, as it is kept. */
const ARCHIVE = 'months in the archive';

const DELETED =
  'The library of this browser was deleted while this page was open, by somebody or by the browser. The page goes on with an empty one: bring a backup back on Library.';

/** The library on the page: whose turn it is, their takes and week sheets, and what the browser says of its storage. */
// eslint-disable-next-line max-lines-per-function -- one library: what is done to it ends in the same refresh
export function libraryEffects({ state, dispatch, store, attempt }: Context, sheets: () => Sheets) {
  /** Whose turn it is in this window, as it was asked for last; empty before the library is open. */
  let turn = '';
  let shows = 0;
  let newestShow: Promise<void> = Promise.resolve();

  /** Shows players, takes and week sheets as they are now. */
  async function refresh(): Promise<void> {
    const players = inNaturalOrder(await store().all('players'));
    const kept = await store().kept('player');
    const active = activePlayers(players);
    const isHere = (id: unknown): boolean => active.some((player) => player.id === id);
    // A window has a turn of its own: another's is its own affair.
    if (!isHere(turn)) {
      const ids = [turnOfWindow(), kept, ...active.map(({ id }) => id)];
      turn = ids.find((id): id is string => isHere(id)) ?? '';
    }
    await show(players);
  }

  function show(players: readonly Player[]): Promise<void> {
    shows += 1;
    newestShow = shown(players, turn, shows);
    return newestShow;
  }

  /** Shows a player's takes and week sheets, unless another was asked for meanwhile. */
  async function shown(players: readonly Player[], playerId: string, mine: number): Promise<void> {
    const [takes, teacherTakes, nobodysTakes, theirs, nobodysSheets, notes] = await Promise.all([
      store().list({ playerId }),
      store().list({ playerId: TEACHER }),
      store().list({ playerId: '' }),
      store().filesOf('sheets', playerId),
      store().filesOf('sheets', ''),
      store().filesOf('notes', playerId),
    ]);
    const shownSheets = await sheets().shown([...theirs, ...nobodysSheets], takes);
    if (mine !== shows) return newestShow;
    const written = writtenIn(notes);
    dispatch({
      kind: 'library',
      change: { players, playerId, takes, teacherTakes, nobodysTakes, sheets: shownSheets, ...written },
    });
    await listTakes(mine);
  }

  /** Lists the takes that Takes is to show, unless the page was shown anew meanwhile. */
  async function listTakes(mine: number): Promise<void> {
    const { of } = state().takesView;
    const kept = await takesOf(of);
    if (mine === shows && of === state().takesView.of) dispatch({ kind: 'takes listed', kept });
  }

  async function takesOf(of: string): Promise<readonly TakeSummary[]> {
    const { takes, teacherTakes, nobodysTakes } = state().library;
    if (of === OF_TURN) return takes;
    if (of === TEACHER) return teacherTakes;
    if (of === OF_NOBODY) return nobodysTakes;
    return store().list(of === OF_ALL ? {} : { playerId: of });
  }

  /** Their turn, in this window and in the next that is opened. A take that is being played is played to its end. */
  async function turnTo(playerId: string): Promise<boolean> {
    if (state().running !== null) {
      dispatch({ kind: 'message', message: 'A take is being played: it is over first.' });
      return false;
    }
    turn = playerId;
    keepTurnOfWindow(playerId);
    await show(state().library.players);
    await store().keep('player', playerId);
    return true;
  }

  async function put(player: Player): Promise<void> {
    await store().place('players', { ...player, changedAt: new Date().toISOString() });
    await refresh();
  }

  /** Says what can't be read. A take whose record alone was damaged is listed again by it. */
  async function showUnreadable(): Promise<void> {
    const before = await store().count();
    const unreadable = await store().unreadable();
    dispatch({ kind: 'library', change: { unreadable } });
    if ((await store().count()) !== before) await refresh();
  }

  async function removeUnreadable(unreadable: Unreadable): Promise<void> {
    if (!window.confirm('Remove it for good? What can’t be read can’t be had back, save from a backup.'))
      return;
    await store().removeUnreadable(unreadable);
    await showUnreadable();
  }

  /** Shows what was kept; asks the browser to keep it for good. */
  async function open(): Promise<void> {
    const archiveMonths = monthsFrom(await store().kept(ARCHIVE));
    await deleteDue(archiveMonths);
    await refresh();
    const inFileNames = whoWished(await store().kept('names in files'));
    dispatch({ kind: 'library', change: { inFileNames, archiveMonths, storage: await browserStorage() } });
  }

  /** The library was deleted under the page. Whose turn it is stays: what they play now is theirs. */
  async function deleted(): Promise<void> {
    const { players, playerId } = state().library;
    const player = players.find(({ id }) => id === playerId);
    if (player !== undefined) {
      const fresh = await store().all('players');
      await store().place('players', player);
      for (const { id } of fresh) await store().mergePlayers(id, playerId);
      await store().keep('player', playerId);
    }
    await refresh();
    dispatch({ kind: 'problem', problem: DELETED });
  }

  async function add(name: string): Promise<void> {
    const player = newPlayer(crypto.randomUUID(), name, new Date().toISOString());
    await put(withCode(player, state().library.players));
  }

  async function change(playerId: string, change: Partial<Omit<Player, 'id' | 'changedAt'>>): Promise<void> {
    const player = state().library.players.find(({ id }) => id === playerId);
    if (player === undefined) return;
    const name = tidyName(change.name ?? player.name);
    const next = { ...player, ...change, name };
    await put(name === player.name ? next : withCode(next, state().library.players));
    const { limits } = change;
    if (limits !== undefined && playerId === state().library.playerId) dispatch({ kind: 'limits', limits });
  }

  /** Who has been in the archive for as long as it keeps players is deleted, and it is said. */
  async function deleteDue(months: number | null): Promise<void> {
    const players = await store().all('players');
    const due = players.filter((player) => (deletedAt(player, months)?.getTime() ?? Infinity) <= Date.now());
    for (const { id } of due) await store().forgetPlayer(id);
    if (due.length === 0) return;
    const message = `${counted(due.length, 'archived player')} deleted, as Library says.`;
    dispatch({ kind: 'message', message });
  }

  /** Somebody must be left to have the turn. */
  async function archive(playerId: string): Promise<void> {
    const { players } = state().library;
    const player = players.find(({ id }) => id === playerId);
    if (player === undefined || activePlayers(players).length < 2) return;
    if (state().running !== null && playerId === state().library.playerId)
      return void (await turnTo(playerId));
    await put({ ...player, archivedAt: new Date().toISOString() });
    dispatch({ kind: 'message', message: `${nameOf(player)} is in the archive, with all that is theirs.` });
  }

  async function bringBack(playerId: string): Promise<void> {
    const player = state().library.players.find(({ id }) => id === playerId);
    if (player !== undefined) await put(broughtBack(player));
  }

  const nameOf = (player: Player): string =>
    playerLabels(state().library.players).get(player.id) ?? playerName(player);

  async function merge(fromId: string, intoId: string): Promise<void> {
    const { players, playerId } = state().library;
    const [from, into] = [fromId, intoId].map((wanted) => players.find(({ id }) => id === wanted));
    if (from === undefined || into === undefined || from === into) return;
    const words = `All that is ${nameOf(from)}’s becomes ${nameOf(into)}’s. This cannot be undone.`;
    if (!window.confirm(words)) return;
    await store().mergePlayers(fromId, intoId);
    if (playerId === fromId) await turnTo(intoId);
    await refresh();
  }

  async function forget(playerId: string): Promise<void> {
    const { players } = state().library;
    const player = players.find(({ id }) => id === playerId);
    if (player === undefined) return;
    const takes = await store().count(playerId);
    const words = `Delete ${nameOf(player)} for good, with ${takes} takes, week sheets and notes? Downloaded files are not touched.`;
    if (!window.confirm(words)) return;
    await store().forgetPlayer(playerId);
    if (activePlayers(players).filter(({ id }) => id !== playerId).length === 0) {
      const fresh = newPlayer(crypto.randomUUID(), '', new Date().toISOString());
      await store().place('players', fresh);
    }
    await refresh();
  }

  const on = {
    'list takes': ({ change: asked }) => {
      if (asked.of !== undefined) attempt(() => listTakes(shows));
    },
    'choose player': ({ id }) => attempt(async () => void (await turnTo(id))),
    'new player': ({ name }) => attempt(() => add(name)),
    'change player': (asked) => attempt(() => change(asked.id, asked.change)),
    'merge players': ({ fromId, intoId }) => attempt(() => merge(fromId, intoId)),
    'archive player': ({ id }) => attempt(() => archive(id)),
    'bring back': ({ id }) => attempt(() => bringBack(id)),
    'archive keeps': ({ months }) => attempt(() => store().keep(ARCHIVE, months)),
    'forget player': ({ id }) => attempt(() => forget(id)),
    'download unreadable': ({ unreadable: { from, key, reason, value } }) =>
      saveFile(
        fileName({ kind: 'unread', about: `${from} ${String(key)}`, ending: 'json' }),
        JSON.stringify({ from, key, reason, value }, null, 2),
      ),
    'remove unreadable': ({ unreadable }) => attempt(() => removeUnreadable(unreadable)),
    'names in files': (wish) => attempt(() => store().keep('names in files', wish.as)),
  } satisfies Effects['on'];
  return { on, open, refresh, turnTo, change, deleted, showUnreadable };
}

/** A short code of their own, by the name they have now; a player without a name keeps the one they had. */
function withCode(player: Player, players: readonly Player[]): Player {
  if (player.name === '') return player;
  const others = players.filter(({ id }) => id !== player.id);
  return { ...player, code: codeFor(player.name, others) };
}

const monthsFrom = (kept: unknown): number | null => archiveTerms.find((one) => one === kept) ?? null;

/** As it was kept; yes and no are of a page before there were short codes. */
function whoWished(kept: unknown): WhoInNames {
  if (kept === true) return 'name';
  return whoInNames.find((one) => one === kept) ?? 'code';
}

/** Asked once a page: a browser that agrees does not clear the library when it runs short of space. */
async function browserStorage(): Promise<BrowserStorage | null> {
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
export function otherTabs(
  { dispatch, attempt }: Context,
  isPlaying: () => boolean,
  refresh: () => Promise<void>,
): void {
  const locks = (navigator as Partial<Navigator>).locks;
  void locks?.request(PAGE_LOCK, { ifAvailable: true }, (lock) => {
    if (lock !== null) return new Promise(() => undefined);
    dispatch({ kind: 'library', change: { otherTab: true } });
    return undefined;
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible' && !isPlaying()) attempt(refresh);
  });
}
