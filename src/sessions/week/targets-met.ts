import type { Figure, Report } from '../../grading/types';
import type { Bpm } from '../../units';
import type { Take } from '../types';
import type { TargetMeasure, WeekSheet, WeekTarget } from '../week-sheet';

/** A take that came back, with its report. */
export interface Returned {
  readonly take: Take;
  readonly report: Report;
}

/** What became of a target. *not told*: no take can say, because it has too few strokes or did not fit. */
export interface TargetOutcome {
  readonly target: WeekTarget;
  readonly outcome: 'met' | 'not met' | 'not told';
  /** The nearest that any take came, in the target's unit; null where there is nothing to say. */
  readonly best: number | null;
}

/** A tempo is held where four bars of five are: as a ceiling is told. */
const HELD_SHARE = 0.8;
const HELD_BARS = 5;

/**
 * Which targets of a week sheet the takes that came back met. A target is met where one take meets it; minutes add up
 * over all of them. Takes of another phrase are the caller's to leave out.
 */
export function targetsMet(sheet: WeekSheet, returned: readonly Returned[]): readonly TargetOutcome[] {
  return sheet.targets.map((target) => outcomeOf(target, returned));
}

function outcomeOf(target: WeekTarget, returned: readonly Returned[]): TargetOutcome {
  switch (target.kind) {
    case 'tempo': {
      const held = returned.flatMap(({ take, report }) => heldBpm(take, report));
      const best = held.length === 0 ? null : Math.max(...held);
      return { target, outcome: best !== null && best >= target.bpm ? 'met' : toldBy(returned), best };
    }
    case 'holds': {
      const bands = returned.map(({ report }) => bandsOf(report, target.variation));
      const met = bands.some((all) => all.length > 0 && all.every((band) => band === 'holds'));
      const told = bands.some((all) => all.some((band) => band === 'close' || band === 'not yet'));
      return { target, outcome: met ? 'met' : told ? 'not met' : 'not told', best: null };
    }
    case 'measure': {
      const figures = returned.flatMap(({ report }) => figureOf(report, target.measure, target.variation));
      const values = figures.flatMap(({ value }) => (value === null ? [] : [value]));
      if (values.length === 0) return { target, outcome: 'not told', best: null };
      const best = bestOf(values, target);
      return { target, outcome: reaches(best, target) ? 'met' : 'not met', best };
    }
    case 'minutes': {
      const best = returned.reduce((sum, { take }) => sum + minutesOf(take), 0);
      return { target, outcome: best >= target.minutes ? 'met' : 'not met', best };
    }
  }
}

/** The tempo of a take in which four bars of five held; none for a ramp, or for a take of under five bars. */
function heldBpm({ tempo }: Take, { bars }: Report): readonly Bpm[] {
  const played = bars.filter(({ role }) => role === undefined);
  if (!('bpm' in tempo) || played.length < HELD_BARS) return [];
  return played.filter(({ held }) => held).length >= HELD_SHARE * played.length ? [tempo.bpm] : [];
}

const toldBy = (returned: readonly Returned[]): TargetOutcome['outcome'] =>
  returned.some(({ report }) => report.bars.length >= HELD_BARS) ? 'not met' : 'not told';

const bandsOf = ({ variations }: Report, wanted: string | undefined): readonly string[] =>
  variations.filter(({ name }) => wanted === undefined || name === wanted).map(({ band }) => band);

/** The whole take's figure, or those of one variation. */
function figureOf(report: Report, measure: TargetMeasure, wanted: string | undefined): readonly Figure[] {
  const of =
    wanted === undefined
      ? [report.measures]
      : report.variations.filter(({ name }) => name === wanted).map(({ measures }) => measures);
  return of.flatMap((measures) => measures[measure] ?? []);
}

type MeasureTarget = Extract<WeekTarget, { kind: 'measure' }>;

/** Measures in which either direction is as bad. */
const TWO_SIDED: readonly TargetMeasure[] = ['fade', 'doubleGap', 'balanceSoft', 'balanceAccent', 'lag'];

const sized = (value: number, { measure }: MeasureTarget): number =>
  TWO_SIDED.includes(measure) ? Math.abs(value) : value;

function bestOf(values: readonly number[], target: MeasureTarget): number {
  const sizes = values.map((value) => sized(value, target));
  const best = target.atMost === undefined ? Math.max(...sizes) : Math.min(...sizes);
  return values[sizes.indexOf(best)];
}

function reaches(value: number, target: MeasureTarget): boolean {
  const size = sized(value, target);
  return target.atMost === undefined ? size >= (target.atLeast ?? Infinity) : size <= target.atMost;
}

const MINUTE_MS = 60_000;

/** From the first stroke to the last. */
function minutesOf({ hits }: Take): number {
  return hits.length === 0 ? 0 : (hits[hits.length - 1].atMs - hits[0].atMs) / MINUTE_MS;
}
