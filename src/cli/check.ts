import { parseArgs } from 'node:util';
import { InputError } from '../errors';
import { carriedBy } from '../midi/smf/carried';
import { readMidi, takeFromMidi } from '../midi/standard-midi-file';
import { readLibrary } from '../sessions/library';
import { readPhraseFile } from '../sessions/phrase-file';
import { readRigFile } from '../sessions/rig-file';
import { parsedJson } from '../sessions/read-json';
import { returnedFrom } from '../sessions/returned-takes';
import { readTake } from '../sessions/take';
import type { Take } from '../sessions/types';
import { exercisesOf } from '../sessions/week/exercises';
import { readWeekSheet } from '../sessions/week-sheet';
import { gradeTake } from '../take/grade-take';
import { strict, type Log } from './log';
import { convertedTake } from './convert';
import { isMidi } from './foreign';
import { onBehalfOf, readBytes } from './io';
import { shownName } from './shown';
import { eachFile, takeFiles } from './take-files';
import { UsageError } from './usage';
import { counted } from '../text';

/**
 * `check FILE…`: a line a sound file; the others are told on standard error. A take that is called sound can be graded and converted:
 * both are tried.
 */
export function check(args: readonly string[], log: Log = strict): string {
  const { positionals } = parseArgs({ args: [...args], options: {}, allowPositionals: true });
  if (positionals.length === 0) throw new UsageError('check wants a file');
  const lines = eachFile(takeFiles(positionals, log), log, (file) => {
    const bytes = readBytes(file);
    return shownName(`${file}: sound, ${onBehalfOf(file, () => wordsOf(file, bytes))}`);
  });
  return lines.map((line) => `${line}\n`).join('');
}

/** What is in a file, by its ending. @throws InputError where it is not sound */
function wordsOf(file: string, bytes: Uint8Array): string {
  if (isMidi(file, bytes)) return midiWords(file, bytes);
  return readerOf(file)(new TextDecoder().decode(bytes));
}

/** A file that carries its take or phrase is read as grading would; of any other only its notes can be told. */
function midiWords(fileName: string, bytes: Uint8Array): string {
  const contents = readMidi(bytes);
  const found = carriedBy(contents);
  if (found === undefined) {
    const notes = contents.tracks.reduce((sum, track) => sum + track.notes.length, 0);
    return `MIDI file without a phrase, ${counted(notes, 'note')}`;
  }
  const take = takeFromMidi(bytes, { fileName });
  if (found.carried.kind === 'take') return `MIDI file with a ${takeWords(take)}`;
  return `MIDI file with the phrase "${take.phrase.title}", ${paceOf(take)}, ${counted(take.hits.length, 'note')}`;
}

/** What reads a text file and says what is in it; a take where its ending is none that is known. */
function readerOf(file: string): (text: string) => string {
  const ending = /\.(phrase|rig|week|library|takes)\.json$/i.exec(file)?.[1].toLowerCase();
  switch (ending) {
    case 'phrase':
      return (text) => `phrase "${readPhraseFile(text).name}"`;
    case 'rig':
      return (text) => `rig "${readRigFile(text).rig.name}"`;
    case 'week':
      return (text) => {
        const all = exercisesOf(readWeekSheet(text)).map(
          ({ phrase, bpm, targets }) => `"${phrase.title}", ${bpm} bpm, ${counted(targets.length, 'target')}`,
        );
        return `week sheet of ${all.join('; ')}`;
      };
    case 'library':
      return libraryWords;
    case 'takes':
      return returnedWords;
    default:
      return (text) => takeWords(readTake(text));
  }
}

function libraryWords(text: string): string {
  const { library, refused } = readLibrary(text);
  if (refused.length > 0) throw new InputError(refused.map(({ reason }) => reason).join('; '), '');
  return `library of ${counted(library.takes.length, 'take')}, ${counted(library.players.length, 'player')}`;
}

function returnedWords(text: string): string {
  const { takes, refused } = returnedFrom(parsedJson(text));
  if (refused.length > 0) throw new InputError(refused.join('; '), '');
  takes.forEach(takeWords);
  return counted(takes.length, 'take');
}

function takeWords(take: Take): string {
  const { phrase, hits, source } = take;
  gradeTake(take);
  convertedTake(take, 'x.mid');
  convertedTake(take, 'x.take.json');
  return `${source} take of "${phrase.title}", ${paceOf(take)}, ${hits.length} hits`;
}

const paceOf = ({ tempo }: Take): string => ('bpm' in tempo ? `${tempo.bpm} bpm` : 'tempo by a ramp');
