import type { Course } from '../alignment/course/types';
import type { Misfit } from '../alignment/types';
import type { GridBar, StrokeType } from '../exercises/types';
import type { Hand } from '../stroke';
import { handMeasures, measuresOf } from './all-measures';
import { slotsIn } from './figures/bar-values';
import { cleanBars } from './clean-bars';
import { gather, type Evidence } from './evidence/evidence';
import { feetReport } from './feet-report';
import { farthestSlot } from './facts/farthest-slot';
import { freeDrift } from './free-drift';
import type { Graded } from './graded';
import { linesIn } from './evidence/heights';
import { english } from '../words/en';
import { othersOf, partIn } from './others';
import { sayingOf, verdictWords, type Unworded } from './sayings';
import { blameOf } from './scope';
import { slotReports } from './facts/slot-reports';
import { madSpread, median } from './numbers/statistics';
import { timeReport, type TimeReport } from './time-report';
import type { JudgedKey, Measures, Report, SoftModel, TypeFigure, VariationReport, Weakest } from './types';
import { bandWithout, namingKeys, weakestFirst, worstOf } from './weakest';

/**
 * The report of a take (grading.md section 9): the same input gives the same report, byte for byte. A take that does
 * not fit its grid has counts, slots and a reason, and no grade: no measures, no bars, no weakest variation.
 */
export function reportOf(graded: Graded): Report {
  const { alignment, grid } = graded;
  const evidence = gather(graded);
  const misfit = misfitLeft(evidence);
  const fits = misfit === null;
  const heights = linesIn(evidence, {});
  const time = timeReport(evidence);
  const measures = fits ? measuresOf(evidence) : {};
  const ungraded = {
    format: 'evenhand-report',
    version: 2,
    takeId: graded.takeId,
    hands: graded.hands,
    limits: graded.limits,
    counts: evidence.tallies.counts,
    offsetMs: alignment.offsetMs,
    fits,
    misfit,
    cycles: graded.cycles,
    slips: alignment.slips,
    course: [...alignment.course, ...swingIn(measures, time), ...(fits ? freeDrift(graded) : [])],
    slipsNotToldBecause: alignment.slipsNotToldBecause,
    clipping: evidence.clipping.surfaces,
    settings: graded.settings,
    ...(evidence.surfaces.length > 1
      ? { surfaces: evidence.surfaces.map((name) => name ?? 'surfaces left to the player') }
      : {}),
    ...(graded.balanceLeftDb === undefined ? {} : { balanceLeftDb: graded.balanceLeftDb }),
    ...(graded.afterAccent === undefined ? {} : { afterAccent: graded.afterAccent }),
    ...(graded.closestPairs === undefined ? {} : { closestPairs: graded.closestPairs }),
    ...(graded.falseNotesKnown === true ? { falseNotesKnown: true as const } : {}),
    ...(graded.clumped === true ? { clumped: true as const } : {}),
    ...(heights === undefined ? {} : { heights }),
    ...(graded.freeTime === undefined ? {} : { freeTime: graded.freeTime }),
  } as const;
  const ofVariations = evidence.names.map((_, variation) => (fits ? measuresOf(evidence, variation) : {}));
  const { slots, counting } = slotReports(evidence, [measures, ...ofVariations]);
  const feet = fits ? feetReport(evidence) : undefined;
  const body: Unworded = fits
    ? {
        ...ungraded,
        measures,
        softModel: { R: softModel(evidence, 'R'), L: softModel(evidence, 'L') },
        ...(time === undefined ? {} : { timeModel: time }),
        bars: cleanBars(evidence),
        variations: variationReports(evidence, ofVariations),
        perHand: {
          R: { measures: handMeasures(evidence, 'R') },
          L: { measures: handMeasures(evidence, 'L') },
        },
        strokeTypes: { R: strokeTypes(evidence, 'R'), L: strokeTypes(evidence, 'L') },
        slots,
        counting,
        ...(feet === undefined ? {} : { feet }),
      }
    : {
        ...ungraded,
        measures,
        softModel: { R: null, L: null },
        bars: [],
        variations: variationReports(evidence, ofVariations),
        perHand: { R: { measures: {} }, L: { measures: {} } },
        strokeTypes: { R: noTypes, L: noTypes },
        slots,
        counting,
      };
  const found = fits ? weakestIn(evidence, body) : null;
  const weakest = found === null ? null : { ...found, sentence: verdictWords(body, found, graded.barsDue) };
  const saying = sayingOf(body, found, grid, graded.barsDue);
  const others = othersOf(evidence, body, weakest);
  return { ...body, saying, sentence: english(saying), weakest, others };
}

/** Where the off-beats lie, as a percentage of their pair, where that isn't where the phrase has them. */
function swingIn({ feel }: Measures, time: TimeReport | undefined): readonly Course[] {
  const percent = time?.swingPercent;
  const isOut = typeof feel?.value === 'number' && (feel.supported ?? 0) < 0;
  return isOut && typeof percent === 'number' ? [{ kind: 'swing', percent }] : [];
}

/** A take that swings fits its grid where the time model tells the swing, or says what may be swing. */
function misfitLeft({ graded: { alignment, settings }, time }: Evidence): Misfit | null {
  const { misfit } = alignment;
  const { model, offBeatsMs = 0, straightGapMs = 0 } = time;
  if (misfit?.reason !== 'swung' || model === undefined) return misfit;
  // Uneven in another way than by its off-beats it is no swing.
  if (Math.abs(offBeatsMs) < (settings['fit.swungGaps'] / 2) * straightGapMs) return misfit;
  return model.feel !== null || model.notToldApart.length > 0 ? null : misfit;
}

/** A row for each variation of the phrase, in its order. */
function variationReports(evidence: Evidence, measures: readonly Measures[]): VariationReport[] {
  const { names, graded } = evidence;
  const keys = namingKeys(measures);
  const known = names.map((name, v) => variationReport(evidence, name, measures[v], keys));
  const notReached = graded.variationsDue
    .filter((name) => !names.includes(name))
    .map((name): VariationReport => ({ name, bars: 0, slots: 0, ...notPlayed }));
  return [...known, ...notReached].sort((a, b) => orderOf(graded, a) - orderOf(graded, b));
}

const notPlayed = { band: 'not played', supported: null, measures: {} } as const;

const orderOf = ({ variationsDue }: Graded, { name }: VariationReport): number => variationsDue.indexOf(name);

function variationReport(
  evidence: Evidence,
  name: string,
  measures: Measures,
  keys: readonly JudgedKey[],
): VariationReport {
  const own = evidence.graded.grid.bars.filter((bar) => bar.variation === name && bar.role === 'play');
  const row = { name, bars: own.length, slots: own.reduce((sum, bar) => sum + bar.slots, 0) };
  const played = own.filter((bar) => isPlayed(evidence, bar));
  if (own.length > 0 && played.length === 0) return { ...row, ...notPlayed };
  const worst = worstOf(measures, keys);
  if (worst === undefined) return { ...row, band: bandWithout(measures), supported: null, measures };
  const band = worst.figure.band ?? bandWithout(measures);
  const isEarly = band === 'holds' && played.length < evidence.graded.settings['verdict.fewestBars'];
  return {
    ...row,
    band: isEarly ? 'too few bars' : band,
    supported: worst.supported,
    measure: worst.key,
    measures,
  };
}

/** A bar that wasn't left out, nor played as another one. */
function isPlayed({ graded: { alignment } }: Evidence, bar: GridBar): boolean {
  return slotsIn(bar, (i) => !['notPlayed', 'otherBar'].includes(alignment.outcomes[i].status)).length > 0;
}

function weakestIn(evidence: Evidence, body: Unworded): Omit<Weakest, 'sentence'> | null {
  const standings = weakestFirst(body.variations);
  if (standings.length === 0) return null;
  const [first] = standings;
  const { variation, key, part, figure } = first;
  return {
    ...blameOf(evidence, first),
    variation: variation.name,
    measure: key,
    ...partIn(part),
    ...(figure.hand === undefined ? {} : { hand: figure.hand }),
    slot: farthestSlot(evidence, evidence.names.indexOf(variation.name), key, part, figure),
    value: figure.value ?? 0,
  };
}

function softModel(evidence: Evidence, hand: Hand): SoftModel | null {
  const { fit } = evidence.models[hand];
  if (fit === undefined) return null;
  const { rest, after, before, spill, second } = fit.terms;
  return {
    rest: rest?.value ?? null,
    after: after?.value ?? null,
    before: before?.value ?? null,
    spill: spill?.value ?? null,
    second: second?.value ?? null,
  };
}

function strokeTypes(evidence: Evidence, hand: Hand): Record<StrokeType, TypeFigure> {
  const figure = (type: StrokeType): TypeFigure => {
    const levels = evidence.levels.select({ hand }, ['accent', 'tap', 'ghost'], type);
    return { n: levels.n, level: median(levels) ?? null, spread: madSpread(levels) ?? null };
  };
  return { full: figure('full'), down: figure('down'), tap: figure('tap'), up: figure('up') };
}

const none: TypeFigure = { n: 0, level: null, spread: null };
const noTypes = { full: none, down: none, tap: none, up: none };
