import type { MeasureKey, Report } from '../grading/types';
import type { Hand } from '../stroke';
import type { Db, Ms } from '../units';
import { isPlayed, toldSlots, type ToldSlot } from './annotated-slots';

/** A number of a report: which measure, and of what. */
export interface NumberAsked {
  readonly measure: MeasureKey;
  readonly of:
    | { readonly kind: 'take' }
    | { readonly kind: 'variation'; readonly name: string }
    | { readonly kind: 'hand'; readonly hand: Hand };
  /** The hand that a "larger" or "farther" figure is of. */
  readonly hand?: Hand;
}

/** One stroke that a number was made from. */
export interface StrokeBehind {
  /** Bar of the take and cycle, slot within the bar: from 1, as players count. */
  readonly bar: number;
  readonly slot: number;
  readonly variation: string;
  readonly hand: Hand;
  readonly kind: string;
  readonly levelDb: Db | null;
  /** The take's offset taken off; negative is early. */
  readonly deviationMs: Ms | null;
  /** What it counts as: its group, or what became of it where it isn't a stroke that was due. */
  readonly as: string;
}

type Group = readonly [as: string, belongs: (told: ToldSlot, index: number) => boolean];

/**
 * The strokes that a number was made from, in the order they were played: those that it is about, and those that they are
 * held against. Of gaps and graces the strokes that end them; of `complete` those that went wrong.
 */
export function strokesBehind(report: Report, { measure, of, hand }: NumberAsked): readonly StrokeBehind[] {
  const all = toldSlots(report);
  const groups = groupsOf(report, all, measure);
  const inScope = ({ slot, variation }: ToldSlot): boolean => {
    switch (of.kind) {
      case 'take':
        return hand === undefined || slot.hand === hand;
      case 'variation':
        return variation === of.name && (hand === undefined || slot.hand === hand);
      case 'hand':
        return slot.hand === of.hand;
    }
  };
  return all.filter(inScope).flatMap((told): readonly StrokeBehind[] => {
    if (measure !== 'complete' && !isPlayed(told)) return [];
    const group = groups.find(([, belongs]) => belongs(told, told.index));
    if (group === undefined) return [];
    const { slot, variation } = told;
    return [
      {
        bar: slot.bar + 1,
        slot: slot.slot + 1,
        variation,
        hand: slot.hand,
        kind: slot.kind,
        levelDb: slot.level,
        deviationMs: slot.deviationMs === null ? null : slot.deviationMs - report.offsetMs,
        as: measure === 'complete' ? statusWords(told) : group[0],
      },
    ];
  });
}

const isSoft = ({ slot }: ToldSlot): boolean => slot.kind !== 'accent';
const isAccent = (told: ToldSlot): boolean => !isSoft(told);
const soft: Group = ['soft stroke', isSoft];
const otherSoft: Group = ['other soft stroke', isSoft];
const accent: Group = ['accent', isAccent];
const any: Group = ['stroke', () => true];

function groupsOf({ slots }: Report, all: readonly ToldSlot[], measure: MeasureKey): readonly Group[] {
  switch (measure) {
    case 'complete':
      return [['', (told) => !isPlayed(told)]];
    case 'leakBefore':
      return [['before its accent', (told) => isSoft(told) && told.beforeAccent], otherSoft];
    case 'leakAfter':
      return [['after its accent', (told) => isSoft(told) && told.afterAccent], otherSoft];
    case 'spill':
      return [['beside the other hand’s accent', (told) => isSoft(told) && told.besideAccent], otherSoft];
    case 'fade':
      return [
        ['second of a double', (told) => isSoft(told) && told.double === 'second'],
        ['first of a double', (told) => isSoft(told) && told.double === 'first'],
      ];
    case 'doubleGap':
      return [
        ['second of a double', (_, i) => isSecond(slots, i)],
        ['first of a double', (_, i) => isSecond(slots, i + 1)],
      ];
    case 'softness':
    case 'softRange':
    case 'softSpread':
      return [soft];
    case 'ghostContrast':
      return [
        ['tap', ({ slot }) => slot.kind === 'tap'],
        ['ghost note', ({ slot }) => slot.kind === 'ghost'],
      ];
    case 'contrast':
    case 'clarity':
      return [accent, soft];
    case 'accentSpread':
    case 'accentStretch':
      return [accent];
    case 'balanceSoft':
      return [soft];
    case 'balanceAccent':
      return [accent];
    case 'seam':
      return [['first after a change', (told) => isAfterChange(all, told)]];
    case 'feel':
      return [any];
    case 'arrival':
    case 'graceEvenness':
    case 'graceHands':
    case 'flamGap':
    case 'dragGap':
    case 'graceSoftness':
    case 'lag':
    case 'scatter':
    case 'asynchrony':
    case 'shape':
      return [any];
  }
}

/** Second note of exactly two neighbouring strokes of one hand in one bar. */
function isSecond(slots: Report['slots'], i: number): boolean {
  const same = (a: number, b: number): boolean =>
    slots[a] !== undefined &&
    slots[b] !== undefined &&
    slots[a].hand === slots[b].hand &&
    slots[a].bar === slots[b].bar;
  return same(i, i - 1) && !same(i - 1, i - 2) && !same(i, i + 1);
}

/** First slot of a bar whose variation differs from the bar before. */
function isAfterChange(all: readonly ToldSlot[], told: ToldSlot): boolean {
  const before = all[told.index - 1];
  return told.slot.slot === 0 && before !== undefined && before.variation !== told.variation;
}

function statusWords({ slot }: ToldSlot): string {
  switch (slot.status) {
    case 'matched':
      return 'with the other hand';
    case 'tooSoft':
      return 'too soft for this pad';
    case 'notMeasured':
      return 'not measured';
    default:
      return slot.status;
  }
}
