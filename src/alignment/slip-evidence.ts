import { columnOf } from '../column';
import type { Grid } from '../exercises/types';
import { medianInPlace } from '../ordered';
import type { AlignStroke } from './types';

/** What the strokes of a take say of which slot they are for. */
interface SlipEvidence {
  /** Level of the stroke paired with each slot, less the dynamics due there; NaN where there is none, or it says nothing. */
  readonly level: Float64Array;
  /** Surface due at each slot and struck there, as numbers from 1; 0 where nobody can say. Left out without a voicing. */
  readonly surface?: { readonly due: Int16Array; readonly played: Int16Array };
}

/**
 * Levels as slips may be told by: dynamics taken off, and on a phrase with a voicing those of each surface about the
 * surface's own middle, since two drums report the same stroke differently. A surface that is due only accents, or only
 * soft strokes, says nothing by its levels; but that it was struck says which slots the stroke can be for.
 */
export function slipEvidence(
  { slots }: Grid,
  strokes: readonly AlignStroke[],
  strokeOf: Int32Array,
): SlipEvidence {
  const level = columnOf(slots.length, (i) =>
    strokeOf[i] < 0 ? NaN : strokes[strokeOf[i]].levelDb - slots[i].shiftDb,
  );
  if (slots.every(({ surface }) => surface === null)) return { level };

  const numbers = new Map<string, number>();
  const played = Int16Array.from(slots, (_, i) => {
    const id = strokeOf[i] < 0 ? undefined : strokes[strokeOf[i]].surface;
    if (id === undefined) return 0;
    if (!numbers.has(id)) numbers.set(id, numbers.size + 1);
    return numbers.get(id) ?? 0;
  });
  const due = dueSurfaces(slots, played, numbers.size);
  for (const number of numbers.values()) centre(level, slots, { due, played }, number);
  return { level, surface: { due, played } };
}

/** Takes a surface's own middle off its levels, told by what is due there and struck there; NaN where it is not due both kinds. */
function centre(
  level: Float64Array,
  slots: Grid['slots'],
  { due, played }: NonNullable<SlipEvidence['surface']>,
  surface: number,
): void {
  const middleOf = (accent: boolean): number | undefined => {
    const own = slots.flatMap(({ kind }, i) =>
      due[i] === surface && played[i] === surface && (kind === 'accent') === accent ? [level[i]] : [],
    );
    return medianInPlace(Float64Array.from(own));
  };
  const [accent, soft] = [middleOf(true), middleOf(false)];
  const middle = accent === undefined || soft === undefined ? NaN : (accent + soft) / 2;
  for (let i = 0; i < level.length; i += 1) if (played[i] === surface) level[i] -= middle;
}

/** The surface a name means is the one mostly struck where it is due. */
function dueSurfaces(slots: Grid['slots'], played: Int16Array, surfaces: number): Int16Array {
  const names = new Map<string, number[]>();
  slots.forEach(({ surface }, i) => {
    if (surface === null || played[i] === 0) return;
    const counts = names.get(surface) ?? Array.from({ length: surfaces + 1 }, () => 0);
    counts[played[i]] += 1;
    names.set(surface, counts);
  });
  const numberOf = new Map([...names].map(([name, counts]) => [name, counts.indexOf(Math.max(...counts))]));
  // Both notes of a unison are one onset here, of two surfaces.
  return Int16Array.from(slots, ({ surface, together }) =>
    surface === null || together === 2 ? 0 : (numberOf.get(surface) ?? 0),
  );
}
