import type { JudgedKey, Report } from '../../grading/types';
import { isPlayed, toldSlots, type ToldSlot } from '../../insight/annotated-slots';
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

type Group = readonly [label: string, belongs: (told: ToldSlot) => boolean];

const isSoft = ({ slot }: ToldSlot): boolean => slot.kind !== 'accent';
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
        ['first of a soft double', (told) => isSoft(told) && told.double === 'first'],
        ['second of a soft double', (told) => isSoft(told) && told.double === 'second'],
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
const afterOnly = (told: ToldSlot): boolean => isSoft(told) && told.afterAccent && !told.beforeAccent;

const REASON_ROW = 1;
const namingRow: ReadonlySet<JudgedKey> = new Set(['leakBefore', 'leakAfter', 'spill', 'fade']);

function levelRows(
  report: Report,
  variation: string | null,
  reason: JudgedKey | null,
  hand: Hand | null,
): ChartRow[] {
  const told = toldSlots(report).filter(
    (one) => isPlayed(one) && (variation === null || one.variation === variation),
  );
  const isWeakest = variation === null || variation === report.weakest?.variation;
  return groupsFor(reason)
    .map(([label, belongs], row): ChartRow => {
      const point = (of: Hand) => {
        const levels = told
          .filter((one) => one.slot.hand === of && belongs(one))
          .flatMap(({ slot }) => (slot.level === null ? [] : [slot.level]));
        const isReason = reason !== null && namingRow.has(reason) && row === REASON_ROW && hand === of;
        return pointOf(levels, isReason && isWeakest);
      };
      return { label, R: point('R'), L: point('L') };
    })
    .filter((row) => row.R !== null || row.L !== null);
}
