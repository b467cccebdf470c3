import { isFault } from './verdict';
import type { Grid } from '../exercises/types';
import { english, type RigFault, type Saying } from '../words/en';
import type { Finding } from '../words/findings';
import type { Reason } from '../words/measures';
import { courseSayings } from './course-sayings';
import type { JudgedKey } from './measures';
import { worstFigureOf } from './figures/named-figures';
import { reasonOf, type Telling } from './reasons';
import type { Measures, Report, VariationReport, Weakest } from './types';
import {
  figureOf,
  isOut,
  isShadowOf,
  measuresOver,
  weakestFirst,
  worstOfTake,
  type VariationStanding,
} from './weakest';

/** A report before its words. */
export type Unworded = Omit<Report, 'saying' | 'sentence' | 'weakest' | 'others'>;

/** Where the weakest variation's fault lives. */
type Found = Omit<Weakest, 'sentence'>;

/**
 * The first line of a report. A take that does not fit its grid has only that. What happened to the take as a whole comes
 * first, then of the rest the first that applies: the rig, with the next as a second clause; a slip; the weakest variation.
 * @param grid says on which beat a slip began
 * @param barsDue bars to play that were due, in all cycles
 */
export function sayingOf(
  report: Unworded,
  weakest: Found | null,
  grid: Grid,
  barsDue: number,
): readonly Saying[] {
  if (!report.fits) return [misfit(report)];
  const finding = slip(report, grid) ?? verdict(report, weakest, barsDue);
  const faults = rigFaults(report, weakest);
  return [
    ...courseSayings(report.course, grid),
    faults.length === 0 ? finding : { key: 'rig first', args: { faults, then: finding } },
  ];
}

/** What is weak, where and why; where all hold, that first, and what to polish. */
export function verdictWords(report: Unworded, found: Found | null, barsDue: number): string {
  return english([verdict(report, found, barsDue)]);
}

/**
 * What is out beside what leads, by where it lives.
 * @param found null for what only the whole take shows
 * @param worst the variation that it is worst in
 */
export function otherWords(
  report: Unworded,
  found: Pick<Found, 'scope' | 'variations' | 'hand'> | null,
  key: JudgedKey,
  worst?: VariationReport,
): string {
  return english([otherFinding(report, found, key, worst)]);
}

function otherFinding(
  report: Unworded,
  found: Pick<Found, 'scope' | 'variations' | 'hand'> | null,
  key: JudgedKey,
  worst?: VariationReport,
): Finding {
  const single = report.variations.length === 1;
  if (found === null || worst === undefined) {
    return { key: 'take out', args: { single, holds: false, reason: outIn(key, report.measures, report) } };
  }
  const { scope, variations } = found;
  const reason = outIn(key, worst.measures, report);
  if (single) return { key: 'phrase out', args: { reason } };
  if (scope !== 'variation' && scope !== 'variations') return outInMany(report, key, found, reason);
  const alike = variations.filter((name) => name !== worst.name);
  return { key: 'in variation', args: { variation: worst.name, alike, reason } };
}

/** From here up nothing is worth polishing. */
const NEARLY_IDEAL = 0.99;

function verdict(report: Unworded, found: Found | null, barsDue: number): Finding {
  const standings = weakestFirst(report.variations);
  if (standings.length === 0 || found === null) return tooFew(report);
  if (standings[0].supported < 0) return fault(report, found, standings);
  const overall = outOverAll(report);
  if (overall !== undefined) {
    const { variations } = report;
    const holds = variations.every(({ band }) => band === 'holds');
    return { key: 'take out', args: { single: variations.length === 1, holds, reason: overall } };
  }
  return goodSoFar(report, barsDue) ?? holding(report, standings);
}

/** What is out: in a variation, some of them, or the phrase. */
function fault(report: Unworded, found: Found, standings: readonly VariationStanding[]): Finding {
  const { scope, variations } = found;
  const [first] = standings;
  const { key } = first;
  const { name, measures } = first.variation;
  const reason = outIn(key, measures, report);
  if (report.variations.length === 1) return { key: 'phrase out', args: { reason } };
  switch (scope) {
    case 'variation':
      return {
        key: 'weak bar',
        args: { variation: name, reason, ...alsoIn(first), ...nextIn(report, standings) },
      };
    case 'variations':
      return { key: 'weak bars', args: { variations, worst: name, reason } };
    default:
      return outInMany(report, key, found, reason);
  }
}

/** By the figure over the whole take of the same hand, where that is out too. */
function outInMany(
  report: Unworded,
  key: JudgedKey,
  { variations, hand }: Pick<Found, 'variations' | 'hand'>,
  ofWorst: Reason,
): Finding {
  const over = measuresOver(report, key, hand);
  const found = worstFigureOf(over, key)?.figure;
  const isOverAll = found !== undefined && isOut(found);
  return {
    key: 'out in many',
    args: {
      where: whereIn(report, key, variations.length),
      reason: isOverAll ? outIn(key, over, report) : ofWorst,
    },
  };
}

function outIn(key: JudgedKey, measures: Measures, report: Unworded): Reason {
  return reasonOf(key, measures, tellingOf(report, true));
}

const leaks = ['leakBefore', 'leakAfter', 'spill'] as const;

/** The same hand's other leaks in the weak bar: a leak with a spill is both. */
function alsoIn({ key, figure, variation }: VariationStanding): Pick<WeakBar, 'also'> {
  if (!leaks.some((leak) => leak === key)) return {};
  const also = leaks.flatMap((where) => {
    const other = where === key ? undefined : figureOf(variation.measures, where);
    const isAlso = isFault(other?.band) && other?.hand === figure.hand;
    return isAlso && typeof other?.value === 'number' ? [{ where, db: other.value }] : [];
  });
  return also.length === 0 ? {} : { also };
}

type WeakBar = Extract<Finding, { readonly key: 'weak bar' }>['args'];

/** Of the variations in which a measure's strokes occur, how many have its fault. */
function whereIn({ variations }: Unworded, key: JudgedKey, bad: number): Where {
  const figures = variations.flatMap(({ measures }) => figureOf(measures, key) ?? []);
  const having = figures.filter(({ value }) => value !== null).length;
  const out = figures.filter(({ band }) => isFault(band)).length;
  if (2 * Math.min(bad, out) <= having) return 'phrase';
  if (out < having) return 'most';
  return having === variations.length ? 'every' : 'every that has them';
}

type Where = Extract<Finding, { readonly key: 'out in many' }>['args']['where'];

/** The next variation, where another fault of it comes close to the weakest's. */
function nextIn(
  report: Unworded,
  standings: readonly VariationStanding[],
): { next?: { variation: string; reason: Reason } } {
  const second = namedIn(standings, report.settings['weakest.tie']).at(1);
  if (second === undefined || second.key === standings[0].key || second.supported >= 0) return {};
  const { name, measures } = second.variation;
  return { next: { variation: name, reason: outIn(second.key, measures, report) } };
}

/** Where no variation has bars enough to hold. */
function goodSoFar(report: Unworded, barsDue: number): Finding | undefined {
  const early = report.variations.filter(({ band }) => band === 'too few bars');
  if (early.length === 0 || report.variations.some(({ band }) => band === 'holds')) return undefined;
  const bars = report.bars.filter(({ role }) => role === undefined).length;
  return {
    key: 'good so far',
    args: {
      variations: early.length === report.variations.length ? [] : early.map(({ name }) => name),
      ...(2 * bars <= barsDue ? { only: { bars, due: barsDue } } : {}),
    },
  };
}

function holding(report: Unworded, standings: readonly VariationStanding[]): Finding {
  const { variations } = report;
  const single = variations.length === 1;
  const hold = variations.filter(({ band }) => band === 'holds').length;
  return {
    key: 'holds',
    args: {
      which: single ? 'phrase' : hold < variations.length ? 'every one played often enough' : 'every one',
      sure: standings.every(({ figure }) => figure.sure === true),
      notPlayed: variations.filter(({ band }) => band === 'not played').map(({ name }) => name),
      // What happened to the take is enough to work on.
      ...(report.course.length > 0 ? {} : { polish: polishIn(report, standings) }),
    },
  };
}

/** What is least good, of which variations: none named of a phrase of one. */
function polishIn(report: Unworded, standings: readonly VariationStanding[]): Polish {
  const named = namedIn(standings, report.settings['weakest.tie']);
  const [first, second] = named;
  if (first.supported > NEARLY_IDEAL) return [];
  const single = report.variations.length === 1;
  const isOne = single || (second !== undefined && isAlike(first, second));
  const telling = tellingOf(report, false);
  return (isOne ? [first] : named).map((one) => ({
    variations: single ? [] : (isOne ? named : [one]).map(({ variation }) => variation.name),
    reason: reasonOf(one.key, one.variation.measures, telling),
  }));
}

type Polish = NonNullable<Extract<Finding, { readonly key: 'holds' }>['args']['polish']>;

/** The same measure out on the same side, of the same hand: worth saying once. */
function isAlike(a: VariationStanding, b: VariationStanding): boolean {
  const side = ({ figure }: VariationStanding): number => Math.sign(figure.value ?? 0);
  return a.key === b.key && a.figure.hand === b.figure.hand && side(a) === side(b);
}

/**
 * The weakest, and the next where it is under the tie (0.2) away. Standings are of different variations. Where `fade`
 * is the reason, a leak of that hand isn't named beside it: a soft second note makes its neighbours look loud.
 */
function namedIn(standings: readonly VariationStanding[], tie: number): readonly VariationStanding[] {
  const [first, second] = standings;
  if (standings.length < 2 || second.supported - first.supported >= tie) return [first];
  const shadow = isShadowOf(second.key, first.key) && first.figure.hand === second.figure.hand;
  return shadow ? [first] : [first, second];
}

function tooFew(report: Unworded): Finding {
  if (worstOfTake(report, true) === undefined) return { key: 'too few strokes', args: {} };
  const reason = outOverAll(report);
  return { key: 'too few strokes of a variation', args: reason === undefined ? {} : { reason } };
}

/** What is out over the whole take and wasn't told before; undefined where nothing is. */
function outOverAll(report: Unworded): Reason | undefined {
  const overall = worstOfTake(report, true);
  if (overall === undefined || overall.supported >= 0) return undefined;
  return reasonOf(overall.key, report.measures, tellingOf(report, true));
}

function misfit({ misfit: found, settings }: Unworded): Saying {
  const { reason = 'unpaired', tempoBpm } = found ?? {};
  return {
    key: 'does not fit',
    args: {
      why: reason,
      ...(tempoBpm === undefined ? {} : { tempoBpm }),
      paired: settings['fit.paired'],
    },
  };
}

/** What of the rig stands in the way. */
function rigFaults(
  { counts, clipping, settings, variations, falseNotesKnown }: Unworded,
  weakest: Found | null,
): readonly RigFault[] {
  const strokes = counts.matched + counts.slipped + counts.extra;
  const found = (['echoes', 'forerunners', 'crosstalk'] as const).flatMap((kind): readonly RigFault[] => {
    const n = counts[kind];
    const isNamed = falseNotesKnown !== true && n > 0 && n >= settings['rig.namedFrom'] * strokes;
    return isNamed ? [{ kind, percent: (100 * n) / Math.max(strokes, n) }] : [];
  });
  const isOut = variations.some(({ name, band }) => name === weakest?.variation && isFault(band));
  // A contrast that doesn't hold has no verdict where its accents may be louder than they read.
  const isUntold = variations.some(
    ({ measures: { contrast } }) => contrast?.atLeast === true && contrast.band === undefined,
  );
  const isOfAccents = isUntold || (isOut && ofAccents.some((key) => key === weakest?.measure));
  return clipping.length === 0 || !isOfAccents ? found : [...found, { kind: 'clipping', surfaces: clipping }];
}

/** What accents that reach the loudest velocity make doubtful. */
const ofAccents: readonly JudgedKey[] = [
  'contrast',
  'ghostContrast',
  'clarity',
  'balanceAccent',
  'accentSpread',
];

function slip({ slips }: Unworded, grid: Grid): Finding | undefined {
  if (slips.length === 0) return undefined;
  const [{ bar, slot, slots, lag }] = slips;
  const start = grid.bars[bar].firstSlot + slot;
  const stretch = grid.slots.slice(start, start + slots);
  const first = stretch.find(({ kind }) => kind === 'accent') ?? stretch[0];
  return {
    key: 'slipped',
    args: { lag, bar: first.bar, beat: first.beat, partial: first.partialInBeat, more: slips.length - 1 },
  };
}

export function tellingOf(report: Unworded, aims: boolean): Telling {
  const { hands, slots, settings, heights, timeModel, variations } = report;
  const taps = slots.some(({ kind }) => kind === 'tap');
  const ghosts = slots.some(({ kind }) => kind === 'ghost');
  return {
    handsKnown: hands === 'known',
    aims,
    soft: taps && ghosts ? 'soft stroke' : ghosts ? 'ghost note' : 'tap',
    softest: ghosts ? 'ghost note' : 'tap',
    mayBeSwing: timeModel?.notToldApart ?? [],
    variations: variations.length,
    settings,
    ...(heights === undefined ? {} : { heights }),
  };
}
