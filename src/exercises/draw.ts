/**
 * The items in an order drawn with a seed: the same seed, the same order, on every machine (Fisher–Yates over a
 * 32-bit multiplicative generator).
 * @param seed any integer
 * @example shuffled(['a', 'b', 'c'], 1).length // => 3
 */
export function shuffled<Item>(items: readonly Item[], seed: number): Item[] {
  const drawn = [...items];
  // Neighbouring seeds are spread before the first draw.
  let state = (Math.imul(seed | 0, 0x9e3779b1) ^ 0x85ebca6b) >>> 0;
  for (let last = drawn.length - 1; last > 0; last -= 1) {
    state = (Math.imul(state, 0x915f77f5) + 0x6d2b79f5) >>> 0;
    const mixed = Math.imul(state ^ (state >>> 15), 0x2c1b3c6d);
    const chosen = ((mixed ^ (mixed >>> 13)) >>> 0) % (last + 1);
    [drawn[last], drawn[chosen]] = [drawn[chosen], drawn[last]];
  }
  return drawn;
}
