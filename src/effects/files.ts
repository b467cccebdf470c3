import { InputError } from '../errors';
import type { FileTold } from '../state/library';
import { gradeTake } from '../take/grade-take';
import { playerName, type Player } from '../sessions/player';
import { parsedJson } from '../sessions/read-json';
import { readRigFile } from '../sessions/rig-file';
import { takeFrom } from '../sessions/take';
import type { Take } from '../sessions/types';
import { targetsMet } from '../sessions/week/targets-met';
import { readWeekSheet, weekSheetFrom } from '../sessions/week-sheet';
import type { BackupDesk } from './backup';
import type { Desk } from './page-effects';
import { inTurn } from './queue';
import type { KeepingDesk } from './library';
import type { PhraseDesk } from './phrases';
import type { RigDesk } from './rigs';
import type { SheetDesk } from './sheets';
import { toldOf } from './graded-once';
import { type TakeDesk } from './takes';

interface Desks {
  readonly keeping: KeepingDesk;
  readonly takes: TakeDesk;
  readonly phrases: PhraseDesk;
  readonly rigs: RigDesk;
  readonly sheets: SheetDesk;
  readonly backup: BackupDesk;
}

/** What became of one file, and what to show because of it. */
interface Taken {
  readonly words: string;
  readonly refused?: readonly string[];
  readonly show?: () => Promise<void> | void;
}

/**
 * Takes in files that were dropped or chosen, whatever they are: each is read and kept by itself, so that a bad one
 * stops none of the others; what the last good one is about is shown.
 */
export function fileIntake(desk: Desk, desks: Desks): (files: readonly File[]) => Promise<void> {
  const { say } = desk;
  // Two drops in a row: what the later one is about stays on the page.
  const turn = inTurn();
  return (files) => turn(() => taken(files));

  async function taken(files: readonly File[]): Promise<void> {
    const told: FileTold[] = [];
    let show: Taken['show'];
    say({ kind: 'keeping', change: { files: [] } });
    for (const file of files) {
      try {
        const taken = await takenIn(file, desk, desks);
        told.push({ name: file.name, taken: true, words: taken.words });
        told.push(...(taken.refused ?? []).map((words) => ({ name: file.name, taken: false, words })));
        show = taken.show ?? show;
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        told.push({ name: file.name, taken: false, words: error.message });
      }
    }
    await desks.keeping.refresh();
    await show?.();
    if (told.length === 1 && !told[0].taken) {
      say({ kind: 'problem', problem: `${told[0].name}: ${told[0].words}` });
    } else if (told.length > 1 || show === undefined) say({ kind: 'keeping', change: { files: told } });
  }
}

const MIDI_HEADER = 'MThd';
/** No file of ours is as large as this; more would only make the page hang. */
const MOST_BYTES = 512 * 1024 * 1024;

async function takenIn(file: File, desk: Desk, desks: Desks): Promise<Taken> {
  if (file.size > MOST_BYTES) {
    throw new InputError('file', 'must be under 512 MB', `${Math.round(file.size / 1e6)} MB`);
  }
  const isMidi = (await file.slice(0, 4).text()) === MIDI_HEADER;
  if (isMidi) return midiTaken(file, desk, desks);
  const text = await file.text();
  const data = parsedJson(text);
  switch (formatOf(data)) {
    case 'evenhand-take':
      return takeKept(takeFrom(data), desk, desks);
    case 'evenhand-phrase': {
      await desks.phrases.take(file);
      return { words: 'a phrase, kept among yours', show: () => undefined };
    }
    case 'evenhand-rig': {
      const { rig } = readRigFile(text);
      await desks.rigs.take(file);
      return { words: `a rig, ${rig.name === '' ? rig.id : rig.name}`, show: () => undefined };
    }
    case 'evenhand-week': {
      const sheet = readWeekSheet(text);
      await desks.sheets.keep(sheet, ownerOf(sheet.student, undefined, desk));
      return { words: `a week sheet, ${sheet.phrase.title}`, show: () => desks.sheets.open(sheet) };
    }
    case 'evenhand-library':
      return desks.backup.restore(text);
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

/** By the phrase that it carries; a foreign one against what is on the desk. */
async function midiTaken(file: File, desk: Desk, desks: Desks): Promise<Taken> {
  const { takeFromMidi } = await import('../midi/standard-midi-file');
  const bytes = new Uint8Array(await file.arrayBuffer());
  const recordedAt = new Date(file.lastModified).toISOString();
  const how = { fileName: file.name, recordedAt };
  try {
    return await takeKept(takeFromMidi(bytes, how), desk, desks);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const { phrase, bpm } = desk.sitting();
    const taken = await takeKept(takeFromMidi(bytes, { ...how, phrase, bpm }), desk, desks);
    return { ...taken, words: `${taken.words}, graded as ${phrase.title} at ${bpm} bpm` };
  }
}

async function takeKept(take: Take, desk: Desk, { takes }: Desks): Promise<Taken> {
  const { store } = desk;
  const playerId = await takesOwner(take, desk);
  await store().put(take);
  await store().give([take.id], playerId);
  const { sentence, graded } = toldOf(take);
  await store().describe(take.id, sentence, graded);
  const { players } = desk.sitting().keeping;
  const owner = players.find(({ id }) => id === playerId);
  const whose = players.length < 2 || owner === undefined ? '' : `, given to ${playerName(owner)}`;
  const day = take.recordedAt.slice(0, 10);
  return {
    words: `a take of ${day}, ${take.phrase.title}${whose}${await reachedWords(take, desk)}`,
    show: () => takes.review(take),
  };
}

/** How many targets of its week sheet it met; empty where it was played to none. */
async function reachedWords(take: Take, { store }: Desk): Promise<string> {
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
async function takesOwner(take: Take, desk: Desk): Promise<string> {
  const { sheetId } = take;
  const sheets = sheetId === undefined ? [] : await desk.store().all('sheets');
  const sheet = sheets.find(({ id }) => id === sheetId);
  return ownerOf(take.player, take.playerId ?? sheet?.playerId, desk);
}

function ownerOf(name: string, id: string | undefined, desk: Desk): string {
  const { players, playerId } = desk.sitting().keeping;
  const isNamed = (player: Player): boolean =>
    name !== '' && player.name.toLowerCase() === name.trim().toLowerCase();
  const found = players.find((player) => player.id === id) ?? players.find(isNamed);
  return found?.id ?? playerId;
}
