import { distributionOf, madSpread, median } from '../grading/statistics';
import type { JudgedKey, Report, SlotReport } from '../grading/types';
import { gridOf } from '../exercises/grid';
import type { Take } from '../sessions/types';
import type { Hand } from '../stroke';
import { countOf } from './bar-columns';
import { chartTitle } from './chart-title';
import type { ChartPicture, ChartPoint, ChartRow } from './types';

const timingReasons: ReadonlySet<JudgedKey> = new Set(['scatter', 'lag', 'doubleGap', 'seam']);

/**
 * The picture that shows the reason best: levels by kind of stroke and hand, or, where timing is the reason, where each
 * stroke of the bar falls. Of the weakest variation where there is one, else of the whole take. Wrong hands, slipped and
 * missed strokes are left out. Null where there is nothing to draw.
 */
export function chartPicture(take: Take, report: Report): ChartPicture | null {
  const weakest = report.weakest;
  const variation = weakest?.variation ?? null;
  const chosen = variation !== null && weakest !== null && timingReasons.has(weakest.measure);
  const rows = chosen
    ? timingRows(take, report, weakest.variation, weakest.slot)
    : levelRows(report, variation, weakest?.measure ?? null, weakest?.hand ?? null);
  if (rows.length === 0) return null;
  const unit = chosen ? 'ms' : 'dB';
  const title = chartTitle(weakest?.measure ?? null, weakest?.hand ?? null, rows);
  return { title, of: variation ?? 'whole take', unit, rows };
}

interface Told {
  readonly slot: SlotReport;
  readonly afterAccent: boolean;
  readonly beforeAccent: boolean;
  readonly besideAccent: boolean;
  readonly double: 'first' | 'second' | null;
}

type Group = readonly [label: string, belongs: (told: Told) => boolean];

const isSoft = ({ slot }: Told): boolean => slot.kind !== 'accent';
const accents: Group = ['accent', (told) => !isSoft(told)];

/** Groups of strokes that show a reason; the second is the one the reason is about, the first what it is held against. */
function groupsFor(reason: JudgedKey | null): readonly Group[] {
  switch (reason) {
    case 'spill':
      return [
        ['tap away from accents', (told) => isSoft(told) && !told.besideAccent],
        ['tap beside the other hand’s accent', (told) => isSoft(told) && told.besideAccent],
        accents,
      ];
    case 'fade':
      return [
        ['first of a soft double', (told) => told.double === 'first'],
        ['second of a soft double', (told) => told.double === 'second'],
        accents,
      ];
    case 'leakAfter':
      return [resting, ['tap after its accent', (told) => isSoft(told) && told.afterAccent], before, accents];
    default:
      return [resting, before, ['tap after its accent', afterOnly], accents];
  }
}

const resting: Group = ['resting tap', (told) => isSoft(told) && !told.afterAccent && !told.beforeAccent];
const before: Group = ['tap before its accent (up)', (told) => isSoft(told) && told.beforeAccent];
const afterOnly = (told: Told): boolean => isSoft(told) && told.afterAccent && !told.beforeAccent;

const REASON_ROW = 1;
const namingRow: ReadonlySet<JudgedKey> = new Set(['leakBefore', 'leakAfter', 'spill', 'fade']);

function levelRows(
  report: Report,
  variation: string | null,
  reason: JudgedKey | null,
  hand: Hand | null,
): ChartRow[] {
  const told = toldSlots(report).filter(
    ({ slot }) => variation === null || report.bars[slot.bar]?.variation === variation,
  );
  return groupsFor(reason)
    .map(([label, belongs], row): ChartRow => {
      const point = (of: Hand) => {
        const levels = told
          .filter((one) => one.slot.hand === of && belongs(one))
          .flatMap(({ slot }) => (slot.level === null ? [] : [slot.level]));
        const isReason = reason !== null && namingRow.has(reason) && row === REASON_ROW && hand === of;
        return pointOf(levels, isReason);
      };
      return { label, R: point('R'), L: point('L') };
    })
    .filter((row) => row.R !== null || row.L !== null);
}

/** Slots with what stands around them, round the take. */
function toldSlots(report: Report): Told[] {
  const slots = report.slots;
  const before = neighbours(slots, -1);
  const after = neighbours(slots, 1);
  const at = (index: number): SlotReport => slots[(index + slots.length) % slots.length];
  return slots
    .map((slot, index): Told => {
      const [previous, next] = [at(index - 1), at(index + 1)];
      const same = (other: SlotReport): boolean => other.hand === slot.hand && other.kind === slot.kind;
      const accentOfOther = (other: SlotReport): boolean =>
        other.hand !== slot.hand && other.kind === 'accent';
      const soft = slot.kind !== 'accent';
      return {
        slot,
        afterAccent: before[index]?.kind === 'accent',
        beforeAccent: after[index]?.kind === 'accent',
        besideAccent: accentOfOther(previous) || accentOfOther(next),
        double: !soft ? null : same(previous) ? 'second' : same(next) ? 'first' : null,
      };
    })
    .filter(({ slot }) => slot.status === 'matched' && slot.wrongHand !== true);
}

/** For each slot the same hand's one before (−1) or after (+1), round the take. */
function neighbours(slots: readonly SlotReport[], step: 1 | -1): (SlotReport | undefined)[] {
  const found: (SlotReport | undefined)[] = Array.from({ length: slots.length });
  const latest: Record<Hand, SlotReport | undefined> = { R: undefined, L: undefined };
  for (let turn = 0; turn < 2 * slots.length; turn += 1) {
    const index = step === -1 ? turn % slots.length : slots.length - 1 - (turn % slots.length);
    const slot = slots[index];
    found[index] = latest[slot.hand];
    latest[slot.hand] = slot;
  }
  return found;
}

/** A row a stroke of the bar: deviations with the take's offset taken off, early negative. */
function timingRows(take: Take, report: Report, variation: string, outSlot: number | null): ChartRow[] {
  const grid = gridOf(take.phrase, take.tempo, 0, take.phrase.bars.length);
  const bar = grid.bars.find((one) => one.variation === variation);
  if (bar === undefined) return [];
  const own = report.slots.filter(
    (slot) =>
      report.bars[slot.bar]?.variation === variation && slot.status === 'matched' && slot.wrongHand !== true,
  );
  return grid.slots
    .filter((slot) => slot.bar === bar.index)
    .map((slot): ChartRow => {
      const count = countOf(slot.beat, slot.partialInBeat, bar.partialsPerBeat[slot.beat]);
      const deviations = own
        .filter((one) => one.slot === slot.slot)
        .flatMap(({ deviationMs }) => (deviationMs === null ? [] : [deviationMs - report.offsetMs]));
      const point = pointOf(deviations, outSlot === slot.slot);
      const label = `${count === '' ? '·' : count}  ${slot.hand}${slot.kind === 'accent' ? ' >' : ''}`;
      return { label, R: slot.hand === 'R' ? point : null, L: slot.hand === 'L' ? point : null };
    });
}

function pointOf(values: readonly number[], out: boolean): ChartPoint | null {
  const distribution = distributionOf(values);
  const middle = median(distribution);
  if (middle === undefined) return null;
  return { median: middle, spread: madSpread(distribution) ?? 0, n: values.length, out };
}
