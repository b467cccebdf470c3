import * as v from 'valibot';
import { checked, parsedJson, type Format } from './read-json';
import { bpm, filled, isoDate, phrase, tempo } from './schema';
import type { Stored } from './stored';
import { checkBars } from './take';

/** `evenhand-phrase`, version 1: a phrase to keep and to share, with the tempo it was worked at. */
export const phraseSchema = v.looseObject({
  format: v.literal('evenhand-phrase', 'must be "evenhand-phrase"'),
  version: v.literal(1, 'must be 1'),
  name: filled,
  phrase,
  bpm,
  /** The whole of it where it doesn't stay; it begins with `bpm`. */
  tempo: v.exactOptional(tempo),
  /** When it was kept: of two of one name the newer wins. */
  changedAt: v.exactOptional(isoDate),
});

export type PhraseFile = Stored<typeof phraseSchema>;

const format: Format<typeof phraseSchema> = { format: 'evenhand-phrase', version: 1, schema: phraseSchema };

/**
 * A phrase from the text of a `.phrase.json` file. Unknown keys survive.
 * @throws InputError at the place that breaks a rule
 */
export function readPhraseFile(json: string): PhraseFile {
  return phraseFileFrom(parsedJson(json));
}

/** The same from data that is parsed already, as a store gives it. */
export function phraseFileFrom(data: unknown): PhraseFile {
  const file: PhraseFile = checked(data, format);
  checkBars(file.phrase);
  return file;
}

export function writePhraseFile(file: PhraseFile): string {
  return `${JSON.stringify(file, undefined, 2)}\n`;
}
