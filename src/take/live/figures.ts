import type { Grid, Slot } from '../../exercises/types';
import { limitOf } from '../../grading/figures/limits';
import { judgedMeasureOf, type JudgedKey, type LiveName } from '../../grading/measures';
import type { Settings } from '../../settings';
import type { Hand } from '../../stroke';
import type { LivePass, LiveState } from '../types';
import { MAD_TO_SD, median } from '../../ordered';

/** A number that can be worked on while playing. */
export const figureNames: readonly LiveName[] = [
  'contrast',
  'soft level',
  'leak before',
  'leak after',
  'balance',
  'early or late',
  'scatter',
];
export type FigureName = LiveName;

/** What a number is just now. Provisional: the report is the truth. */
export interface FigureNow {
  readonly name: FigureName;
  readonly unit: 'dB' | 'ms';
  /** The one number; null before there are strokes for it. */
  readonly value: number | null;
  /** The hand it is of, where it is the worse hand's. */
  readonly hand: Hand | null;
  /** The same of each hand alone. */
  readonly R: number | null;
  readonly L: number | null;
  /** Where it holds, and on which side of that it should be. */
  readonly aim: number;
  readonly side: 'least' | 'most' | 'within';
}

/** Passes of a slot that count. */
const CYCLES = 2;

/**
 * A number from the strokes of the last two cycles, in all and for each hand. Levels are medians with the bar's dynamics
 * taken off, times have the running offset, the player's own tempo and swing taken off.
 * `contrast`: accents less soft strokes. `soft level`: soft strokes. `leak before`, `leak after`: a hand's soft strokes right
 * before, right after its own accent in the bar that is on, less its other soft strokes in any bar; the worse hand's. `balance`: right less left, soft strokes
 * where there are any. `early or late`: median deviation, negative is early; not of each hand
 * where it may as well be swing. `scatter`: 1.4826·MAD of the deviations about
 * their median. Source of each: the report's measure of that name, simplified to what can be said at a glance.
 * @param grid of the running take
 * @param barInCycle the bar that is on
 */
export function figureNow(
  name: FigureName,
  grid: Grid,
  live: LiveState | null,
  settings: Settings,
  barInCycle = 0,
): FigureNow {
  const passed = live === null ? [] : passesOf(grid, live);
  const of = (hand: Hand): SlotPass[] => passed.filter((one) => one.slot.hand === hand);
  const [R, L] = [of('R'), of('L')];
  const each = (work: (all: readonly SlotPass[]) => number | null) => ({
    value: work(passed),
    R: work(R),
    L: work(L),
  });
  const limit = (key: JudgedKey): number => limitOf(key, settings, { gapMs: grid.smallestGapMs }).holds;
  switch (name) {
    case 'contrast':
      return { name, unit: 'dB', ...each(contrast), hand: null, aim: limit('contrast'), side: 'least' };
    case 'soft level':
      return { name, unit: 'dB', ...each(softLevel), hand: null, aim: limit('softness'), side: 'most' };
    case 'leak before':
    case 'leak after': {
      const where = name === 'leak before' ? 1 : -1;
      const leaks = { R: leak(grid, R, where, barInCycle), L: leak(grid, L, where, barInCycle) };
      const hand = worse(leaks);
      const aim = limit(where === 1 ? 'leakBefore' : 'leakAfter');
      return {
        name,
        unit: 'dB',
        value: hand === null ? null : leaks[hand],
        hand,
        ...leaks,
        aim,
        side: 'most',
      };
    }
    case 'balance': {
      const levels = { R: softLevel(R) ?? level(R), L: softLevel(L) ?? level(L) };
      const value = levels.R === null || levels.L === null ? null : levels.R - levels.L;
      return { name, unit: 'dB', value, hand: null, ...levels, aim: limit('balanceSoft'), side: 'within' };
    }
    case 'early or late':
      return {
        name,
        unit: 'ms',
        ...early(each(lateness), live),
        hand: null,
        aim: limit('lag'),
        side: 'within',
      };
    case 'scatter':
      return { name, unit: 'ms', ...each(scatter), hand: null, aim: limit('scatter'), side: 'most' };
  }
}

/** The number that a report's weakest measure asks for. */
export function figureFor(measure: JudgedKey): FigureName {
  return judgedMeasureOf(measure).live;
}

/** True where a value lies on the wrong side of its aim. */
export function isOut({ side, aim }: Pick<FigureNow, 'side' | 'aim'>, value: number | null): boolean {
  if (value === null) return false;
  if (side === 'least') return value < aim;
  return (side === 'within' ? Math.abs(value) : value) > aim;
}

interface SlotPass {
  readonly slot: Slot;
  readonly pass: LivePass;
}

function passesOf({ slots, slotsPerCycle }: Grid, { passes }: LiveState): SlotPass[] {
  return slots
    .slice(0, slotsPerCycle)
    .flatMap((slot) => (passes[slot.index] ?? []).slice(-CYCLES).map((pass) => ({ slot, pass })))
    .filter(({ pass }) => pass.wrongSurface !== true);
}

const levels = (all: readonly SlotPass[]): number[] =>
  all.flatMap(({ slot, pass }) => (pass.levelDb === null ? [] : [pass.levelDb - slot.shiftDb]));
const isSoft = ({ slot }: SlotPass): boolean => slot.kind !== 'accent';

const level = (all: readonly SlotPass[]): number | null => median(levels(all)) ?? null;
const softLevel = (all: readonly SlotPass[]): number | null => level(all.filter(isSoft));

function contrast(all: readonly SlotPass[]): number | null {
  const accents = level(all.filter((one) => !isSoft(one)));
  const soft = softLevel(all);
  return accents === null || soft === null ? null : accents - soft;
}

/** @param where 1: before its own accent, −1: after it */
function leak(
  { slots, slotsPerCycle }: Grid,
  own: readonly SlotPass[],
  where: 1 | -1,
  bar: number,
): number | null {
  const beside = ({ index, hand }: Slot): boolean => {
    for (let step = 1; step < slotsPerCycle; step += 1) {
      const other = slots[(index + where * step + slotsPerCycle * 2) % slotsPerCycle];
      if (other.hand === hand) return other.kind === 'accent';
    }
    return false;
  };
  const soft = own.filter(isSoft);
  const leaked = level(soft.filter(({ slot }) => slot.barInCycle === bar && beside(slot)));
  const resting = level(soft.filter(({ slot }) => !beside(slot)));
  return leaked === null || resting === null ? null : leaked - resting;
}

function worse({ R, L }: Readonly<Record<Hand, number | null>>): Hand | null {
  if (R === null) return L === null ? null : 'L';
  return L === null || R >= L ? 'R' : 'L';
}

const deviations = (all: readonly SlotPass[]): number[] =>
  all.flatMap(({ pass }) => (pass.deviationMs === null ? [] : [pass.deviationMs]));
/** The hands' own are left out where it may as well be a swing. */
const early = <Late extends object>(late: Late, live: LiveState | null): Late =>
  live?.told === 'not by hand' ? { ...late, R: null, L: null } : late;
const lateness = (all: readonly SlotPass[]): number | null => median(deviations(all)) ?? null;

function scatter(all: readonly SlotPass[]): number | null {
  const late = deviations(all);
  const middle = median(late);
  if (middle === undefined || late.length < FEWEST_SPREAD) return null;
  const off = median(late.map((one) => Math.abs(one - middle)));
  return off === undefined ? null : MAD_TO_SD * off;
}

/** Fewer say nothing of a spread. Source: grading.md, as in `few.spread`. */
const FEWEST_SPREAD = 8;
