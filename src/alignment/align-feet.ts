import type { Foot, FootSlot } from '../exercises/types';
import type { Ms } from '../units';
import { pair } from './pairing';
import type { Targets } from './targets';

/** What became of a slot of a foot. `stroke` is an index into the strokes given. */
type FootOutcome =
  | { readonly status: 'matched'; readonly stroke: number; readonly deviationMs: Ms }
  | { readonly status: 'missed' }
  | { readonly status: 'notMeasured' };

/** A stroke of a foot. */
export interface FootStrike {
  readonly atMs: Ms;
  readonly foot: Foot;
}

export interface FeetAlignment {
  /** One a slot, in the order of the slots. */
  readonly outcomes: readonly FootOutcome[];
  /** Strokes of the feet that no slot was due for. */
  readonly extras: readonly number[];
}

/**
 * Which stroke of a foot answers which of its slots: each foot a voice of its own, by time alone, as the hands are
 * paired ({@link pair}), under the hands' offset.
 * @param limitGaps `feet.limitGaps`: half the gap, which is a beat at most. Feet play to the hands and the click, so there is
 *   no need to look further
 * @param known feet that have a surface on this rig; slots of another foot are not measured
 */
export function alignFeet(
  slots: readonly FootSlot[],
  strikes: readonly FootStrike[],
  offsetMs: Ms,
  limitGaps: number,
  known: ReadonlySet<Foot>,
): FeetAlignment {
  const outcomes: FootOutcome[] = slots.map(({ foot }) => ({
    status: known.has(foot) ? 'missed' : 'notMeasured',
  }));
  const extras: number[] = [];
  for (const foot of ['K', 'H'] as const) {
    const due = slots.filter((slot) => slot.foot === foot);
    const struck = strikes.flatMap((strike, index) => (strike.foot === foot ? [index] : []));
    const at = Float64Array.from(struck, (index) => strikes[index].atMs);
    const slotOf = pair(targetsOf(due), at, offsetMs, limitGaps);
    struck.forEach((stroke, row) => {
      if (slotOf[row] < 0) {
        extras.push(stroke);
        return;
      }
      const slot = due[slotOf[row]];
      outcomes[slot.index] = {
        status: 'matched',
        stroke,
        deviationMs: strikes[stroke].atMs - slot.atMs,
      };
    });
  }
  return { outcomes, extras: extras.sort((a, b) => a - b) };
}

function targetsOf(slots: readonly FootSlot[]): Targets {
  return {
    count: slots.length,
    at: Float64Array.from(slots, ({ atMs }) => atMs),
    gap: Float64Array.from(slots, ({ gapMs }) => gapMs),
    accent: new Uint8Array(slots.length),
    hand: new Int8Array(slots.length),
    smallestGapMs: slots.reduce((least, { gapMs }) => Math.min(least, gapMs), Infinity),
    regular: false,
  };
}
