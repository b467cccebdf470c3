import type { Desk } from './page-effects';
import { toldOf } from './graded-once';

/** Kept once every take of an older library was looked at. */
const DONE = 'graded for History';
/** The page may be in use: one take at a time, and a rest after each. */
const REST_MS = 50;

/**
 * Grades takes whose records have no figures, those of an older library, so that History has them: one after the other
 * while the page has nothing else to do, and none while a take is played.
 * @param refresh shows what came of it, once, after the last one
 */
export async function gradeLater({ sitting, store }: Desk, refresh: () => Promise<void>): Promise<void> {
  const isDone = (await store().kept(DONE)) === true;
  const all = isDone ? sitting().keeping.takes : await store().list();
  // A take that doesn't fit its grid has a sentence and no figures, and never will.
  const left = all.filter(({ graded, sentence }) => graded === null && (sentence === '' || !isDone));
  for (const { id } of left) {
    await idle();
    while (sitting().running !== null) await idle();
    const take = await store().get(id);
    if (take === undefined) continue;
    const { sentence, graded } = toldOf(take);
    await store().describe(id, sentence, graded);
  }
  await store().keep(DONE, true);
  if (left.length > 0) await refresh();
}

const idle = (): Promise<void> =>
  new Promise((done) => {
    setTimeout(() => {
      // Safari has none.
      if (typeof requestIdleCallback === 'undefined') done();
      else requestIdleCallback(() => done());
    }, REST_MS);
  });
