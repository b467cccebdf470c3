import { columnOf } from '../../column';
import type { Settings } from '../../settings';
import type { DueCycle, Evidence } from './evidence';
import { mod } from './lattice';

/** Played `places` later than due, with the other hand throughout or not. */
export interface Shift {
  readonly places: number;
  readonly mirror: boolean;
}

const none: Shift = { places: 0, mirror: false };

/**
 * **Constant shift**: by how many places, up to `most`, the whole of what was played lies behind what was due, and whether
 * it was led by the other hand. A stroke gives its evidence for the slot that many places before, less 1.5 where there is none;
 * a shift costs ½ a place up to 4, and 0.02 a place, a mirror 3. Taken where it is 9 better than none, and no beginning or
 * end of the take speaks against it by 9: that would be a slip.
 */
export function constantShift(due: DueCycle, evidence: Evidence, most: number, settings: Settings): Shift {
  const nearestFirst: number[] = [0];
  for (let k = due.period; k <= most; k += due.period) nearestFirst.push(k, -k);
  return shiftAmong(due, evidence, nearestFirst, settings);
}

/** {@link constantShift}, of some shifts only; the first of equals. */
export function shiftAmong(
  due: DueCycle,
  evidence: Evidence,
  candidates: readonly number[],
  settings: Settings,
): Shift {
  const plain = valuesAt(due, evidence, none, settings);
  const handsKnown = evidence.hand.some((hand) => hand !== 0);
  const least = settings['course.shiftGain'];
  let best = none;
  let bestGain = least;
  for (const places of candidates) {
    for (const mirror of handsKnown ? [false, true] : [false]) {
      if (places === 0 && !mirror) continue;
      const shift = { places, mirror };
      const cost = costOf(shift, settings);
      const [gain, against] = gainOf(due, evidence, shift, plain, settings);
      if (gain - cost > bestGain || (gain - cost === bestGain && best === none)) {
        if (against <= -least) continue;
        best = shift;
        bestGain = gain - cost;
      }
    }
  }
  return best;
}

/**
 * Where a player went on after a pause: the place of the phrase that the first stroke stands for. What was due there is
 * free, the phrase's beginning costs 2, a bar's 4, any other 9.
 * @returns places by which the click's place is ahead of the phrase's
 */
export function shiftAfterPause(
  due: DueCycle,
  evidence: Evidence,
  before: Shift,
  settings: Settings,
): number {
  const cycle = due.kind.length;
  const looked = { ...evidence, place: evidence.place.subarray(0, LOOKED_AT) };
  const steps = Array.from({ length: Math.ceil(cycle / due.period) }, (_, i) => i * due.period);
  return likeliest(due, looked, before, steps, settings, (step) => {
    if (step === 0) return 0;
    const first = mod(evidence.place[0] - before.places - step, cycle);
    if (first === 0) return settings['course.fromStart'];
    return settings[due.barStart[first] === 1 ? 'course.fromBar' : 'course.fromElsewhere'];
  });
}

/** At a step the phase is known within a gap only: of no place more, one more and one less the one that the strokes speak for. */
export function shiftAtStep(due: DueCycle, evidence: Evidence, before: Shift, settings: Settings): number {
  return likeliest(due, evidence, before, [0, due.period, -due.period], settings, (step) =>
    costOf({ places: step, mirror: false }, settings),
  );
}

/** Of some steps on from a shift the one with the most evidence less its cost, the first of equals; in places. */
function likeliest(
  due: DueCycle,
  evidence: Evidence,
  { places, mirror }: Shift,
  steps: readonly number[],
  settings: Settings,
  costOfStep: (step: number) => number,
): number {
  const open = { ...due, places: Infinity };
  let best = places;
  let bestValue = -Infinity;
  for (const step of steps) {
    const shift = { places: places + step, mirror };
    const value = valuesAt(open, evidence, shift, settings).reduce(
      (sum, one) => sum + one,
      -costOfStep(step),
    );
    if (value > bestValue) {
      best = shift.places;
      bestValue = value;
    }
  }
  return best;
}

/** Strokes after a pause that are asked where in the phrase they are. */
const LOOKED_AT = 512;

function costOf({ places, mirror }: Shift, settings: Settings): number {
  const far = Math.abs(places);
  const mirrored = mirror ? settings['course.mirror'] : 0;
  return settings['course.shiftPlace'] * Math.min(far, 4) + settings['course.shiftFar'] * far + mirrored;
}

function valueAt(
  due: DueCycle,
  evidence: Evidence,
  i: number,
  { places, mirror }: Shift,
  outside: number,
  hand: number,
): number {
  const place = evidence.place[i] - places;
  if (due.places !== Infinity && (place < 0 || place >= due.places)) return -outside;
  const inCycle = mod(place, due.kind.length);
  if (due.kind[inCycle] === 0) return -outside;
  const led = evidence.hand[i] * due.hand[inCycle];
  return evidence.kind[i] * due.kind[inCycle] + hand * (mirror ? -led : led);
}

function valuesAt(due: DueCycle, evidence: Evidence, shift: Shift, settings: Settings): Float64Array {
  const [outside, hand] = [settings['course.outside'], settings['slip.knownHand']];
  return columnOf(evidence.place.length, (i) => valueAt(due, evidence, i, shift, outside, hand));
}

/** How much better than no shift, and the most that any beginning or end says against it. */
function gainOf(
  due: DueCycle,
  evidence: Evidence,
  shift: Shift,
  plain: Float64Array,
  settings: Settings,
): [gain: number, against: number] {
  const [outside, hand] = [settings['course.outside'], settings['slip.knownHand']];
  let sum = 0;
  let least = 0;
  let most = 0;
  for (let i = 0; i < plain.length; i += 1) {
    sum += valueAt(due, evidence, i, shift, outside, hand) - plain[i];
    if (sum < least) least = sum;
    if (sum > most) most = sum;
  }
  return [sum, Math.min(least, sum - most)];
}
