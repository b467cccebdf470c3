const PREFIX = 'evenhand-playing-';

/**
 * Marks a take as being played by this page until the mark is let go. Browsers drop it when the page dies, which
 * is how the next page can tell a take that was cut off from one that is still played in another tab.
 * @param locks `navigator.locks`, not there in every browser nor on every page
 * @returns lets go; where the browser has no such marks it does nothing
 */
export function markPlaying(locks: LockManager | undefined, takeId: string): () => void {
  if (locks === undefined) return () => undefined;
  let release: () => void = () => undefined;
  const held = new Promise<void>((resolve) => (release = resolve));
  locks.request(PREFIX + takeId, () => held).catch(() => undefined);
  return release;
}

/** Takes that any page of this browser is playing; empty where the browser cannot say. */
export async function playingNow(locks: LockManager | undefined): Promise<ReadonlySet<string>> {
  const held = (await locks?.query())?.held ?? [];
  const marks = held.filter(({ name = '' }) => name.startsWith(PREFIX));
  return new Set(marks.map(({ name = '' }) => name.slice(PREFIX.length)));
}

/**
 * Does `work` once the page that plays a take has let its mark go, by ending the take or by dying: one page after
 * another where several wait. A browser drops the mark of a page that was closed a moment after it opens the next.
 */
export function whenLetGo(locks: LockManager | undefined, takeId: string, work: () => Promise<void>): void {
  locks?.request(PREFIX + takeId, work).catch(() => undefined);
}
