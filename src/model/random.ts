import { cos, ln } from '../exact';
import type { Random } from '../exercises/seeded';

export { seeded, type Random } from '../exercises/seeded';

/** A standard normal number (Box–Muller). */
export function normal(random: Random): number {
  const radius = Math.sqrt(-2 * ln(1 - random()));
  return radius * cos(2 * Math.PI * random());
}
