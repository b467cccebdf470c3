import { summaryOf, type BrowserStore, type TakeSummary } from './browser-store';
import type { Take } from './types';

/**
 * Takes kept as long as the page is open: for a browser window that keeps nothing, so that a player there can still
 * play, review and download. It answers as the browser's own store does.
 */
export function memoryStore(): BrowserStore {
  const takes = new Map<string, Take>();
  const summaries = new Map<string, TakeSummary>();
  const small = new Map<string, unknown>();

  async function put(take: Take): Promise<void> {
    takes.set(take.id, take);
    summaries.set(take.id, summaryOf(take));
    return Promise.resolve();
  }

  return {
    begin: () => Promise.resolve(),
    append: () => Promise.resolve(),
    finish: put,
    discard: () => Promise.resolve(),
    recover: () => Promise.resolve([]),
    list: () => Promise.resolve([...summaries.values()].reverse()),
    get: (takeId) => Promise.resolve(takes.get(takeId)),
    put,
    describe(takeId, sentence) {
      const summary = summaries.get(takeId);
      if (summary !== undefined) summaries.set(takeId, { ...summary, sentence });
      return Promise.resolve();
    },
    delete(takeId) {
      takes.delete(takeId);
      summaries.delete(takeId);
      return Promise.resolve();
    },
    kept: (name) => Promise.resolve(small.get(name)),
    keep(name, value) {
      small.set(name, value);
      return Promise.resolve();
    },
    close: () => undefined,
  };
}
