import { fileName } from '../sessions/file-name';
import type { Library, LibraryTake, MergeRow } from '../sessions/library';
import type { Effects } from '../state/dispatcher';
import { whoInFileName } from '../state/selectors/library';
import type { Context } from './context';
import { readableTake } from './readable';
import { saveFile } from './save-file';

/** The whole library as one file, out and in. */
export interface Backup {
  /**
   * Merges a library: all of it, or nothing where keeping fails.
   * @returns what became of it
   */
  restore(library: Library): Promise<string>;
}

export function backupEffects({ state, store, attempt }: Context) {
  const on = {
    backup: ({ playerId }) => attempt(() => download(playerId)),
  } satisfies Effects['on'];

  async function takesOf(playerId: string | undefined): Promise<readonly LibraryTake[]> {
    const takes: LibraryTake[] = [];
    for (const { id, playerId: owner, sentence, graded } of await store().records(playerId)) {
      const take = await readableTake(store(), id);
      if (take !== undefined) takes.push({ take, playerId: owner, sentence, graded });
    }
    return takes;
  }

  async function download(playerId: string | undefined): Promise<void> {
    const { libraryOf, writeLibrary } = await import('../sessions/library');
    const [players, phrases, rigs, sheets, notes] = await Promise.all([
      store().all('players'),
      store().all('phrases'),
      store().all('rigs'),
      store().all('sheets'),
      store().all('notes'),
    ]);
    const isTheirs = (owner: string): boolean => playerId === undefined || owner === playerId;
    const library = libraryOf(
      {
        players: players.filter(({ id }) => isTheirs(id)),
        phrases: playerId === undefined ? phrases : [],
        rigs: playerId === undefined ? rigs : [],
        sheets: sheets.filter((sheet) => isTheirs(sheet.playerId)),
        notes: notes.filter((note) => isTheirs(note.playerId)),
        takes: await takesOf(playerId),
      },
      new Date().toISOString(),
    );
    const name = fileName({
      ...(playerId === undefined
        ? { kind: 'backup' }
        : { kind: 'student', who: whoInFileName(state().library, playerId) }),
      day: library.savedAt,
      ending: 'library.json',
    });
    saveFile(name, writeLibrary(library));
  }

  async function restore(library: Library): Promise<string> {
    const { mergeLibrary } = await import('../sessions/library');
    const [players, phrases, rigs, sheets, notes] = await Promise.all([
      store().all('players'),
      store().all('phrases'),
      store().all('rigs'),
      store().all('sheets'),
      store().all('notes'),
    ]);
    const found = await Promise.all(library.takes.map(({ take }) => readableTake(store(), take.id)));
    const takes = found.filter((take) => take !== undefined);
    const { batch, rows } = mergeLibrary({ players, phrases, rigs, sheets, notes, takes }, library);
    await store().putAll(batch);
    await dropBlank(library.players.map(({ id }) => id));
    return mergeWords(rows);
  }

  /** The nameless player that a new browser begins with is nobody's where a library brings its own. */
  async function dropBlank(broughtIds: readonly string[]): Promise<void> {
    const { playerId, players } = state().library;
    const blank = players.find(({ id }) => id === playerId);
    const isBlank =
      blank?.name === '' && !broughtIds.includes(playerId) && (await store().count(playerId)) === 0;
    if (!isBlank || broughtIds.length === 0) return;
    await store().forgetPlayer(playerId);
    await store().keep('player', broughtIds[0]);
  }

  return { on, restore } satisfies Effects & Backup;
}

const OUTCOMES: readonly (readonly [MergeRow['outcome'], string])[] = [
  ['new', 'new'],
  ['newer', 'newer than what was here'],
  ['both', 'kept beside what was here'],
  ['same', 'here already'],
  ['older', 'older than what is here, left out'],
];

function mergeWords(rows: readonly MergeRow[]): string {
  const counts = OUTCOMES.flatMap(([outcome, words]) => {
    const n = rows.filter((row) => row.outcome === outcome).length;
    return n === 0 ? [] : [`${n} ${words}`];
  });
  return counts.length === 0 ? 'a backup with nothing in it' : `a backup: ${counts.join(', ')}`;
}
