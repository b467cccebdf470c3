import type { Kind } from '../../exercises/types';
import { element, type Element } from '../xml';

/** The few signs of percussion notation that a note on paper needs, drawn with lines; sizes in CSS pixels. */

/** A note head, left half of its stem; ghosts stand in brackets. */
export function head(x: number, y: number, kind: Kind): Element {
  const own = ellipse(x, y, 5.2, 3.9);
  if (kind !== 'ghost') return own;
  return element('g', {}, own, bracket(x - 7, y, -1), bracket(x + 8, y, 1));
}

/** The dot that makes a note half as long again. */
export const dot = (x: number, y: number): Element =>
  element('circle', { cx: rounded(x), cy: rounded(y), r: '1.5', fill: '#000' });

/** Small slashed notes before a note: one with a flag, more under two beams. */
export function graceNotes(x: number, y: number, count: number): Element[] {
  if (count === 0) return [];
  const spots = Array.from({ length: count }, (_, index) => x - 13 - 7 * (count - 1 - index));
  const top = y - 20;
  const [first] = spots;
  const last = spots[spots.length - 1];
  const joined =
    count === 1
      ? [path(`M${first + 2.6} ${top} q1 4 5 7`, 1)]
      : [0, 3.5].map((down) => path(`M${first + 2.6} ${top + down} H${last + 3.1}`, 2));
  return [
    ...spots.map((spot) => ellipse(spot, y, 3, 2.3)),
    ...spots.map((spot) => path(`M${spot + 2.6} ${y - 1} V${top}`, 1)),
    ...joined,
    path(`M${first - 2} ${top + 12} L${first + 7} ${top + 5}`, 1),
  ];
}

/** The mark of an accent, its point to the right. */
export const accentMark = (x: number, y: number): Element =>
  path(`M${x - 5} ${y - 4} L${x + 6} ${y} L${x - 5} ${y + 4}`, 1.5);

/** A beam's line, from stem to stem. */
export function beam(from: number, to: number, y: number): Element {
  return element('rect', {
    x: rounded(from - 0.6),
    y: rounded(y),
    width: rounded(to - from + 1.2),
    height: '3.4',
    fill: '#000',
  });
}

/** Flags of a stem that has no neighbour to share a beam with. */
export const flags = (x: number, top: number, count: number): Element[] =>
  Array.from({ length: count }, (_, index) => {
    const y = top + index * 6;
    return path(`M${x} ${y} q1.5 6 7 9 q2.5 3 0.5 8`, 1.6);
  });

export const REST_WIDTH = 8;

/** A rest: a quarter's, or one with a hook for each flag of the note it stands for. */
export function rest(x: number, y: number, hooks: number): Element {
  if (hooks === 0) return path(`M${x - 2} ${y - 11} l5 7 q-5 4 1 10 q-7 -2 -4 6`, 2);
  const top = y - 3 - 3 * hooks;
  const foot = top + 8 + 7 * hooks;
  const parts = Array.from({ length: hooks }, (_, index) => {
    const at = top + index * 7;
    const right = x + 3.5 - index * 1.6;
    return [
      element('circle', { cx: rounded(right - 6), cy: rounded(at + 1), r: '1.9', fill: '#000' }),
      path(`M${rounded(right - 6)} ${at + 2} q4 2.5 6 -2`, 1.3),
    ];
  }).flat();
  return element(
    'g',
    {},
    ...parts,
    path(`M${x + 3.5} ${top} L${rounded(x + 3.5 - (foot - top) * 0.24)} ${foot}`, 1.3),
  );
}

const ellipse = (x: number, y: number, rx: number, ry: number): Element =>
  element('ellipse', {
    cx: rounded(x),
    cy: rounded(y),
    rx: String(rx),
    ry: String(ry),
    transform: `rotate(-20 ${rounded(x)} ${rounded(y)})`,
    fill: '#000',
  });

const bracket = (x: number, y: number, side: -1 | 1): Element =>
  path(`M${x} ${y - 6} q${4 * side} 6 0 12`, 1.3);

const path = (d: string, width: number): Element =>
  element('path', { d, fill: 'none', stroke: '#000', 'stroke-width': String(width) });

const rounded = (value: number): string => String(Math.round(value * 100) / 100);
