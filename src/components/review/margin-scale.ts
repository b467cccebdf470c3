/** Where −1, 0 and +1 stand in the width: the ends leave space for words and for what lies beyond. */
export const NOT_YET = 0.15;
export const HOLDS = 0.5;
export const IDEAL = 0.85;
/** Margins lower than this stand at the edge. */
const LEAST = -1.4;

/** A margin as a place in the width: +1 ideal, 0 *holds* limit, −1 *not yet* limit. */
export function marginX(margin: number): number {
  const held = Math.max(LEAST, Math.min(1, margin));
  return HOLDS + held * (IDEAL - HOLDS);
}
