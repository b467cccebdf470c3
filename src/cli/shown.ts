/**
 * Text for a terminal: what would move its cursor, colour or ring it, or turn the order of letters, is written out
 * (`\u001b`); ends of lines stay. Inside JSON it means the same.
 * @example printable('a\u001b[31mb') // => a\u001b[31mb
 */
export function printable(text: string): string {
  return text.replaceAll(UNSEEN, writtenOut);
}

/**
 * A title or name for a line of its own: ends of lines are written out too.
 * @example shownName('one\ntwo') // => one\u000atwo
 */
export function shownName(name: string): string {
  return printable(name).replaceAll(/[\r\n]/g, writtenOut);
}

/** Control characters but the end of a line; what ends a line elsewhere; what turns the direction of writing. */
const UNSEEN =
  /[\u0000-\u0009\u000b\u000c\u000e-\u001f\u007f-\u009f\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]|\r(?!\n)/g;

const writtenOut = (unit: string): string => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`;
