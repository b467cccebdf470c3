import type { JudgedKey } from '../../grading/measures';
import type { Broke, Report, SlotReport } from '../../grading/types';
import { measureName } from '../../grading/words';

type Fault = Exclude<Broke, JudgedKey>;

const faultWords: Readonly<Record<Fault, string>> = {
  missed: 'a stroke missed',
  extra: 'a stroke added',
  slipped: 'the pattern shifted',
  otherBar: 'another bar of the phrase',
  stopped: 'stopped in it',
  wrongHand: 'the other hand',
  wrongDrum: 'another drum',
  order: 'a soft stroke louder than an accent',
};

const isFault = (one: Broke): one is Fault => Object.hasOwn(faultWords, one);

/** What broke a bar: a fault, or a measure that is out in it, by its name. */
const brokeWords = (one: Broke): string => (isFault(one) ? faultWords[one] : `${measureName(one)} out`);

/** A bar that wasn't clean, in words. */
interface BrokenBar {
  /** From 1, as players count. */
  readonly bar: number;
  readonly cycle: number;
  readonly variation: string;
  readonly broke: string;
}

/** The bars that weren't clean and what broke each; missed strokes by their number in the bar. */
export function brokenBars(report: Report, barsPerCycle: number): readonly BrokenBar[] {
  const missed = new Map<number, SlotReport[]>();
  for (const slot of report.slots) {
    if (slot.status === 'missed') missed.set(slot.bar, [...(missed.get(slot.bar) ?? []), slot]);
  }
  return report.bars
    .filter((bar) => !bar.clean)
    .map(({ index, variation, broke }): BrokenBar => {
      const words = broke.map((one) =>
        one === 'missed' ? missedWords(missed.get(index) ?? []) : brokeWords(one),
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
  if (slots.length === 0) return faultWords.missed;
  if (slots.length > MOST_NAMED) return `${slots.length} strokes missed`;
  const which = slots.map(({ slot, hand }) => `${slot + 1} (${hand})`).join(', ');
  return `stroke ${which} missed`;
}
