import { countedAs } from '../grading/facts/facts';
import { groupWords } from '../grading/facts/group-words';
import type { NamedFigure } from '../grading/figures/named-figures';
import type { Figure, MeasureKey, Part, Report, SlotReport } from '../grading/types';
import type { Hand } from '../stroke';
import type { Db, Ms } from '../units';

/** A number of a report: which measure, and of what. */
export interface NumberAsked {
  readonly measure: MeasureKey;
  /** Of a measure with two figures: which. */
  readonly part?: Part;
  readonly of:
    | { readonly kind: 'take' }
    | { readonly kind: 'variation'; readonly name: string }
    | { readonly kind: 'hand'; readonly hand: Hand };
  /** What the figure itself is of: the larger hand, the surface that stands worst, the kind that is compared. */
  readonly hand?: Hand;
  readonly surface?: string;
  readonly kind?: Figure['kind'];
}

/** A figure as what is asked for. */
export function numberAsked({ key, part, figure }: NamedFigure, of: NumberAsked['of']): NumberAsked {
  const { hand, surface, kind } = figure;
  return {
    measure: key,
    ...(part === null ? {} : { part }),
    of,
    ...(hand === undefined ? {} : { hand }),
    ...(surface === undefined ? {} : { surface }),
    ...(kind === undefined ? {} : { kind }),
  };
}

/** One stroke that a number was made from. */
export interface StrokeBehind {
  /** Bar of the take and cycle, slot within the bar: from 1, as players count. */
  readonly bar: number;
  readonly slot: number;
  readonly variation: string;
  readonly hand: Hand;
  readonly kind: string;
  /** The level it is judged at: dynamics taken off. */
  readonly levelDb: Db | null;
  /** The take's offset taken off; negative is early. */
  readonly deviationMs: Ms | null;
  /** Of a stroke with graces: how far ahead of it, or of the next, each of them came. */
  readonly graceGapsMs?: readonly Ms[];
  /** What it counts as: its group, or what became of it where it isn't a stroke that was due. */
  readonly as: string;
}

/**
 * The strokes that a number was made from, in the order they were played: those that it is about, and those that they are
 * held against. Of gaps and graces the strokes that end them; of `complete` those that went wrong. Which they are stands
 * in the report.
 */
export function strokesBehind(report: Report, asked: NumberAsked): readonly StrokeBehind[] {
  return report.slots.flatMap((slot): readonly StrokeBehind[] => {
    const group = countedAs(report, slot, asked.measure, asked.part);
    const { variation } = report.bars[slot.bar] ?? { variation: '' };
    if (group === undefined || !isOf(slot, variation, asked)) return [];
    const { bar, slot: at, hand, kind, judgedLevel, deviationMs, graceGapsMs } = slot;
    return [
      {
        bar: bar + 1,
        slot: at + 1,
        variation,
        hand,
        kind,
        levelDb: judgedLevel,
        deviationMs: deviationMs === null ? null : deviationMs - report.offsetMs,
        ...(graceGapsMs === undefined ? {} : { graceGapsMs }),
        as: groupWords[group],
      },
    ];
  });
}

/** Whether a slot is within what is asked of. A hand's own row has no strokes of the other, nor on a wrong drum. */
function isOf(slot: SlotReport, variation: string, { of, hand, surface, kind }: NumberAsked): boolean {
  if (hand !== undefined && slot.hand !== hand) return false;
  if (surface !== undefined && slot.surface !== surface) return false;
  if (kind !== undefined && slot.kind !== kind) return false;
  switch (of.kind) {
    case 'take':
      return true;
    case 'variation':
      return variation === of.name;
    case 'hand':
      return slot.hand === of.hand && slot.wrongHand !== true && slot.wrongSurface !== true;
  }
}
