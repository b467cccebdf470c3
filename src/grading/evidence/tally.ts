import type { Columns } from './columns';
import type { Graded } from '../graded';
import type { Wrong } from '../../words/wrong';
import { onWrongSurface, wrongSurfaces } from './wrong-surface';

/** Every slot and stroke counted once; the statuses of slots add up to `slots`. */
export interface Counts {
  readonly slots: number;
  readonly matched: number;
  readonly missed: number;
  readonly slipped: number;
  /** In a bar that was played as another. */
  readonly otherBar: number;
  readonly notPlayed: number;
  readonly tooSoft: number;
  readonly notMeasured: number;
  readonly extra: number;
  readonly wrongHand: number;
  readonly forerunners: number;
  readonly echoes: number;
  /** Strokes that came twice. */
  readonly doubles: number;
  readonly crosstalk: number;
  readonly unmapped: number;
  /** Grace notes that were left out before a stroke that was there; they are no missed slots. Absent without graces. */
  readonly gracesMissed?: number;
  /**
   * Strokes on another drum than the voicing sends them to, by the hand that was due; they are matched, and left out of
   * whatever compares levels or hands. Absent where no voicing names a surface of the rig.
   */
  readonly wrongSurface?: number;
}

/** Strokes right and strokes due or made, for the take and each variation. */
export interface Tally {
  /** Matched by the hand due, on the drum due. */
  readonly right: number;
  /** Matched, missed, extra, slips, and bars played as others. */
  readonly of: number;
  /** What became of the rest. */
  readonly wrong: Wrong;
}

export interface Tallies {
  readonly take: Tally;
  readonly variations: readonly Tally[];
  readonly counts: Counts;
}

/**
 * Counts every slot, extra and slip once. An extra belongs to the bar it falls in, a slip (one fault, however many
 * slots it displaces) to the bar it begins in. Too soft for this pad and not measured count neither way.
 */
export function tallied({ graded, names, variation }: Columns): Tallies {
  const { grid, alignment, conditioning } = graded;
  const status = {
    matched: 0,
    missed: 0,
    slipped: 0,
    otherBar: 0,
    notPlayed: 0,
    notMeasured: 0,
    tooSoft: 0,
  };
  const variations = names.map(counter);
  const take = counter();
  const ofBar = new Map(names.map((name, v) => [name, variations[v]]));
  const count = (what: keyof Wrong | 'right', of: Counter | undefined): void => {
    take[what] += 1;
    if (of !== undefined) of[what] += 1;
  };
  alignment.outcomes.forEach((outcome, i) => {
    status[outcome.status]++;
    const own = variations[variation[i]];
    if (outcome.status === 'missed') count('missed', own);
    if (outcome.status !== 'matched') return;
    count(outcome.wrongHand ? 'wrongHand' : onWrongSurface(graded, i) ? 'wrongDrum' : 'right', own);
  });
  const inBar = (what: keyof Wrong, events: readonly { readonly bar: number }[]): void =>
    events.forEach(({ bar }) => count(what, ofBar.get(grid.bars[bar].variation)));
  inBar('extra', alignment.extras);
  inBar('slip', alignment.slips);
  inBar('otherBar', alignment.otherBars);
  return {
    take: tallyOf(take),
    variations: variations.map(tallyOf),
    counts: {
      slots: grid.slots.length,
      ...status,
      extra: alignment.extras.length,
      wrongHand: take.wrongHand,
      forerunners: conditioning.forerunners,
      echoes: alignment.echoes.length,
      doubles: alignment.doubles.length,
      crosstalk: conditioning.crosstalk,
      unmapped: conditioning.unmapped,
      ...gracesMissed(graded),
      ...wrongSurfaces(graded),
    },
  };
}

type Counter = Record<keyof Wrong | 'right', number>;

const counter = (): Counter => ({
  right: 0,
  missed: 0,
  extra: 0,
  wrongHand: 0,
  wrongDrum: 0,
  slip: 0,
  otherBar: 0,
});

function tallyOf({ right, ...rest }: Counter): Tally {
  const wrong = Object.entries(rest).filter(([, n]) => n > 0);
  return {
    right,
    of: wrong.reduce((sum, [, n]) => sum + n, right),
    wrong: Object.fromEntries(wrong),
  };
}

function gracesMissed({ grid, alignment }: Graded): Pick<Counts, 'gracesMissed'> {
  if (alignment.graces === undefined) return {};
  let due = 0;
  alignment.outcomes.forEach(({ status }, slot) => {
    if (status === 'matched') due += grid.slots[slot].graces.length;
  });
  return { gracesMissed: alignment.graces.reduce((left, { strokes }) => left - strokes.length, due) };
}
