import { countedAs, slotsAsDue } from '../../grading/facts/facts';
import type { JudgedKey, Report, SlotReport } from '../../grading/types';
import type { Hand } from '../../stroke';
import { kindTitle } from './by-kind-title';
import { pointOf, type ChartRow, type RowsPicture } from './picture';

/**
 * Levels by kind of stroke and hand, grouped so that the reason shows. Wrong hands, slipped and missed strokes are left
 * out. Null where there is nothing to draw.
 * @param variation the variation it is of; null for the whole take
 */
export function byKind(report: Report, variation: string | null): RowsPicture | null {
  const { weakest } = report;
  const reason = weakest?.measure ?? null;
  const hand = weakest?.hand ?? null;
  const rows = levelRows(report, variation, reason, hand);
  if (rows.length === 0) return null;
  return {
    kind: 'rows',
    name: 'levels by kind',
    title: kindTitle(reason, hand, rows),
    of: variation ?? 'whole take',
    drawn: 'median and spread, dB',
    unit: 'dB',
    byPlace: false,
    rows,
  };
}

type Group = readonly [label: string, belongs: (slot: SlotReport, report: Report) => boolean];

const isSoft = ({ kind }: SlotReport): boolean => kind !== 'accent';
const has = ({ terms = [] }: SlotReport, term: 'before' | 'after' | 'spill'): boolean => terms.includes(term);
const accents: Group = ['accent', (slot) => !isSoft(slot)];

/** Groups of strokes that show a reason; the second is the one the reason is about, the first what it is held against. */
function groupsFor(reason: JudgedKey | null): readonly Group[] {
  switch (reason) {
    case 'spill':
      return [
        ['tap away from accents', (slot) => isSoft(slot) && !has(slot, 'spill')],
        ['tap beside the other hand’s accent', (slot) => has(slot, 'spill')],
        accents,
      ];
    case 'fade':
      return [
        ['first of a soft double', (slot, report) => countedAs(report, slot, 'fade') === 'first'],
        ['second of a soft double', (slot, report) => countedAs(report, slot, 'fade') === 'second'],
        accents,
      ];
    case 'leakAfter':
      return [resting, ['tap after its accent', (slot) => has(slot, 'after')], before, accents];
    default:
      return [resting, before, ['tap after its accent', afterOnly], accents];
  }
}

const resting: Group = ['resting tap', (slot) => isSoft(slot) && !has(slot, 'after') && !has(slot, 'before')];
const before: Group = ['tap before its accent (up)', (slot) => has(slot, 'before')];
const afterOnly = (slot: SlotReport): boolean => has(slot, 'after') && !has(slot, 'before');

const REASON_ROW = 1;
const namingRow: ReadonlySet<JudgedKey> = new Set(['leakBefore', 'leakAfter', 'spill', 'fade']);

function levelRows(
  report: Report,
  variation: string | null,
  reason: JudgedKey | null,
  hand: Hand | null,
): ChartRow[] {
  const played = slotsAsDue(report, variation);
  const isWeakest = variation === null || variation === report.weakest?.variation;
  return groupsFor(reason)
    .map(([label, belongs], row): ChartRow => {
      const point = (of: Hand) => {
        const levels = played
          .filter((slot) => slot.hand === of && belongs(slot, report))
          .flatMap(({ judgedLevel }) => judgedLevel ?? []);
        const isReason = reason !== null && namingRow.has(reason) && row === REASON_ROW && hand === of;
        return pointOf(levels, isReason && isWeakest);
      };
      return { label, R: point('R'), L: point('L') };
    })
    .filter((row) => row.R !== null || row.L !== null);
}
