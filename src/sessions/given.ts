import * as v from 'valibot';
import { InputError } from '../errors';
import { checked, type Format } from './read-json';
import { isoDate, oneOf, text } from './schema';
import type { KeptFile } from './store-types';
import type { Stored } from './stored';

/** `evenhand-given`, version 1: what a teacher gave a student, as it was then. It lies among the notes of a library. */
export const givenSchema = v.looseObject({
  format: v.literal('evenhand-given', 'must be "evenhand-given"'),
  version: v.literal(1, 'must be 1'),
  /** When. */
  at: isoDate,
  what: oneOf(['note', 'week sheet', 'term report']),
  /** How it was given. */
  as: oneOf(['page', 'Markdown', 'file', 'print']),
  /** The name that stood on it. */
  student: text,
  /** What it was about: a phrase and its tempo, the days of a term. */
  title: text,
  words: text,
  target: text,
});
export type Given = Omit<Stored<typeof givenSchema>, 'format' | 'version'>;

const format: Format<typeof givenSchema> = { format: 'evenhand-given', version: 1, schema: givenSchema };

/** As the library keeps it, with whose it is. */
export function keptGiven(given: Given, playerId: string, id: string): KeptFile {
  const { at } = given;
  return { id, playerId, changedAt: at, file: { format: 'evenhand-given', version: 1, ...given } };
}

/** What was given, of all that lies among the notes, newest first. */
export function givenFrom(notes: readonly KeptFile[]): readonly Given[] {
  const found = notes.flatMap(({ file }) => {
    try {
      return [checked(file, format)];
    } catch (error) {
      if (error instanceof InputError) return [];
      throw error;
    }
  });
  return found.sort((a, b) => (a.at < b.at ? 1 : -1));
}

/** Whether the newest of these says the very same: then it was printed and sent, say, and is one thing. */
export function isGivenAlready(all: readonly Given[], given: Given): boolean {
  const same = ['what', 'student', 'title', 'words', 'target'] as const;
  const before = all.find(({ what }) => what === given.what);
  return (
    before !== undefined &&
    before.at.slice(0, 10) === given.at.slice(0, 10) &&
    same.every((key) => before[key] === given[key])
  );
}
