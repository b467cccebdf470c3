/** A take is clean, and a tempo held, where four bars of five are clean. Source: grading.md section 7. */
const CLEAN_SHARE = 0.8;

/** @example isCleanShare(4, 5) // => true */
export function isCleanShare(clean: number, bars: number): boolean {
  return bars > 0 && clean >= CLEAN_SHARE * bars;
}
