import type { TakeSummary } from '../../sessions/take-record';

/** Hands that rested this long are cold again: common practice, no source. */
const COLD_AFTER_MINUTES = 120;

const DAY_MINUTES = 1440;

/**
 * Which of one player's takes were cold. Where a take says so itself that counts; else the first one after two hours
 * without a take is cold, and the others are warm.
 * @param dated takes of one player with their days, oldest first
 * @returns their ids
 */
export function coldAmong(
  dated: readonly { readonly take: TakeSummary; readonly day: number }[],
): ReadonlySet<string> {
  const cold = new Set<string>();
  let warmUntil = -Infinity;
  for (const { take, day } of dated) {
    if (take.cold ?? day > warmUntil) cold.add(take.id);
    warmUntil = Math.max(warmUntil, day + (take.minutes + COLD_AFTER_MINUTES) / DAY_MINUTES);
  }
  return cold;
}
