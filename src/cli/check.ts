import { parseArgs } from 'node:util';
import { InputError } from '../errors';
import { gridOf } from '../exercises/grid';
import { readLibrary } from '../sessions/library';
import { readPhraseFile } from '../sessions/phrase-file';
import { readRigFile } from '../sessions/rig-file';
import { readTake } from '../sessions/take';
import { readWeekSheet } from '../sessions/week-sheet';
import { onBehalfOf, readText, UsageError } from './io';

/** `check FILE…`: a line a file; exit 3 where one is not sound, with every bad one named. */
export function check(args: readonly string[]): string {
  const { positionals } = parseArgs({ args: [...args], options: {}, allowPositionals: true });
  if (positionals.length === 0) throw new UsageError('check wants a file');
  const bad: string[] = [];
  const good: string[] = [];
  for (const file of positionals) {
    try {
      const text = readText(file);
      good.push(`${file}: sound, ${onBehalfOf(file, () => readerOf(file)(text))}\n`);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      bad.push(error.message.trim());
    }
  }
  if (bad.length > 0) throw new InputError(bad.join(' · '), '');
  return good.join('');
}

/** What reads a file and says what is in it, by the file's ending; a take where it has none that is known. */
function readerOf(file: string): (text: string) => string {
  const ending = /\.(phrase|rig|week|library)\.json$/i.exec(file)?.[1].toLowerCase();
  switch (ending) {
    case 'phrase':
      return (text) => `phrase "${readPhraseFile(text).name}"`;
    case 'rig':
      return (text) => `rig "${readRigFile(text).rig.name}"`;
    case 'week':
      return (text) => {
        const { phrase, bpm, targets } = readWeekSheet(text);
        return `week sheet of "${phrase.title}", ${bpm} bpm, ${numbered(targets.length, 'target')}`;
      };
    case 'library':
      return libraryWords;
    default:
      return takeWords;
  }
}

function libraryWords(text: string): string {
  const { library, refused } = readLibrary(text);
  if (refused.length > 0) throw new InputError(refused.map(({ reason }) => reason).join('; '), '');
  return `library of ${numbered(library.takes.length, 'take')}, ${numbered(library.players.length, 'player')}`;
}

const numbered = (n: number, noun: string): string => `${n} ${noun}${n === 1 ? '' : 's'}`;

function takeWords(text: string): string {
  const { phrase, tempo, hits, downbeatMs, source } = readTake(text);
  gridOf(phrase, tempo, downbeatMs ?? 0, phrase.bars.length);
  const pace = 'bpm' in tempo ? `${tempo.bpm} bpm` : 'tempo by a ramp';
  return `${source} take of "${phrase.title}", ${pace}, ${hits.length} hits`;
}
