import type { Kind, StrokeType } from '../../exercises/types';
import type { Hand } from '../../stroke';

/** Who struck: the hand due, or the wrong one, which leaves whatever compares or follows hands. */
export const who = { R: 0, L: 1, wrong: 2, none: 3 } as const;
export const kindCode: Readonly<Record<Kind, number>> = { accent: 0, tap: 1, ghost: 2 };
export const typeCode: Readonly<Record<StrokeType, number>> = { full: 0, down: 1, tap: 2, up: 3 };
export const soft: readonly Kind[] = ['tap', 'ghost'];

/**
 * What a figure is of: the take, one variation (its number in `Evidence.names`), or one hand; and of one class of
 * surfaces (its number in `Evidence.surfaces`) where levels are compared.
 */
export interface Scope {
  readonly variation?: number;
  readonly hand?: Hand;
  readonly surface?: number;
}
