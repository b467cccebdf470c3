import { distributionOf, median } from '../../grading/numbers/statistics';
import { heightNames, type HeightName, type Heights } from '../../sessions/learned';
import type { Rig, Surface } from '../../sessions/types';
import type { Settings } from '../../settings';
import type { Hand } from '../../stroke';
import { levelDb, type Db } from '../../units';
import { asking, type Answers, type Asked } from './asked-strokes';
import { capital } from '../../text';

export interface AskedHeight extends Asked {
  readonly height: HeightName;
}
export type HeightsState = Answers<AskedHeight>;

/** Strokes of each hand at each height. Common practice, no source. */
const STROKES = 8;
const hands: readonly Hand[] = ['R', 'L'];

/**
 * Asks for eight strokes at low, half and full height, of each hand on each surface that it may play. Feet are left out.
 * Go on with `nextAsked(rig)`.
 */
export function heightsAsked(rig: Rig): HeightsState {
  return asking(
    rig.surfaces
      .filter(({ foot }) => foot === undefined)
      .flatMap((surface) =>
        hands
          .filter((hand) => surface.hand === null || surface.hand === hand)
          .flatMap((hand) =>
            heightNames.map((height): AskedHeight => ({
              surface: surface.id,
              hand,
              height,
              strokes: STROKES,
            })),
          ),
      ),
  );
}

/** What one hand showed on one surface. */
export interface HeightsShown {
  readonly surface: string;
  readonly hand: Hand;
  /** Undefined until all three heights were shown. */
  readonly heights: Heights | undefined;
  readonly problems: readonly HeightProblem[];
}

/** What is wrong with the way a surface reports a hand's strokes. */
export type HeightProblem =
  /** Share of full strokes at velocity 127. */
  | { readonly kind: 'clipping'; readonly share: number }
  /** Full strokes reach only this velocity, the median. */
  | { readonly kind: 'quiet'; readonly velocity: number }
  /** Low strokes arrive so near the end that softer ones are lost; the median velocity. */
  | { readonly kind: 'dead low end'; readonly velocity: number }
  /** Chance that a stroke of the lower height reads as loud as one of the higher. */
  | {
      readonly kind: 'overlap';
      readonly lower: HeightName;
      readonly higher: HeightName;
      readonly share: number;
    }
  /** Full minus low. */
  | { readonly kind: 'narrow'; readonly db: Db };

/** Full strokes should reach this; under it a module leaves range unused. Common practice. */
const FULL_VELOCITY = 95;
/** A low stroke this near the threshold leaves no space for a softer one, in velocity. Common practice. */
const ROOM_VELOCITY = 4;
const OVERLAP = 0.1;

/** What each hand showed on each surface so far. */
export function heightsShown(state: HeightsState, settings: Settings): readonly HeightsShown[] {
  const seen = new Map<string, { surface: string; hand: Hand; by: Map<HeightName, readonly number[]> }>();
  state.asked.forEach(({ surface, hand, height }, index) => {
    const key = `${hand} ${surface}`;
    const one = seen.get(key) ?? { surface, hand, by: new Map<HeightName, readonly number[]>() };
    seen.set(key, one);
    if (index < state.at) one.by.set(height, state.given[index]);
  });
  return [...seen.values()].map(({ surface, hand, by }) => {
    const [low, half, full] = heightNames.map((name) => by.get(name));
    if (low === undefined || half === undefined || full === undefined) {
      return { surface, hand, heights: undefined, problems: [] };
    }
    const heights: Heights = { low: heightOf(low), half: heightOf(half), full: heightOf(full) };
    return { surface, hand, heights, problems: problemsOf({ low, half, full }, heights, settings) };
  });
}

/** The rig with the heights in it. What a hand has not shown stays as it was. */
export function rigWithHeights(rig: Rig, shown: readonly HeightsShown[]): Rig {
  return {
    ...rig,
    surfaces: rig.surfaces.map((surface): Surface => {
      const own = shown.filter((one) => one.surface === surface.id && one.heights !== undefined);
      if (own.length === 0) return surface;
      const heights = Object.fromEntries(own.map((one) => [one.hand, one.heights]));
      return { ...surface, heights: { ...surface.heights, ...heights } };
    }),
  };
}

/**
 * Advice on one problem, in words.
 * @example heightAdvice({ kind: 'clipping', share: 0.22 })
 * // => Lower the module’s sensitivity: 22 % of full strokes are at 127; aim for 105–120.
 * @example heightAdvice({ kind: 'quiet', velocity: 71 })
 * // => Raise the module’s sensitivity: full strokes reach 71; aim for 105–120.
 */
export function heightAdvice(problem: HeightProblem): string {
  switch (problem.kind) {
    case 'clipping':
      return `Lower the module’s sensitivity: ${percent(problem.share)} of full strokes are at 127; aim for 105–120.`;
    case 'quiet':
      return `Raise the module’s sensitivity: full strokes reach ${Math.round(problem.velocity)}; aim for 105–120.`;
    case 'dead low end':
      return `Lower the module’s threshold, or choose a curve that gives soft strokes more room: low strokes arrive at velocity ${Math.round(problem.velocity)}, softer ones are lost.`;
    case 'overlap':
      return `${capital(problem.lower)} and ${problem.higher} run into each other: ${percent(problem.share)} of pairs read the wrong way round. Strike them again farther apart, or choose a straighter curve.`;
    case 'narrow':
      return `Low and full are only ${problem.db.toFixed(1)} dB apart here. Strike them again farther apart, or choose a straighter curve.`;
  }
}

function heightOf(velocities: readonly number[]): { db: Db; n: number } {
  return { db: medianOf(velocities.map((velocity) => levelDb(velocity))), n: velocities.length };
}

const medianOf = (values: readonly number[]): number => median(distributionOf(values)) ?? 0;

function problemsOf(
  by: Readonly<Record<HeightName, readonly number[]>>,
  heights: Heights,
  settings: Settings,
): readonly HeightProblem[] {
  const problems: HeightProblem[] = [];
  const clipped = by.full.filter((velocity) => velocity === 127).length / by.full.length;
  const [lowest, highest] = [medianOf(by.low), medianOf(by.full)];
  if (isClipping(clipped, settings)) problems.push({ kind: 'clipping', share: clipped });
  else if (highest < FULL_VELOCITY) problems.push({ kind: 'quiet', velocity: highest });
  if (lowest < settings['tooSoft.velocity'] + ROOM_VELOCITY) {
    problems.push({ kind: 'dead low end', velocity: lowest });
  }
  for (const [lower, higher] of [
    ['low', 'half'],
    ['half', 'full'],
  ] as const) {
    const share = overlapOf(by[lower], by[higher]);
    if (share > OVERLAP) problems.push({ kind: 'overlap', lower, higher, share });
  }
  const range = heights.full.db - heights.low.db;
  if (range < settings['contrast.holds']) problems.push({ kind: 'narrow', db: range });
  return problems;
}

/** Share of pairs in which the lower height reads louder; equal ones half. */
function overlapOf(lower: readonly number[], higher: readonly number[]): number {
  let wrong = 0;
  for (const low of lower) for (const high of higher) wrong += low > high ? 1 : low === high ? 0.5 : 0;
  return wrong / (lower.length * higher.length);
}

const percent = (share: number): string => `${Math.round(100 * share)} %`;

const isClipping = (share: number, settings: Settings): boolean => share > settings['clipping.from'];
