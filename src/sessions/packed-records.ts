import { asListed, type TakeSummary } from './take-record';

/**
 * Records as lists have them (`asListed`), packed many to a text. Ten thousand records one by one take a browser a second and more to read, a hundred
 * texts of a hundred records a quarter of that. The records themselves stay what is true: the texts are as they stood
 * once, and whoever changes a record leaves its id among the stale ones in the same transaction.
 */
const BLOCK = 100;

/** From these on it is worth while. */
export const FEWEST_PACKED = 1000;
/** With more stale ones than these they are packed anew. */
export const MOST_STALE = 200;

export function packed(records: readonly TakeSummary[]): readonly string[] {
  const blocks: string[] = [];
  for (let from = 0; from < records.length; from += BLOCK) {
    blocks.push(narrow(JSON.stringify(records.slice(from, from + BLOCK).map(asListed))));
  }
  return blocks;
}

/** One sign beyond Latin 1, a true minus say, has a browser keep the whole text in twice the space. */
const narrow = (json: string): string =>
  json.replace(/[\u0100-\uffff]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);

/**
 * The records as they are now.
 * @param staleIds of those that were changed or deleted since they were packed
 * @param fresh the ones of these ids that are still there
 */
export function unpacked(
  blocks: readonly string[],
  staleIds: readonly string[],
  fresh: readonly TakeSummary[],
): readonly TakeSummary[] {
  const stale = new Set(staleIds);
  const whole = blocks.flatMap((block) => JSON.parse(block) as readonly TakeSummary[]);
  return [...whole.filter(({ id }) => !stale.has(id)), ...fresh.map(asListed)];
}

/** Newest first; of one moment by their ids, as the index has them. */
export function newestFirst(records: readonly TakeSummary[]): readonly TakeSummary[] {
  return [...records].sort((a, b) => compare(b.recordedAt, a.recordedAt) || compare(b.id, a.id));
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
