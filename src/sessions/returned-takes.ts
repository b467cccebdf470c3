import * as v from 'valibot';
import { InputError } from '../errors';
import { checked, type Format } from './read-json';
import { filled, isoDate } from './schema';
import { takeFrom } from './take';
import type { Take } from './types';

/** `evenhand-takes`, version 1: takes that go together in one file, those of a week sheet back to the teacher. */
export const returnedSchema = v.looseObject({
  format: v.literal('evenhand-takes', 'must be "evenhand-takes"'),
  version: v.literal(1, 'must be 1'),
  /** The week sheet they were played to; each take says so itself, too. */
  sheetId: v.exactOptional(filled),
  savedAt: isoDate,
  /** Each as `evenhand-take` says. */
  takes: v.array(v.unknown(), 'must be a list of takes'),
});
const format: Format<typeof returnedSchema> = {
  format: 'evenhand-takes',
  version: 1,
  schema: returnedSchema,
};

/** What is in such a file: the takes that read, and why the others don't. */
export interface ReturnedTakes {
  readonly takes: readonly Take[];
  readonly refused: readonly string[];
}

/** @throws InputError for a foreign or newer file */
export function returnedFrom(data: unknown): ReturnedTakes {
  const takes: Take[] = [];
  const refused: string[] = [];
  checked(data, format).takes.forEach((one, index) => {
    try {
      takes.push(takeFrom(one));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      refused.push(error.within(`takes[${index}]`).message);
    }
  });
  return { takes, refused };
}

export function writeReturned(takes: readonly Take[], sheetId: string, savedAt: string): string {
  return `${JSON.stringify({ format: 'evenhand-takes', version: 1, sheetId, savedAt, takes })}\n`;
}
