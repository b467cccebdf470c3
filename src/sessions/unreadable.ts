import * as v from 'valibot';
import { InputError } from '../errors';
import { gradedSchema } from './graded-schema';
import { readers } from './library/items';
import type { StoreDb } from './store-connection';
import { filled, finite, isoDate, oneOf, text } from './schema';
import {
  collections,
  type CollectionName,
  type Collections,
  type KeptFile,
  type Unreadable,
} from './store-types';
import { takeFrom } from './take';
import { schemaOf } from './stored';
import { summaryOf, type TakeSummary } from './take-record';
import { saysItIs } from './teacher';

const rest = {
  id: filled,
  title: text,
  player: text,
  playerId: text,
  recordedAt: isoDate,
  source: oneOf(['played', 'model', 'imported']),
  bpm: finite,
  hits: finite,
  phraseKey: text,
  rigId: text,
  rigName: text,
  limits: oneOf(['first year', 'working', 'recital']),
  minutes: finite,
  cold: v.nullable(v.boolean()),
  sheetId: text,
  remedy: text,
  sentence: text,
};
const record = schemaOf<TakeSummary>()(v.looseObject({ ...rest, graded: v.nullable(gradedSchema) }));
const recordUngraded = schemaOf<Omit<TakeSummary, 'graded'>>()(v.looseObject(rest));

/**
 * A record as a store gives it; undefined where it is unsound. One of which only the figures are unsound is as of a take
 * that was never graded: they can be found again.
 */
export function soundRecord(data: unknown): TakeSummary | undefined {
  const whole = v.safeParse(record, data);
  if (whole.success) return whole.output;
  const ungraded = v.safeParse(recordUngraded, data);
  return ungraded.success ? { ...ungraded.output, sentence: '', graded: null } : undefined;
}

/** Everything of a collection that reads, and what doesn't: one bad thing hides none of the others. */
export async function sorted<Name extends CollectionName>(
  db: StoreDb,
  from: Name,
): Promise<{ readonly sound: readonly Collections[Name][]; readonly unreadable: readonly Unreadable[] }> {
  const sound: Collections[Name][] = [];
  const unreadable: Unreadable[] = [];
  for (const { key, value, failed } of await entriesOf(db, from)) {
    const reason = failed ?? whyUnsound(() => readers[from](value));
    // As it was put there, unknown keys and all.
    if (reason === undefined) sound.push(value as Collections[Name]);
    else unreadable.push({ from, key, reason, value });
  }
  return { sound, unreadable };
}

/** One player's files of a collection that read, found without reading all others'. */
export async function soundFilesOf(
  db: StoreDb,
  from: 'sheets' | 'notes',
  playerId: string,
): Promise<readonly KeptFile[]> {
  try {
    const files = await db.getAllFromIndex(from, 'player', playerId);
    return files.filter((file) => whyUnsound(() => readers[from](file)) === undefined);
  } catch (error) {
    if (!isUnreadable(error)) throw error;
    return (await sorted(db, from)).sound.filter((file) => file.playerId === playerId);
  }
}

/**
 * All that can't be read, of every collection and of the takes that are in no list. Records of takes are only a way to be
 * quick: one that can't be read, or is missing, is made again from its take.
 * @param unsound ids of records that were found unsound when they were read
 */
export async function unreadable(db: StoreDb, unsound: ReadonlySet<string>): Promise<readonly Unreadable[]> {
  const all: Unreadable[] = [];
  for (const from of collections) all.push(...(await sorted(db, from)).unreadable);
  for (const key of await unlisted(db, unsound)) {
    const { value, failed } = await valueOf(db, 'takes', key);
    const reason = failed ?? whyUnsound(() => takeFrom(value));
    if (reason !== undefined) all.push({ from: 'takes', key, reason, value });
    else await relist(db, key);
  }
  return all;
}

/** Takes without a record that a list could have. */
async function unlisted(db: StoreDb, unsound: ReadonlySet<string>): Promise<readonly string[]> {
  const [takes, dated, owned] = await Promise.all([
    db.getAllKeys('takes'),
    db.getAllKeysFromIndex('summaries', 'when'),
    db.getAllKeysFromIndex('summaries', 'player'),
  ]);
  const ownedIds = new Set(owned);
  const listed = new Set(dated.filter((id) => ownedIds.has(id) && !unsound.has(id)));
  return takes.filter((id) => !listed.has(id));
}

async function relist(db: StoreDb, key: string): Promise<void> {
  const change = db.transaction(['takes', 'summaries', 'stale', 'small'], 'readwrite');
  const take = await change.objectStore('takes').get(key);
  const whose =
    (take && saysItIs(take)) ?? ((await change.objectStore('small').get('player')) as string | undefined);
  if (take !== undefined) {
    await change.objectStore('summaries').put({ ...summaryOf(takeFrom(take)), playerId: whose ?? '' });
    await change.objectStore('stale').put(true, key);
  }
  await change.done;
}

interface Entry {
  readonly key: IDBValidKey;
  readonly value: unknown;
  /** Why the browser itself could not read it. */
  readonly failed?: string;
}

/** All of a collection with their keys; one by one where the browser can't read them together. */
async function entriesOf(db: StoreDb, from: CollectionName): Promise<readonly Entry[]> {
  const keys = await db.getAllKeys(from);
  try {
    const values: readonly unknown[] = await db.getAll(from);
    if (values.length === keys.length) return keys.map((key, index) => ({ key, value: values[index] }));
  } catch (error) {
    if (!isUnreadable(error)) throw error;
  }
  const entries: Entry[] = [];
  for (const key of keys) entries.push(await valueOf(db, from, key));
  return entries;
}

async function valueOf(db: StoreDb, from: CollectionName | 'takes', key: IDBValidKey): Promise<Entry> {
  try {
    return { key, value: await db.get(from, key as string) };
  } catch (error) {
    if (!isUnreadable(error)) throw error;
    return { key, value: undefined, failed: 'can’t be read from the disk' };
  }
}

/** What the IndexedDB standard names a record whose bytes are gone or damaged. */
const isUnreadable = (error: unknown): boolean =>
  error instanceof Error && ['NotReadableError', 'DataError', 'UnknownError'].includes(error.name);

function whyUnsound(read: () => unknown): string | undefined {
  try {
    read();
    return undefined;
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
}
