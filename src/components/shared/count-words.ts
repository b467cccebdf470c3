import type { Report } from '../../grading/types';
import { fixed } from './numbers';

/** What became of slots and strokes, in a line; what didn't happen isn't said. */
export function countWords(report: Report): string {
  const { counts, cycles, bars } = report;
  const happened: readonly (readonly [number, string])[] = [
    [counts.missed, 'missed'],
    [counts.extra, 'added'],
    [counts.wrongHand, 'with the other hand'],
    [counts.wrongSurface ?? 0, 'on another drum'],
    [counts.slipped, 'slipped'],
    [counts.otherBar, 'in a bar played as another'],
    [counts.notPlayed, 'not played'],
    [counts.tooSoft, 'too soft for this pad'],
    [counts.notMeasured, 'not measured'],
    [counts.gracesMissed ?? 0, 'grace notes left out'],
    [counts.doubles, 'came twice'],
    [counts.echoes, 'echoes'],
    [counts.forerunners, 'forerunners'],
    [counts.crosstalk, 'crosstalk'],
    [counts.unmapped, 'on notes no surface owns'],
  ];
  const parts = happened.filter(([count]) => count > 0).map(([count, what]) => `${count} ${what}`);
  const toPlay = bars.filter((bar) => bar.role === undefined);
  const clean = toPlay.filter((bar) => bar.clean).length;
  return [
    `${counts.matched} of ${counts.slots} slots played${parts.length === 0 ? '' : `, ${parts.join(', ')}`}.`,
    `${clean} of ${toPlay.length} bars clean.`,
    `Cycles due ${cycles.due}, played ${cycles.played}.`,
    report.freeTime === undefined
      ? `Offset ${fixed(report.offsetMs, 1)} ms, taken off.`
      : 'Free time: deviations are from your own tempo.',
  ].join(' ');
}
