import { countOf } from '../../../exercises/counts';
import type { FootSlot, GridBar, Slot } from '../../../exercises/types';

export { countOf };

/** One partial of a bar as a column of a picture: where it stands (fractions of the bar's width) and how it counts. */
export interface Column {
  /** Left edge and width, 0 to 1. */
  readonly x: number;
  readonly width: number;
  readonly beat: number;
  /** `1`, `e`, `&`, `a`; empty where nobody says anything. */
  readonly count: string;
  /** The slot due there, or null for a rest; of a unison the first. */
  readonly slot: Slot | null;
  /** The same as a list: none for a rest, two for a unison, R first. */
  readonly slots: readonly Slot[];
  /** What the feet do there; never among the hands. */
  readonly feet: readonly FootSlot[];
}

/** The columns of a bar, rests included; beats are equally wide. `slots` and `feet` are those of a cycle. */
export function columnsOf(
  bar: GridBar,
  slots: readonly Slot[],
  feet: readonly FootSlot[] = [],
): readonly Column[] {
  const own = slots.filter((slot) => slot.barInCycle === bar.barInCycle);
  const ownFeet = feet.filter((foot) => foot.bar === bar.barInCycle);
  let before = 0;
  return bar.partialsPerBeat.flatMap((partials, beat) => {
    const first = before;
    before += partials;
    return Array.from({ length: partials }, (_, partial): Column => {
      const width = 1 / (bar.beats * partials);
      const here = own.filter((slot) => slot.beat === beat && slot.partialInBeat === partial);
      return {
        x: beat / bar.beats + partial * width,
        width,
        beat,
        count: countOf(beat, partial, partials),
        slot: here[0] ?? null,
        slots: here,
        feet: ownFeet.filter((foot) => foot.partial === first + partial),
      };
    });
  });
}

/**
 * A bar's sticking for the ear: beats apart, accents by name; the feet after the hands.
 * For `Rlrr Lrll` it is "accent R, L, R, R; accent L, R, L, L".
 */
export function spokenSticking(columns: readonly Column[]): string {
  const hands = byBeat(columns, ({ slots }) => (slots.length === 0 ? 'rest' : spokenStrokes(slots)));
  if (columns.every(({ feet }) => feet.length === 0)) return hands;
  return `${hands}. Feet: ${byBeat(columns, ({ feet }) => spokenFeet(feet))}`;
}

function byBeat(columns: readonly Column[], spoken: (column: Column) => string): string {
  const beats = new Map<number, string[]>();
  for (const column of columns) beats.set(column.beat, [...(beats.get(column.beat) ?? []), spoken(column)]);
  return [...beats.values()].map((parts) => parts.join(', ')).join('; ');
}

function spokenStrokes(slots: readonly Slot[]): string {
  return slots.length === 1 ? spokenStroke(slots[0]) : `both hands ${slots.map(spokenStroke).join(' with ')}`;
}

/** "flam accent R", "drag L", "ghost R"; a tap is its hand alone. */
function spokenStroke({ graces, kind, hand }: Slot): string {
  const led = graces.length === 0 ? [] : [graces.length === 1 ? 'flam' : 'drag'];
  return [...led, ...(kind === 'tap' ? [] : [kind]), hand].join(' ');
}

function spokenFeet(feet: readonly FootSlot[]): string {
  const parts = feet.map(
    ({ foot, soft }) => `${soft ? 'soft ' : ''}${foot === 'K' ? 'bass drum' : 'hi-hat'}`,
  );
  return parts.length === 0 ? 'rest' : parts.join(' with ');
}
