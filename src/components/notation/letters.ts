import type { PlannedNote } from './plan';

/** Words of a picture: the middle of a letter, or the left end of a label. */
export interface TextAt {
  readonly x: number;
  readonly y: number;
  readonly words: string;
  readonly kind: 'mark' | 'accent' | 'tap' | 'ghost' | 'grace' | 'count' | 'beat' | 'label';
}

interface LetteredNote {
  readonly planned: PlannedNote;
  /** Middle of its head, and of each grace note's. */
  readonly x: number;
  readonly graces: readonly number[];
}

/** R over L, counts under both: from the lowest thing of the staff. */
const ROWS_PX = { R: 32, L: 52, count: 76 } as const;

/** Sticking letters and counts under the notes of a bar. */
export function lettersOf(notes: readonly LetteredNote[], y: number): TextAt[] {
  return notes.flatMap(({ planned, x, graces }) => [
    ...planned.notes.map(({ hand, kind }): TextAt => ({ x, y: y + ROWS_PX[hand], words: hand, kind })),
    ...planned.graces.map((hand, index): TextAt => {
      return { x: graces[index], y: y + ROWS_PX[hand], words: hand, kind: 'grace' };
    }),
    {
      x,
      y: y + ROWS_PX.count,
      words: planned.count,
      kind: planned.partial === 0 ? 'beat' : 'count',
    } as const,
  ]);
}

/** Accent above, of the music font (SMuFL articAccentAbove). */
const ACCENT = '\uE4A0';

/** Accent marks of a bar, all on one line. */
export function accentsOf(notes: readonly LetteredNote[], y: number): TextAt[] {
  return notes
    .filter(({ planned }) => planned.notes.some(({ kind }) => kind === 'accent'))
    .map(({ x }) => ({ x, y, words: ACCENT, kind: 'mark' }));
}

/** As an SVG element of its kind's class. */
export function text({ x, y, words, kind }: TextAt): SVGTextElement {
  const element = document.createElementNS('http://www.w3.org/2000/svg', 'text');
  element.setAttribute('x', x.toFixed(1));
  element.setAttribute('y', y.toFixed(1));
  element.setAttribute('class', `words ${kind}`);
  element.textContent = words;
  return element;
}
