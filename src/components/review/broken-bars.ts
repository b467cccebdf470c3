import type { Broke, Report, SlotReport } from '../../grading/types';

const brokeWords: Readonly<Record<Broke, string>> = {
  missed: 'a stroke missed',
  extra: 'a stroke added',
  slipped: 'the pattern shifted',
  wrongHand: 'the other hand',
  wrongSurface: 'another drum',
  contrast: 'contrast under its limit',
  order: 'a soft stroke louder than an accent',
  scatter: 'timing too wide',
};

/** A bar that didn't hold, in words. */
export interface BrokenBar {
  /** From 1, as players count. */
  readonly bar: number;
  readonly cycle: number;
  readonly variation: string;
  readonly broke: string;
}

/** The bars that didn't hold and what broke each; missed strokes by their number in the bar. */
export function brokenBars(report: Report, barsPerCycle: number): readonly BrokenBar[] {
  const missed = new Map<number, SlotReport[]>();
  for (const slot of report.slots) {
    if (slot.status === 'missed') missed.set(slot.bar, [...(missed.get(slot.bar) ?? []), slot]);
  }
  return report.bars
    .filter((bar) => !bar.held)
    .map(({ index, variation, broke }): BrokenBar => {
      const words = broke.map((one) =>
        one === 'missed' ? missedWords(missed.get(index) ?? []) : brokeWords[one],
      );
      return {
        bar: index + 1,
        cycle: Math.floor(index / barsPerCycle) + 1,
        variation,
        broke: words.join(', '),
      };
    });
}

const MOST_NAMED = 4;

function missedWords(slots: readonly SlotReport[]): string {
  if (slots.length === 0) return brokeWords.missed;
  if (slots.length > MOST_NAMED) return `${slots.length} strokes missed`;
  const which = slots.map(({ slot, hand }) => `${slot + 1} (${hand})`).join(', ');
  return `stroke ${which} missed`;
}
