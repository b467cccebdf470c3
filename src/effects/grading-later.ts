import type { Context } from './context';
import { readableTake } from './readable';
import { GRADED_VERSION, type TakeSummary } from '../sessions/take-record';
import { describedTake } from './graded-once';

/** Kept once every take of an older library was looked at: the version of the reports it was graded by. */
const DONE = 'graded for History';
/** The page may be in use: one take at a time, and a rest after each. */
const REST_MS = 50;

/**
 * Grades takes whose records have no figures or an older report's, those of an older library, so that History has them:
 * one after the other while the page has nothing else to do, and none while a take is played.
 * @param listed takes of whose turn it is: once all were looked at, only theirs are
 * @param refresh shows what came of it, once, after the last one
 */
export async function gradeLater(
  { store }: Pick<Context, 'store'>,
  listed: readonly TakeSummary[],
  isPlaying: () => boolean,
  refresh: () => Promise<void>,
): Promise<void> {
  const isDone = (await store().kept(DONE)) === GRADED_VERSION;
  const all = isDone ? listed : await store().list();
  const left = leftToGrade(all, isDone);
  for (const id of left) {
    await idle();
    while (isPlaying()) await idle();
    const take = await readableTake(store(), id);
    if (take === undefined) continue;
    const { sentence, graded } = describedTake(take);
    await store().describe(id, sentence, graded);
  }
  await store().keep(DONE, GRADED_VERSION);
  if (left.length > 0) await refresh();
}

/**
 * Which takes are to be graded, by id: those without figures, and those whose figures are an older report's.
 * @param isDone every take was looked at by this version: one that has a sentence and no figures doesn't fit its grid,
 *   and never will
 */
export function leftToGrade(
  records: readonly Pick<TakeSummary, 'id' | 'graded' | 'sentence'>[],
  isDone: boolean,
): readonly string[] {
  return records
    .filter(({ graded, sentence }) =>
      graded === null ? sentence === '' || !isDone : graded.version < GRADED_VERSION,
    )
    .map(({ id }) => id);
}

const idle = (): Promise<void> =>
  new Promise((done) => {
    setTimeout(() => {
      // Safari has none.
      if (typeof requestIdleCallback === 'undefined') done();
      else requestIdleCallback(() => done());
    }, REST_MS);
  });
