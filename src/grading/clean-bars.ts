import type { Alignment } from '../alignment/types';
import type { GridBar } from '../exercises/types';
import { levelsIn, slotsIn } from './figures/bar-values';
import { who } from './evidence/codes';
import type { Evidence } from './evidence/evidence';
import { judgedMeasures, type JudgedKey } from './measures';
import type { BarReport, Broke } from './types';
import { marginOf } from './verdict';
import { onWrongSurface } from './evidence/wrong-surface';

/**
 * Each bar with what broke it: the one rule of what is good (grading.md section 7), asked by ceilings, climbs, targets,
 * notes and files. A bar is **complete** where nothing in it was missed, added, slipped, in the wrong hand or on the wrong
 * drum. It is **clean** where it is complete, no soft stroke is louder than its softest accent, and whatever it can show by
 * itself of each measure is on the good side (`inBar` of the measure's file). Conditions without strokes, and those that
 * can't be told, are skipped. A clean bar may hold a stroke outside its band: one stroke is no habit.
 * Source: common practice.
 * @example one missed stroke, the rest good: `{ clean: false, complete: false, broke: ['missed'] }`
 * @example a left tap that leaks by 6 dB, twice in the bar: `{ clean: false, complete: true, broke: ['leakBefore'] }`
 */
export function cleanBars(evidence: Evidence): BarReport[] {
  const { grid, alignment } = evidence.graded;
  const extras = new Set(alignment.extras.map(({ bar }) => bar));
  const stopped = stoppedIn(alignment);
  const conditions = conditionsOf(evidence);
  return grid.bars.map((bar): BarReport => {
    const { index, variation, role } = bar;
    if (role !== 'play') return { index, variation, role, clean: true, complete: true, broke: [] };
    const isStopped = stopped.has(index);
    if (!isStopped && isNotPlayed(evidence, bar)) {
      return { index, variation, role: 'notPlayed', clean: true, complete: true, broke: [] };
    }
    const faults = faultsIn(evidence, bar, { hasExtra: extras.has(index), isStopped });
    const broke: readonly Broke[] = [
      ...faults,
      ...orderIn(evidence, bar),
      ...conditions.filter(({ isBroken }) => isBroken(bar)).map(({ key }) => key),
    ];
    return { index, variation, clean: broke.length === 0, complete: faults.length === 0, broke };
  });
}

/** What keeps a bar from being complete, each kind once. */
function faultsIn(
  evidence: Evidence,
  bar: GridBar,
  { hasExtra, isStopped }: { readonly hasExtra: boolean; readonly isStopped: boolean },
): readonly Broke[] {
  const { graded } = evidence;
  const found = new Set<Broke>(hasExtra ? ['extra'] : []);
  if (isStopped) found.add('stopped');
  for (let i = bar.firstSlot; i < bar.firstSlot + bar.slots; i++) {
    const { status } = graded.alignment.outcomes[i];
    if (status === 'missed' || status === 'slipped' || status === 'otherBar') found.add(status);
    if (evidence.who[i] === who.none) continue;
    if (onWrongSurface(graded, i)) found.add('wrongDrum');
    else if (evidence.who[i] === who.wrong) found.add('wrongHand');
  }
  return FAULTS.filter((fault) => found.has(fault));
}

const FAULTS: readonly Broke[] = [
  'missed',
  'extra',
  'slipped',
  'otherBar',
  'wrongHand',
  'wrongDrum',
  'stopped',
];

/** Bars in which the player stopped, unless the port was gone; one that was whole before is none. */
function stoppedIn({ course }: Alignment): ReadonlySet<number> {
  return new Set(course.flatMap((one) => (one.kind === 'pause' && one.slot > 0 ? [one.bar] : [])));
}

function isNotPlayed({ graded: { alignment } }: Evidence, bar: GridBar): boolean {
  return bar.slots > 0 && slotsIn(bar, (i) => alignment.outcomes[i].status !== 'notPlayed').length === 0;
}

/** A soft stroke louder than the bar's softest accent, on one class of surfaces. */
function orderIn(evidence: Evidence, bar: GridBar): readonly Broke[] {
  const isOut = evidence.surfaces.some((_, surface) => {
    const { accents, softs } = levelsIn(evidence, bar, surface);
    return accents.length > 0 && softs.length > 0 && Math.max(...softs) > Math.min(...accents);
  });
  return isOut ? ['order'] : [];
}

interface Condition {
  readonly key: JudgedKey;
  readonly isBroken: (bar: GridBar) => boolean;
}

/** What a bar can show of each measure, in teaching order. Where time stamps came in clumps, times can't be told. */
function conditionsOf(evidence: Evidence): readonly Condition[] {
  const { settings, clumped } = evidence.graded;
  return judgedMeasures.flatMap(({ key, figures }) =>
    figures.flatMap(({ inBar, limit, madeOf }): readonly Condition[] => {
      if (inBar === undefined || (clumped === true && madeOf === 'times')) return [];
      const valuesOf = inBar.values(evidence);
      const least = inBar.leastMargin(settings) - ROUNDING;
      const isBroken = (bar: GridBar): boolean =>
        valuesOf(bar).some((at) => marginOf(at.value, limit(settings, at)) < least);
      return [{ key, isBroken }];
    }),
  );
}

/** A value right on its limit is on the good side, whatever the last bit. */
const ROUNDING = 1e-9;
