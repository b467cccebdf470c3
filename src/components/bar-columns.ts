import type { GridBar, Slot } from '../exercises/types';

/** One partial of a bar as a column of a picture: where it stands (fractions of the bar's width) and how it counts. */
export interface Column {
  /** Left edge and width, 0 to 1. */
  readonly x: number;
  readonly width: number;
  readonly beat: number;
  /** `1`, `e`, `&`, `a`; empty where nobody says anything. */
  readonly count: string;
  /** The slot due there, or null for a rest. */
  readonly slot: Slot | null;
}

/**
 * What is said on the partials after the beat, by partials in the beat. Triplets are counted `1 & a`, which is as short
 * as the notes are; twice as many partials keep the count of half as many. Source: common practice.
 */
const syllables: Readonly<Record<number, readonly string[]>> = {
  1: [],
  2: ['&'],
  3: ['&', 'a'],
  4: ['e', '&', 'a'],
  6: ['', '&', '', 'a', ''],
  8: ['', 'e', '', '&', '', 'a', ''],
};

/**
 * What is said on a partial: the beat's number on the beat, then the syllables; empty where there is no common one.
 * @example countOf(1, 0, 4) // => '2'
 * @example countOf(1, 3, 4) // => 'a'
 */
export function countOf(beat: number, partial: number, partials: number): string {
  if (partial === 0) return String(beat + 1);
  return syllables[partials]?.[partial - 1] ?? '';
}

/** The columns of a bar, rests included; beats are equally wide. `slots` are those of one cycle. */
export function columnsOf(bar: GridBar, slots: readonly Slot[]): readonly Column[] {
  const own = slots.filter((slot) => slot.barInCycle === bar.barInCycle);
  return bar.partialsPerBeat.flatMap((partials, beat) =>
    Array.from({ length: partials }, (_, partial): Column => {
      const width = 1 / (bar.beats * partials);
      return {
        x: beat / bar.beats + partial * width,
        width,
        beat,
        count: countOf(beat, partial, partials),
        slot: own.find((slot) => slot.beat === beat && slot.partialInBeat === partial) ?? null,
      };
    }),
  );
}

/**
 * A bar's sticking for the ear: beats apart, accents by name.
 * For `Rlrr Lrll` it is "accent R, L, R, R; accent L, R, L, L".
 */
export function spokenSticking(columns: readonly Column[]): string {
  const beats = new Map<number, string[]>();
  for (const { beat, slot } of columns) {
    const said = slot === null ? 'rest' : spokenStroke(slot);
    beats.set(beat, [...(beats.get(beat) ?? []), said]);
  }
  return [...beats.values()].map((said) => said.join(', ')).join('; ');
}

/** "flam accent R", "drag L", "ghost R"; a tap is its hand alone. */
function spokenStroke({ graces, kind, hand }: Slot): string {
  const led = graces.length === 0 ? [] : [graces.length === 1 ? 'flam' : 'drag'];
  return [...led, ...(kind === 'tap' ? [] : [kind]), hand].join(' ');
}
