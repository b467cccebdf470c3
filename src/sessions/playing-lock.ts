const PREFIX = 'evenhand-playing-';

/**
 * Marks a take as being played by this page until the mark is let go. Browsers drop it when the page dies, which
 * is how the next page can tell a take that was cut off from one that is still played in another tab.
 * @returns lets go; where the browser has no such marks it does nothing
 */
export function markPlaying(takeId: string): () => void {
  const manager = locks();
  if (manager === undefined) return () => undefined;
  let release: () => void = () => undefined;
  const held = new Promise<void>((resolve) => (release = resolve));
  manager.request(PREFIX + takeId, () => held).catch(() => undefined);
  return release;
}

/** Takes that any page of this browser is playing; empty where the browser cannot say. */
export async function playingNow(): Promise<ReadonlySet<string>> {
  const held = (await locks()?.query())?.held ?? [];
  return new Set(held.map(({ name = '' }) => name.slice(PREFIX.length)));
}

/** Not in every browser, nor on every page. */
const locks = (): LockManager | undefined =>
  typeof navigator === 'undefined' ? undefined : (navigator as Partial<Navigator>).locks;
