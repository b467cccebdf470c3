import type { Kind } from '../../exercises/types';
import { kindCode, soft, who } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import type { Badness, StrokeGroup } from '../measures/measure';

/** True where slot `i` was answered, by whichever hand. */
export function isStruck({ who: by }: Evidence, i: number): boolean {
  return by[i] !== who.none;
}

/** True where slot `i` was answered by the hand that was due, on the drum that was due. */
export function isByItsHand({ who: by }: Evidence, i: number): boolean {
  return by[i] === who.R || by[i] === who.L;
}

export function isAccent({ kind }: Evidence, i: number): boolean {
  return kind[i] === kindCode.accent;
}

/** Whether slot `i` is of one of the kinds. */
export function ofKinds({ kind }: Evidence, kinds: readonly Kind[]): (i: number) => boolean {
  const codes = kinds.map((name) => kindCode[name]);
  return (i) => codes.includes(kind[i]);
}

/** Every stroke that answered a slot. */
export const allStruck = (evidence: Evidence): readonly StrokeGroup[] => [
  { name: 'stroke', has: (i) => isStruck(evidence, i) },
];

/** Those that the time model has: by the hand that was due, and no unison where a hand plays something else. */
export const allTimed = ({ time }: Evidence): readonly StrokeGroup[] => [
  { name: 'stroke', has: (i) => time.isRow[i] === 1 },
];

/** Accents, and the soft strokes they are held against. */
export const accentsAndSoft = (evidence: Evidence): readonly StrokeGroup[] => [
  { name: 'accent', has: (i) => isStruck(evidence, i) && isAccent(evidence, i) },
  {
    name: 'soft',
    has: (
      (is) => (i: number) =>
        isStruck(evidence, i) && is(i)
    )(ofKinds(evidence, soft)),
  },
];

/** How bad a stroke is where one answered the slot and belongs to what is asked about. */
export function ifStruck(
  evidence: Evidence,
  bad: (i: number) => number,
  belongs: (i: number) => boolean = () => true,
): Badness {
  return (i) => (isStruck(evidence, i) && belongs(i) ? bad(i) : undefined);
}

/** The side of nought a figure is on: what lies farther that way is worse. */
export function sideOf({ value }: { readonly value: number | null }): 1 | -1 {
  return (value ?? 0) < 0 ? -1 : 1;
}
