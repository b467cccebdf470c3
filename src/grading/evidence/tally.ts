import type { Columns } from './columns';
import type { Graded } from '../graded';
import { wrongSurfaces } from './wrong-surface';

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
  /** Matched by the hand due. */
  readonly right: number;
  /** Matched, missed, extra, and slips. */
  readonly of: number;
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
  const right = new Int32Array(names.length);
  const of = new Int32Array(names.length);
  const status = {
    matched: 0,
    missed: 0,
    slipped: 0,
    otherBar: 0,
    notPlayed: 0,
    notMeasured: 0,
    tooSoft: 0,
  };
  let wrongHand = 0;
  alignment.outcomes.forEach((outcome, i) => {
    status[outcome.status]++;
    if (outcome.status !== 'matched' && outcome.status !== 'missed') return;
    of[variation[i]]++;
    if (outcome.status === 'missed') return;
    if (outcome.wrongHand) wrongHand++;
    else right[variation[i]]++;
  });
  for (const { bar } of [...alignment.extras, ...alignment.slips, ...alignment.otherBars]) {
    const v = names.indexOf(grid.bars[bar].variation);
    if (v >= 0) of[v]++;
  }
  return {
    take: {
      right: status.matched - wrongHand,
      of:
        status.matched +
        status.missed +
        alignment.extras.length +
        alignment.slips.length +
        alignment.otherBars.length,
    },
    variations: names.map((_, v) => ({ right: right[v], of: of[v] })),
    counts: {
      slots: grid.slots.length,
      ...status,
      extra: alignment.extras.length,
      wrongHand,
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

function gracesMissed({ grid, alignment }: Graded): Pick<Counts, 'gracesMissed'> {
  if (alignment.graces === undefined) return {};
  let due = 0;
  alignment.outcomes.forEach(({ status }, slot) => {
    if (status === 'matched') due += grid.slots[slot].graces.length;
  });
  return { gracesMissed: alignment.graces.reduce((left, { strokes }) => left - strokes.length, due) };
}
