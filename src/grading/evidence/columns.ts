import { kindCode, typeCode, who } from './codes';
import type { Graded } from '../graded';
import { onWrongSurface } from './wrong-surface';
import { phraseFacts } from '../facts/phrase-facts';

/**
 * The take as columns, one entry a slot, filled in one pass. Only matched slots have a level and a deviation: slipped
 * slots are out of all measures, missed ones have neither.
 */
export interface Columns {
  readonly graded: Graded;
  /** Variations by name, in order of first appearance; the same name twice in a phrase is one variation. */
  readonly names: readonly string[];
  /** Number of the slot's variation in `names`. */
  readonly variation: Uint16Array;
  readonly kind: Uint8Array;
  readonly type: Uint8Array;
  /** Bits of `fact`. */
  readonly facts: Uint8Array;
  /** dB re velocity 127 less what a dyn line takes off there, NaN where nothing was matched. */
  readonly levelDb: Float64Array;
  /** ms, negative early, NaN where nothing was matched. */
  readonly deviationMs: Float64Array;
  /** Codes of `who`; on a wrong drum as by a wrong hand: the stroke leaves what compares or follows hands. */
  readonly who: Uint8Array;
  /** True where the phrase has both taps and ghost notes. */
  readonly tapsAndGhosts: boolean;
  /**
   * Classes of surfaces: levels compare within a class only. One for each surface the voicing names; those whose trims
   * were set against each other are one, and so are all strokes that no voicing sends anywhere. By name, in order of
   * first appearance; null for what isn't voiced.
   */
  readonly surfaces: readonly (string | null)[];
  /** Number of the slot's class in `surfaces`. */
  readonly surface: Uint8Array;
  /** Slots due, whatever was played, of (variation, hand, kind, class): see {@link dueRow}. */
  readonly dueKind: Int32Array;
  /** Slots due of (variation, hand, bit of `fact`): see {@link FACTS}. */
  readonly dueFact: Int32Array;
}

/** Widths of the two tables of what is due. */
export const KINDS = 3;
export const FACTS = 5;

/** Place of (variation, hand, kind) among what is due; the classes of surfaces follow each other from there. */
export function dueRow(columns: Pick<Columns, 'surfaces'>, row: number, kind: number): number {
  return (row * KINDS + kind) * columns.surfaces.length;
}

export function columnsOf(graded: Graded): Columns {
  const { slots } = graded.grid;
  const { outcomes } = graded.alignment;
  const n = slots.length;
  const number = new Map<string, number>();
  for (const bar of graded.grid.bars) {
    if (bar.slots > 0 && !number.has(bar.variation)) number.set(bar.variation, number.size);
  }
  const names = [...number.keys()];
  const phrase = phraseFacts(graded.grid);

  const variation = new Uint16Array(n);
  const kind = new Uint8Array(n);
  const type = new Uint8Array(n);
  const facts = new Uint8Array(n);
  const levelDb = new Float64Array(n).fill(NaN);
  const deviationMs = new Float64Array(n).fill(NaN);
  const struckBy = new Uint8Array(n).fill(who.none);
  const { surfaces, classOf } = surfaceClasses(graded);
  const surface = new Uint8Array(n);
  const dueKind = new Int32Array(names.length * 2 * KINDS * surfaces.length);
  const dueFact = new Int32Array(names.length * 2 * FACTS);
  const ofKind = new Int32Array(KINDS);

  for (let i = 0; i < n; i++) {
    const slot = slots[i];
    const v = number.get(slot.variation) ?? 0;
    const bits = phrase.bits[i % phrase.slots];
    variation[i] = v;
    kind[i] = kindCode[slot.kind];
    type[i] = typeCode[slot.type];
    facts[i] = bits;
    ofKind[kind[i]]++;
    const row = v * 2 + who[slot.hand];
    surface[i] = classOf(slot.surface);
    dueKind[dueRow({ surfaces }, row, kind[i]) + surface[i]]++;
    for (let bit = 0; bit < FACTS; bit++) dueFact[row * FACTS + bit] += (bits >> bit) & 1;
    const outcome = outcomes[i];
    if (outcome.status !== 'matched') continue;
    levelDb[i] = graded.strokes[outcome.stroke].levelDb - slot.shiftDb;
    deviationMs[i] = outcome.deviationMs;
    const astray = outcome.wrongHand || onWrongSurface(graded, i);
    struckBy[i] = astray ? who.wrong : who[slot.hand];
  }
  return {
    graded,
    names,
    variation,
    kind,
    type,
    facts,
    levelDb,
    deviationMs,
    who: struckBy,
    tapsAndGhosts: ofKind[kindCode.tap] > 0 && ofKind[kindCode.ghost] > 0,
    surfaces,
    surface,
    dueKind,
    dueFact,
  };
}

function surfaceClasses({ grid, trimmed }: Graded): {
  readonly surfaces: readonly (string | null)[];
  readonly classOf: (name: string | null) => number;
} {
  const numbers = new Map<string | null, number>();
  const surfaces: (string | null)[] = [];
  const alike = (name: string | null): string | null =>
    name !== null && trimmed?.has(name) === true ? TRIMMED : name;
  for (const { surface } of grid.slots.slice(0, Math.max(1, grid.slotsPerCycle))) {
    const name = alike(surface);
    if (numbers.has(name)) continue;
    numbers.set(name, surfaces.length);
    surfaces.push(name);
  }
  return { surfaces, classOf: (name) => numbers.get(alike(name)) ?? 0 };
}

const TRIMMED = 'trimmed surfaces';
