/** Uniform numbers in [0, 1) from a seed; the same seed, the same numbers, on every machine. */
export type Random = () => number;

/**
 * Mulberry32, a 32-bit generator in the public domain: small, seeded, good enough to draw orders and model players.
 * @param seed any integer
 * @example seeded(1)() < 1 // => true
 */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
