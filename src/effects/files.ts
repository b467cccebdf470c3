import { InputError } from '../errors';
import type { AddedFile } from '../state/library';
import { gradeTake } from '../take/grade-take';
import { playerName, type Player } from '../sessions/player';
import { parsedJson } from '../sessions/read-json';
import { readRigFile } from '../sessions/rig-file';
import { takeFrom } from '../sessions/take';
import type { Take } from '../sessions/types';
import { targetsMet } from '../sessions/week/targets-met';
import { readWeekSheet, weekSheetFrom, type WeekSheet } from '../sessions/week-sheet';
import type { Effects } from '../state/dispatcher';
import type { Backup } from './backup';
import type { Context } from './context';
import { describedTake } from './graded-once';
import { queue } from './queue';
import { saveFile } from './save-file';
import type { Takes } from './takes';
import type { Unkept } from './unkept';

/** Whoever keeps what is in a file. */
interface Keepers {
  readonly refresh: () => Promise<void>;
  readonly takes: Takes;
  readonly unkept: Unkept;
  readonly phrases: { add(file: File): Promise<void> };
  readonly rigs: { add(file: File): Promise<void> };
  readonly sheets: { keep(sheet: WeekSheet, playerId: string): Promise<void> };
  readonly backup: Backup;
}

/** What became of one file, and what to show because of it. */
interface Added {
  readonly words: string;
  readonly refused?: readonly string[];
  readonly show?: () => Promise<void> | void;
}

/**
 * Adds files that were dropped or chosen, whatever they are: each is read and kept by itself, so that a bad one stops none
 * of the others; what the last good one is about is shown.
 * @param opened what is dropped before the library is open would be kept nowhere
 */
export function fileEffects(context: Context, keepers: Keepers, opened: () => Promise<unknown>) {
  const { dispatch, attempt } = context;
  // Two drops in a row: what the later one is about stays on the page.
  const inOrder = queue();

  async function add(files: readonly File[]): Promise<void> {
    const outcomes: AddedFile[] = [];
    let show: Added['show'];
    dispatch({ kind: 'library', change: { files: [] } });
    for (const file of files) {
      try {
        const added = await addedFile(file, context, keepers);
        outcomes.push({ name: file.name, added: true, words: added.words });
        outcomes.push(...(added.refused ?? []).map((words) => ({ name: file.name, added: false, words })));
        show = added.show ?? show;
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        outcomes.push({ name: file.name, added: false, words: error.message });
      }
    }
    // A take can be looked at though nothing can be read of the library.
    const refreshed = keepers.refresh();
    await Promise.allSettled([refreshed]);
    await show?.();
    if (outcomes.length === 1 && !outcomes[0].added) {
      dispatch({ kind: 'problem', problem: `${outcomes[0].name}: ${outcomes[0].words}` });
    } else if (outcomes.length > 1 || show === undefined) {
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
    'save file': ({ name, blob }) => saveFile(name, blob),
  } satisfies Effects['on'];
  return { on };
}

const MIDI_HEADER = 'MThd';
/** No file of ours is as large as this; more would only make the page hang. */
const MOST_BYTES = 512 * 1024 * 1024;

async function addedFile(file: File, context: Context, keepers: Keepers): Promise<Added> {
  if (file.size > MOST_BYTES) {
    throw new InputError('file', 'must be under 512 MB', `${Math.round(file.size / 1e6)} MB`);
  }
  const isMidi = (await file.slice(0, 4).text()) === MIDI_HEADER;
  if (isMidi) return addedMidi(file, context, keepers);
  const text = await file.text();
  const data = parsedJson(text);
  switch (formatOf(data)) {
    case 'evenhand-take':
      return addedTake(takeFrom(data), context, keepers);
    case 'evenhand-phrase': {
      await keepers.phrases.add(file);
      return { words: 'a phrase, kept among yours', show: () => undefined };
    }
    case 'evenhand-rig': {
      const { rig } = readRigFile(text);
      await keepers.rigs.add(file);
      return { words: `a rig, ${rig.name === '' ? rig.id : rig.name}`, show: () => undefined };
    }
    case 'evenhand-week': {
      const sheet = readWeekSheet(text);
      await keepers.sheets.keep(sheet, ownerOf(sheet.student, undefined, context));
      return {
        words: `a week sheet, ${sheet.phrase.title}`,
        show: () => context.dispatch({ kind: 'play sheet', sheet }),
      };
    }
    case 'evenhand-library':
      return keepers.backup.restore(text);
    default:
      throw new InputError(
        'format',
        'must be that of a take, phrase, rig, week sheet or library',
        formatOf(data) ?? null,
      );
  }
}

function formatOf(data: unknown): unknown {
  return typeof data === 'object' && data !== null ? (data as { format?: unknown }).format : undefined;
}

/** By the phrase that it carries; a foreign one against what is on the context. */
async function addedMidi(file: File, context: Context, keepers: Keepers): Promise<Added> {
  const { takeFromMidi } = await import('../midi/standard-midi-file');
  const bytes = new Uint8Array(await file.arrayBuffer());
  const recordedAt = new Date(file.lastModified).toISOString();
  const how = { fileName: file.name, recordedAt };
  try {
    return await addedTake(takeFromMidi(bytes, how), context, keepers);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const { phrase, bpm } = context.state();
    const added = await addedTake(takeFromMidi(bytes, { ...how, phrase, bpm }), context, keepers);
    return { ...added, words: `${added.words}, graded as ${phrase.title} at ${bpm} bpm` };
  }
}

async function addedTake(take: Take, context: Context, { takes, unkept }: Keepers): Promise<Added> {
  const { store } = context;
  const about = `a take of ${take.recordedAt.slice(0, 10)}, ${take.phrase.title}`;
  if (!(await unkept.keep(take, 'file'))) {
    return { words: `${about}, to look at: it could not be kept`, show: () => takes.show(take) };
  }
  const playerId = await takesOwner(take, context);
  await store().give([take.id], playerId);
  const { sentence, graded } = describedTake(take);
  await store().describe(take.id, sentence, graded);
  const { players } = context.state().library;
  const owner = players.find(({ id }) => id === playerId);
  const whose = players.length < 2 || owner === undefined ? '' : `, given to ${playerName(owner)}`;
  return {
    words: `${about}${whose}${await reachedWords(take, context)}`,
    show: () => takes.review(take),
  };
}

/** How many targets of its week sheet it met; empty where it was played to none. */
async function reachedWords(take: Take, { store }: Context): Promise<string> {
  const kept = (await store().all('sheets')).find(({ id }) => id === take.sheetId);
  if (kept === undefined) return '';
  try {
    const outcomes = targetsMet(weekSheetFrom(kept.file), [{ take, report: gradeTake(take) }]);
    const met = outcomes.filter(({ outcome }) => outcome === 'met').length;
    return outcomes.length === 0 ? '' : `, ${met} of ${outcomes.length} targets of its week sheet met`;
  } catch (error) {
    if (error instanceof InputError) return '';
    throw error;
  }
}

/** Whose take it is: by its id, by its name, by the week sheet it was played to; else theirs whose turn it is. */
async function takesOwner(take: Take, context: Context): Promise<string> {
  const { sheetId } = take;
  const sheets = sheetId === undefined ? [] : await context.store().all('sheets');
  const sheet = sheets.find(({ id }) => id === sheetId);
  return ownerOf(take.player, take.playerId ?? sheet?.playerId, context);
}

function ownerOf(name: string, id: string | undefined, context: Context): string {
  const { players, playerId } = context.state().library;
  const isNamed = (player: Player): boolean =>
    name !== '' && player.name.toLowerCase() === name.trim().toLowerCase();
  const found = players.find((player) => player.id === id) ?? players.find(isNamed);
  return found?.id ?? playerId;
}
