import { listed, plural } from '../text';
import { count } from './numbers';

/** What went wrong with strokes, by kind: how many of each; what there was none of is left out. */
export type Wrong = Readonly<Partial<Record<WrongKind, number>>>;

/** A slip and a bar played as another are one each, however many strokes they hold. */
export type WrongKind = 'missed' | 'extra' | 'wrongHand' | 'wrongDrum' | 'slip' | 'otherBar';

/** In the order in which they are said where there were as many. */
const kinds: readonly WrongKind[] = ['missed', 'extra', 'wrongHand', 'wrongDrum', 'slip', 'otherBar'];

/** What there was most of; undefined where nothing went wrong. */
export function mostly(wrong: Wrong | undefined): WrongKind | undefined {
  return inOrder(wrong ?? {}).at(0)?.[0];
}

/** @example wrongWords({ missed: 7, extra: 1 }) // => 7 were missed and 1 was added */
export function wrongWords(wrong: Wrong): string {
  return listed(inOrder(wrong).map(([kind, n]) => words[kind](n)));
}

function inOrder(wrong: Wrong): readonly (readonly [WrongKind, number])[] {
  return kinds
    .flatMap((kind): readonly (readonly [WrongKind, number])[] => {
      const n = wrong[kind] ?? 0;
      return n === 0 ? [] : [[kind, n]];
    })
    .sort(([, a], [, b]) => b - a);
}

const were = (n: number): string => `${n} ${plural(n, 'was', 'were')}`;

const words: Readonly<Record<WrongKind, (n: number) => string>> = {
  missed: (n) => `${were(n)} missed`,
  extra: (n) => `${were(n)} added`,
  wrongHand: (n) => `${were(n)} in the other hand`,
  wrongDrum: (n) => `${were(n)} on another drum`,
  slip: (n) => `the pattern slipped ${n === 1 ? 'once' : count(n, 'time')}`,
  otherBar: (n) => `${count(n, 'bar')} ${plural(n, 'was', 'were')} played as another`,
};

/** What to attend to where most of what went wrong is of a kind, and what that is for. */
export const attendToWrong: Readonly<Record<WrongKind, string>> = {
  missed: 'say the sticking aloud, and give every letter its stroke',
  extra: 'let the hand that isn’t due lie still until it is',
  wrongHand: 'say right and left aloud as you play them',
  wrongDrum: 'look at each drum before the stroke falls on it',
  slip: 'count aloud, and let every accent fall on its number',
  otherBar: 'name each bar aloud before it comes',
};

export const forWrong: Readonly<Record<WrongKind, string>> = {
  missed: 'so that every stroke that is due is there',
  extra: 'so that nothing sounds that isn’t due',
  wrongHand: 'so that every stroke is in the hand that is due',
  wrongDrum: 'so that every stroke is on its own drum',
  slip: 'so that the order of strokes is sure before the tempo is',
  otherBar: 'so that each bar is the one that is due',
};
