import type { TakeSummary } from '../../sessions/take-record';

/** Hands that rested this long are cold again: common practice, no source. */
const COLD_AFTER_MINUTES = 120;

/**
 * Which of one player's takes were cold. Where a take says so itself that counts; else the first one after two hours
 * without a take is cold, and the others are warm.
 * @param takes of one player, in any order
 */
export function coldTakes(takes: readonly TakeSummary[]): ReadonlySet<string> {
  const inOrder = takes
    .map((take) => ({ take, fromMs: Date.parse(take.recordedAt) }))
    .sort((a, b) => a.fromMs - b.fromMs);
  const cold = new Set<string>();
  let warmUntilMs = -Infinity;
  for (const { take, fromMs } of inOrder) {
    if (take.cold ?? fromMs > warmUntilMs) cold.add(take.id);
    warmUntilMs = Math.max(warmUntilMs, fromMs + (take.minutes + COLD_AFTER_MINUTES) * 60_000);
  }
  return cold;
}
