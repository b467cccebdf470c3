import type { Db, Ms } from '../units';

/** What a pad does to a tap this soon after an accent: `db` louder (negative: softer) than a low stroke, pad and hand in one. */
export interface AfterAccentNote {
  /** Name of the surface. */
  readonly surface: string;
  readonly withinMs: Ms;
  readonly db: Db;
}

/** What a pad makes of two strokes close together. */
export interface ClosestPairNote {
  /** Id and name of the surface. */
  readonly id: string;
  readonly surface: string;
  /** Two strokes nearer than this may arrive as one. */
  readonly closestPairMs: Ms;
}
