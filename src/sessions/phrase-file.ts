import * as v from 'valibot';
import type { Phrase, Tempo } from '../exercises/types';
import type { Bpm } from '../units';
import { checked, parsedJson, type Format } from './read-json';
import { bpm, filled, isoDate, phrase, tempo } from './schema';
import { checkBars } from './take';

/** `evenhand-phrase`, version 1: a phrase to keep and to share, with the tempo it was worked at. */
export interface PhraseFile {
  readonly format: 'evenhand-phrase';
  readonly version: 1;
  readonly name: string;
  readonly phrase: Phrase;
  readonly bpm: Bpm;
  /** The whole of it where it doesn't stay; it begins with `bpm`. */
  readonly tempo?: Tempo;
  /** ISO 8601, when it was kept: of two of one name the newer wins. */
  readonly changedAt?: string;
}

export const phraseSchema = v.looseObject({
  format: v.literal('evenhand-phrase', 'must be "evenhand-phrase"'),
  version: v.literal(1, 'must be 1'),
  name: filled,
  phrase,
  bpm,
  tempo: v.exactOptional(tempo),
  changedAt: v.exactOptional(isoDate),
});

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
  const file = checked(data, format) as PhraseFile;
  checkBars(file.phrase);
  return file;
}

export function writePhraseFile(file: PhraseFile): string {
  return `${JSON.stringify(file, undefined, 2)}\n`;
}
