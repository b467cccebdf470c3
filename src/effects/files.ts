import { InputError } from '../errors';
import type { AddedFile, Filed } from '../state/library';
import { gradeTake } from '../take/grade-take';
import type { FileRead } from '../take/read-file';
import type { PhraseFile } from '../sessions/phrase-file';
import { ownerOfSheet, ownerOfTake, type Known, type Owner } from '../sessions/owner';
import type { NamedRig } from '../sessions/rig-file';
import { TEACHER } from '../sessions/teacher';
import type { Take } from '../sessions/types';
import { targetsMet } from '../sessions/week/targets-met';
import { exercisesOf, exercisesWith } from '../sessions/week/exercises';
import { weekSheetFrom, type WeekSheet } from '../sessions/week-sheet';
import type { Effects } from '../state/dispatcher';
import type { Backup } from './backup';
import type { Context } from './context';
import { fileReader, type FileReader } from './file-reader';
import { describedTake, remember } from './graded-once';
import { queue } from './queue';
import { saveFile } from './save-file';
import type { Takes } from './takes';
import type { Unkept } from './unkept';

/** Whoever keeps what is in a file. */
interface Keepers {
  readonly refresh: () => Promise<void>;
  readonly takes: Takes;
  readonly unkept: Unkept;
  readonly phrases: { add(phrase: PhraseFile): Promise<void> };
  readonly rigs: { add(rig: NamedRig): void };
  readonly sheets: { keep(sheet: WeekSheet, playerId: string): Promise<void> };
  readonly backup: Backup;
}

/** What became of one file, and what to show because of it. */
interface Added {
  readonly words: string;
  readonly filed?: Filed;
  readonly refused?: readonly string[];
  readonly show?: () => Promise<void> | void;
}

/**
 * Adds files that were dropped or chosen, whatever they are: each is read and kept by itself, so that a bad one stops none
 * of the others; what the last good one is about is shown.
 * @param opened what is dropped before the library is open would be kept nowhere
 */
export function fileEffects(
  context: Context,
  keepers: Keepers,
  opened: () => Promise<unknown>,
  reader: FileReader = fileReader(),
) {
  const { dispatch, attempt } = context;
  // Two drops in a row: what the later one is about stays on the page.
  const inOrder = queue();
  let isStopped = false;

  async function add(files: readonly File[]): Promise<void> {
    const outcomes: AddedFile[] = [];
    let show: Added['show'];
    dispatch({ kind: 'library', change: { files: [] } });
    isStopped = false;
    for (const [index, file] of files.entries()) {
      try {
        if (isStopped) throw new InputError('', 'was not read: you stopped it');
        dispatch({ kind: 'library', change: { reading: { name: file.name, index, of: files.length } } });
        for (const one of await allAdded(await readFile(file, context, reader), context, keepers)) {
          const { words, filed, refused = [], show: its } = one;
          if (words !== '')
            outcomes.push({ name: file.name, added: true, words, ...(filed === undefined ? {} : { filed }) });
          outcomes.push(...refused.map((why) => ({ name: file.name, added: false, words: why })));
          show = its ?? show;
        }
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        outcomes.push({ name: file.name, added: false, words: error.message });
      }
    }
    dispatch({ kind: 'library', change: { reading: null } });
    // A take can be looked at though nothing can be read of the library.
    const refreshed = keepers.refresh();
    await Promise.allSettled([refreshed]);
    await show?.();
    if (outcomes.length === 1 && !outcomes[0].added) {
      dispatch({ kind: 'problem', problem: `${outcomes[0].name}: ${outcomes[0].words}` });
    } else if (outcomes.length > 1 || show === undefined || isWhoseAQuestion(outcomes, context)) {
      dispatch({ kind: 'library', change: { files: outcomes } });
    }
    await refreshed;
  }

  const on = {
    'add files': ({ files }) =>
      attempt(async () => {
        // Why it did not open has been said.
        await opened().catch(() => undefined);
        await inOrder(() => add(files));
      }),
    'stop reading': () => {
      isStopped = true;
      reader.stop();
    },
    'save file': ({ name, blob }) => saveFile(name, blob),
  } satisfies Effects['on'];
  return { on };
}

/** With one player there is nothing to say of whose it is. */
const isWhoseAQuestion = (outcomes: readonly AddedFile[], { state }: Context): boolean =>
  state().library.players.length > 1 && outcomes.some(({ filed }) => filed !== undefined);

/** No file of ours is as large as this; more would only make the browser swap. */
const MOST_BYTES = 512 * 1024 * 1024;

async function readFile(file: File, { state }: Context, reader: FileReader): Promise<FileRead> {
  if (file.size > MOST_BYTES) {
    throw new InputError('file', 'must be under 512 MB', `${Math.round(file.size / 1e6)} MB`);
  }
  const { phrase, bpm } = state();
  const recordedAt = new Date(file.lastModified).toISOString();
  return reader.read(file, { fileName: file.name, recordedAt, chosen: { phrase, bpm } });
}

/** What is in a file, each thing by itself. */
async function allAdded(read: FileRead, context: Context, keepers: Keepers): Promise<readonly Added[]> {
  if (read.kind !== 'takes') return [await added(read, context, keepers)];
  const all: Added[] = [];
  for (const take of read.takes) all.push(await addedTake(take, context, keepers));
  return read.refused.length === 0 ? all : [...all, { words: '', refused: read.refused }];
}

async function added(
  read: Exclude<FileRead, { readonly kind: 'takes' }>,
  context: Context,
  keepers: Keepers,
): Promise<Added> {
  switch (read.kind) {
    case 'take': {
      const { take, report, byChosen } = read;
      if (report !== null) remember(take, report);
      const its = await addedTake(take, context, keepers);
      const { phrase, tempo } = take;
      const bpm = 'bpm' in tempo ? tempo.bpm : tempo.ramp[0].bpm;
      return byChosen ? { ...its, words: `${its.words}, graded as ${phrase.title} at ${bpm} bpm` } : its;
    }
    case 'phrase':
      await keepers.phrases.add(read.phrase);
      return { words: 'a phrase, kept among yours', show: () => undefined };
    case 'rig': {
      const { rig } = read;
      keepers.rigs.add(rig);
      return { words: `a rig, ${rig.name === '' ? rig.id : rig.name}`, show: () => undefined };
    }
    case 'week sheet':
      return addedSheet(read.sheet, context, keepers);
    case 'library': {
      const words = await keepers.backup.restore(read.library);
      return { words, refused: read.refused.map(({ reason }) => reason) };
    }
  }
}

async function addedTake(take: Take, context: Context, { takes, unkept }: Keepers): Promise<Added> {
  const store = context.store();
  const before = (await store.record(take.id))?.playerId ?? '';
  const about = `a take of ${take.recordedAt.slice(0, 10)}, ${take.phrase.title}`;
  if (!(await unkept.keep(take, 'file'))) {
    return { words: `${about}, to look at: it could not be kept`, show: () => takes.show(take) };
  }
  const owner = ownerOfTake(take, { ...(await whoIsHere(context)), before });
  await store.give([take.id], owner?.playerId ?? '');
  const { sentence, graded } = describedTake(take);
  await store.describe(take.id, sentence, graded);
  return {
    words: `${about}${await reachedWords(take, context)}`,
    filed: {
      ...filedWith(owner),
      kind: 'take',
      id: take.id,
      named: { id: take.playerId ?? '', name: take.player.trim() },
    },
    ...(isToShow(owner, context) ? { show: () => takes.review(take) } : {}),
  };
}

/** A week sheet that comes: its player's, whoever has the turn. */
async function addedSheet(sheet: WeekSheet, context: Context, { sheets }: Keepers): Promise<Added> {
  const owner = ownerOfSheet(sheet, await whoIsHere(context));
  await sheets.keep(sheet, owner?.playerId ?? '');
  return {
    words: `a week sheet, ${exercisesOf(sheet)
      .map(({ phrase }) => phrase.title)
      .join('; ')}`,
    filed: {
      ...filedWith(owner),
      kind: 'week sheet',
      id: sheet.id,
      named: { id: '', name: sheet.student.trim() },
    },
    ...(owner !== undefined && isToShow(owner, context)
      ? { show: () => context.dispatch({ kind: 'play sheet', sheet }) }
      : {}),
  };
}

/** What is another player's doesn't come onto the page of who has the turn. */
const isToShow = (owner: Owner | undefined, { state }: Context): boolean =>
  owner === undefined || [state().library.playerId, TEACHER].includes(owner.playerId);

const filedWith = (owner: Owner | undefined): Pick<Filed, 'playerId' | 'by'> =>
  owner ?? { playerId: '', by: null };

async function whoIsHere({ store }: Context): Promise<Known> {
  const [players, sheets] = await Promise.all([store().all('players'), store().all('sheets')]);
  return { players, sheets };
}

/** How many targets of its week sheet it met; empty where it was played to none. */
async function reachedWords(take: Take, { store }: Context): Promise<string> {
  const kept = (await store().all('sheets')).find(({ id }) => id === take.sheetId);
  if (kept === undefined) return '';
  try {
    const sheet = weekSheetFrom(kept.file);
    const report = gradeTake(take);
    const outcomes = exercisesWith(sheet, take.phrase).flatMap((one) =>
      targetsMet({ ...one, limits: sheet.limits }, [{ take, report }]),
    );
    const met = outcomes.filter(({ outcome }) => outcome === 'met').length;
    return outcomes.length === 0 ? '' : `, ${met} of ${outcomes.length} targets of its week sheet met`;
  } catch (error) {
    if (error instanceof InputError) return '';
    throw error;
  }
}
