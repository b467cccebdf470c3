import * as v from 'valibot';
import { InputError } from '../errors';
import { itemsFrom, type LibraryItems, type Refused } from './library/items';
import { checked, parsedJson, type Format } from './read-json';
import { isoDate } from './schema';

export type { LibraryTake } from './library/items';
export { mergeLibrary, type MergeRow } from './library/merge';

/**
 * `evenhand-library`, version 1: everything a browser keeps, as one file to restore or to take along. Takes come with what
 * lists and History show of them, so that nothing need be graded again.
 */
export interface Library extends LibraryItems {
  readonly format: 'evenhand-library';
  readonly version: 1;
  /** ISO 8601. */
  readonly savedAt: string;
}

const anything = v.array(v.unknown(), 'must be a list');

/** The outside of the file; what lies in its lists is checked one by one. */
export const librarySchema = v.looseObject({
  format: v.literal('evenhand-library', 'must be "evenhand-library"'),
  version: v.literal(1, 'must be 1'),
  savedAt: isoDate,
  players: anything,
  phrases: anything,
  rigs: anything,
  sheets: anything,
  notes: anything,
  takes: anything,
});

const format: Format<typeof librarySchema> = {
  format: 'evenhand-library',
  version: 1,
  schema: librarySchema,
};

/**
 * A library from the text of a `.library.json` file. One thing in it that is unsound is refused with its place, and
 * stops none of the others.
 * @throws InputError for a file that is no library at all: no JSON, cut off, foreign, newer, without its lists
 */
export function readLibrary(json: string): LibraryRead {
  return libraryFrom(parsedJson(json));
}

interface LibraryRead {
  readonly library: Library;
  readonly refused: readonly Refused[];
}

/** The same from data that is parsed already. */
export function libraryFrom(given: unknown): LibraryRead {
  const data = checked(given, format);
  const { items, refused } = itemsFrom(data);
  return { library: { format: 'evenhand-library', version: 1, savedAt: data.savedAt, ...items }, refused };
}

/** The text of a `.library.json` file, a line a thing: a backup of years must stay writable in one go. */
export function writeLibrary({ format: name, version, savedAt, ...items }: Library): string {
  const lists = Object.entries(items).map(([list, things]) => {
    const rows = (things as readonly unknown[]).map((thing) => `\n    ${JSON.stringify(thing)}`).join(',');
    return `  ${JSON.stringify(list)}: [${rows}${rows === '' ? '' : '\n  '}]`;
  });
  const head = [
    `  "format": ${JSON.stringify(name)}`,
    `  "version": ${version}`,
    `  "savedAt": ${JSON.stringify(savedAt)}`,
  ];
  return `{\n${[...head, ...lists].join(',\n')}\n}\n`;
}

/** A library of these things. @throws InputError for a date that is none */
export function libraryOf(items: LibraryItems, savedAt: string): Library {
  if (Number.isNaN(Date.parse(savedAt))) throw new InputError('savedAt', 'must be a date', savedAt);
  return { format: 'evenhand-library', version: 1, savedAt, ...items };
}
