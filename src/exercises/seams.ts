import type { Hand } from '../stroke';
import { barSticking } from './phrase';
import type { Phrase, Sticking } from './types';

/** A place where one variation gives way to another and a hand would strike three times running, or more. */
interface SeamWarning {
  /** Bars of the cycle, from 0; round the cycle, from the last to the first. */
  readonly fromBar: number;
  readonly toBar: number;
  readonly hand: Hand;
  /** Strokes of that hand running. */
  readonly strokes: number;
  /** A sentence with the bars' numbers from 1. */
  readonly words: string;
}

/**
 * Seams that make three strokes or more of one hand running. Left out is a hand that does so inside one of the two bars
 * anyway: there it is the exercise. Strokes run on from partial to partial: a rest or the other hand's stroke or grace
 * note ends them, a unison is a stroke of both hands.
 * The way round from the last bar to the first counts where the phrase has more cycles than one.
 * @throws InputError for a bar that does not parse
 */
export function seamWarnings(phrase: Phrase): SeamWarning[] {
  const bars = strokedBars(phrase);
  const last = bars.length - 1;
  return bars.flatMap((bar, index) => {
    if (index === last && phrase.cycles === 1) return [];
    const toBar = index === last ? 0 : index + 1;
    return warningsAt(bar, bars[toBar], index, toBar);
  });
}

/**
 * Another order of the variations in which no seam makes three strokes of one hand: bars of the cycle, from 0, starting
 * with the first and as near to the present order as the search finds one. Bars of one variation that follow each
 * other stay together.
 * @returns undefined where there is none, none within the bound of the search, or over 64 changes of variation
 */
export function orderWithoutWarnings(phrase: Phrase): readonly number[] | undefined {
  const bars = strokedBars(phrase);
  const blocks: number[][] = [];
  bars.forEach((bar, index) => {
    const before = blocks.at(-1);
    if (before !== undefined && bars[before[0]].variation === bar.variation) before.push(index);
    else blocks.push([index]);
  });
  if (blocks.length > MOST_BLOCKS) return undefined;
  const clean = blocks.map((from) =>
    blocks.map((to) => warningsAt(bars[from[from.length - 1]], bars[to[0]], 0, 0).length === 0),
  );
  return search(clean, phrase.cycles > 1)?.flatMap((block) => blocks[block]);
}

/** A sentence for each warning, and one with the order that has none, or that there is none. */
export function seamWords(phrase: Phrase): readonly string[] {
  const warnings = seamWarnings(phrase);
  if (warnings.length === 0) return [];
  const order = orderWithoutWarnings(phrase);
  const names = order
    ?.map((bar) => phrase.bars[bar].variation)
    .filter((name, index, all) => name !== all[index - 1]);
  return [
    ...warnings.map(({ words }) => words),
    names === undefined
      ? 'No other order of these variations was found without one.'
      : `In this order no hand plays three running at a seam: ${names.join(' | ')}.`,
  ];
}

interface StrokedBar {
  readonly variation: string;
  /** In playing order: who strikes; a rest is none. */
  readonly strokes: readonly (readonly Hand[])[];
}

/** Strokes of one hand running that a warning is for. */
const TOO_MANY = 3;
const MOST_STEPS = 20_000;
/** A longer phrase is a shuffle, or will not be put in another order by anybody. */
const MOST_BLOCKS = 64;
const HANDS: readonly Hand[] = ['R', 'L'];

function strokedBars(phrase: Phrase): StrokedBar[] {
  return phrase.bars.map(({ variation, role }, index) => ({
    variation,
    strokes: role === undefined || role === 'play' ? strokesOf(barSticking(phrase, index)) : [[]],
  }));
}

function strokesOf(sticking: Sticking): Hand[][] {
  return sticking.flatMap(({ notes, graces }) => [
    ...graces.map((hand) => [hand]),
    notes.map(({ hand }) => hand),
  ]);
}

function warningsAt(from: StrokedBar, to: StrokedBar, fromBar: number, toBar: number): SeamWarning[] {
  if (from.variation === to.variation) return [];
  return HANDS.flatMap((hand) => {
    const before = runOf([...from.strokes].reverse(), hand);
    const after = runOf(to.strokes, hand);
    const strokes = before + after;
    const meant = Math.max(longestRun(from, hand), longestRun(to, hand)) >= TOO_MANY;
    if (before === 0 || after === 0 || strokes < TOO_MANY || meant) return [];
    const round = toBar <= fromBar ? 'round ' : '';
    const words = `Going ${round}from bar ${fromBar + 1} (${from.variation}) to bar ${toBar + 1} (${to.variation}) the ${
      hand === 'R' ? 'right' : 'left'
    } hand plays ${strokes} running.`;
    return [{ fromBar, toBar, hand, strokes, words }];
  });
}

/** How many strokes of the hand it begins with. */
function runOf(strokes: readonly (readonly Hand[])[], hand: Hand): number {
  const end = strokes.findIndex((hands) => !hands.includes(hand));
  return end < 0 ? strokes.length : end;
}

/** The hand's longest run inside the bar. */
function longestRun({ strokes }: StrokedBar, hand: Hand): number {
  let longest = 0;
  let run = 0;
  for (const hands of strokes) {
    run = hands.includes(hand) ? run + 1 : 0;
    longest = Math.max(longest, run);
  }
  return longest;
}

/** A way through all blocks from the first, nearest followers first, and back to it where `round`. */
function search(clean: readonly (readonly boolean[])[], round: boolean): readonly number[] | undefined {
  const way = [0];
  const used = new Set(way);
  let steps = 0;
  const extend = (): boolean => {
    const last = way[way.length - 1];
    if (way.length === clean.length) return !round || way.length === 1 || clean[last][0];
    for (let next = 1; next < clean.length && steps < MOST_STEPS; next += 1) {
      if (used.has(next) || !clean[last][next]) continue;
      steps += 1;
      way.push(next);
      used.add(next);
      if (extend()) return true;
      way.pop();
      used.delete(next);
    }
    return false;
  };
  return extend() ? way : undefined;
}
