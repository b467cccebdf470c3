import { distributionOf, madSpread, median } from '../grading/statistics';
import type { JudgedKey, Report, SlotReport, Weakest } from '../grading/types';
import { gridOf } from '../exercises/grid';
import type { Take } from '../sessions/types';
import type { Hand } from '../stroke';
import { countOf } from './bar-columns';
import { chartTitle, placeTitle } from './chart-title';
import type { ChartPicture, ChartPoint, ChartRow } from './types';

/** Reasons that are shown stroke by stroke of the bar, and not by kind of stroke. */
const placeReasons: ReadonlySet<JudgedKey> = new Set(['scatter', 'lag', 'doubleGap', 'seam']);

/**
 * The picture that shows the reason best: levels by kind of stroke and hand, or stroke by stroke of the bar where timing
 * or a seam is the reason. Of the weakest variation where there is one, else of the whole take. Wrong hands, slipped and
 * missed strokes are left out. Null where there is nothing to draw, or where strokes that weren't there are the reason.
 */
export function chartPicture(take: Take, report: Report): ChartPicture | null {
  const weakest = report.weakest;
  const reason = weakest?.measure ?? null;
  if (reason === 'complete') return null;
  const variation = weakest?.variation ?? null;
  const byPlace = weakest !== null && reason !== null && placeReasons.has(reason);
  const unit = byPlace && !isSeamOfLevel(report, weakest) ? 'ms' : 'dB';
  const rows = byPlace
    ? placeRows(take, report, weakest, unit)
    : levelRows(report, variation, reason, weakest?.hand ?? null);
  if (rows.length === 0) return null;
  const title = byPlace ? placeTitle(unit) : chartTitle(reason, weakest?.hand ?? null, rows);
  return { title, of: variation ?? 'whole take', unit, byPlace, rows };
}

/** True where the level of a seam is further out than its time. */
function isSeamOfLevel(report: Report, weakest: Weakest): boolean {
  const seam = report.variations.find(({ name }) => name === weakest.variation)?.measures.seam;
  return (
    weakest.measure === 'seam' && seam !== undefined && (seam.dB.supported ?? 1) < (seam.ms.supported ?? 1)
  );
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

/** A row a stroke of the bar: deviations with the take's offset taken off (early negative), or levels. */
function placeRows(take: Take, report: Report, weakest: Weakest, unit: 'ms' | 'dB'): ChartRow[] {
  const grid = gridOf(take.phrase, take.tempo, 0, take.phrase.bars.length);
  const bar = grid.bars.find((one) => one.variation === weakest.variation);
  if (bar === undefined) return [];
  const own = report.slots.filter(
    ({ bar: index, status, wrongHand }) =>
      report.bars[index]?.variation === weakest.variation && status === 'matched' && wrongHand !== true,
  );
  return grid.slots
    .filter((slot) => slot.bar === bar.index)
    .map((slot): ChartRow => {
      const count = countOf(slot.beat, slot.partialInBeat, bar.partialsPerBeat[slot.beat]);
      const values = own
        .filter((one) => one.slot === slot.slot)
        .map(({ deviationMs, level }) => {
          if (unit === 'dB') return level;
          return deviationMs === null ? null : deviationMs - report.offsetMs;
        })
        .filter((value) => value !== null);
      const point = pointOf(values, weakest.slot === slot.slot);
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
