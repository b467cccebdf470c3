import { plural } from '../text';

/** Numbers as words and pages show them: rounded here and nowhere else, always with their unit, with a true minus. */

/** @example dB(5.12) // => 5.1 dB */
export function dB(value: number): string {
  return `${fixed(value, 1)} dB`;
}

/** @example ms(-8.2) // => −8 ms */
export function ms(value: number): string {
  return `${fixed(value, 0)} ms`;
}

/** @example percent(8.4) // => 8 % */
export function percent(value: number, digits = 0): string {
  return `${fixed(value, digits)} %`;
}

/** A plain number; nought has no sign. */
export function fixed(value: number, digits: number): string {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text.replace('-', '−');
}

/**
 * A number with its sign, plus or a true minus; nought has none.
 * @example signed(0.84, 1) // => '+0.8'
 */
export function signed(value: number, digits: number): string {
  const text = fixed(value, digits);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/** A limit as short as it can be written: 2.5 and 16, not 16.0. */
export function short(value: number): string {
  return String(Number(value.toFixed(3))).replace('-', '−');
}

const small = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
] as const;

/** A count in words up to twelve, with its noun. @example count(1, 'partial') // => one partial */
export function count(n: number, noun: string): string {
  return `${small[n] ?? n} ${plural(n, noun)}`;
}

const ordinals = [
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
  'tenth',
  'eleventh',
  'twelfth',
] as const;

/** A rank, from 1. @example ordinal(3) // => third */
export function ordinal(rank: number): string {
  if (rank <= ordinals.length) return ordinals[rank - 1];
  const last = rank % 100 > 13 ? rank % 10 : 0;
  return `${rank}${last === 1 ? 'st' : last === 2 ? 'nd' : last === 3 ? 'rd' : 'th'}`;
}
