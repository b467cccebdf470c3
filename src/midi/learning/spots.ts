import type { Estimate } from '../../grading/numbers/intervals';
import type { SpotTrims } from '../../sessions/learned';
import type { Rig, Surface } from '../../sessions/types';
import type { Hand } from '../../stroke';
import type { Db } from '../../units';
import { asking, levelsGiven, type Answers, type Asked } from './asked-strokes';
import { halfWidth, weightedMeans } from './cell-means';

/** Whose landing spot is struck. */
export interface AskedSpot extends Asked {
  readonly spot: Hand;
}
export type SpotsState = Answers<AskedSpot>;

/** What *swap spots* is played on: two landing spots of one surface, or a surface a hand. */
export interface SpotPlaces {
  readonly R: string;
  readonly L: string;
}

/** Soft strokes of each hand on each spot: enough for half the interval to be near 0.5 dB at a spread of 1.2 dB. */
const STROKES = 16;

/**
 * Asks for soft strokes: each hand on its own spot, then swapped. Go on with `nextAsked(rig)`.
 * @param places ids of the surfaces; the same twice where both spots are on one
 */
export function spotsAsked(places: SpotPlaces): SpotsState {
  const ask = (hand: Hand, spot: Hand): AskedSpot => ({
    surface: places[spot],
    hand,
    spot,
    strokes: STROKES,
  });
  return asking([ask('R', 'R'), ask('L', 'L'), ask('R', 'L'), ask('L', 'R')]);
}

/** What belongs to the pad and what to the hands. All are right minus left, dB, with 90 % intervals. */
interface SpotsFound {
  /** The spot where the right hand lands minus the other's, whichever hand strikes: the pad's. */
  readonly spot: Estimate;
  /** The right hand minus the left, on whichever spot: the player's. */
  readonly hand: Estimate;
  /** What the sum of both does not explain: 0 where hands strike the same on both spots. */
  readonly interaction: Estimate;
  readonly trims: SpotTrims;
}

/**
 * The 2 × 2 additive model: level = middle ± hand/2 ± spot/2. Each effect is a contrast of the four means, its interval
 * Welch's.
 * @returns undefined until all four were struck
 */
export function spotsFound(state: SpotsState): SpotsFound | undefined {
  const effect = (sign: (hand: Hand, spot: Hand) => number): Estimate | undefined =>
    weightedMeans(
      state.asked.map(({ hand, spot }) => ({
        values: levelsGiven(state, (one) => one.hand === hand && one.spot === spot),
        weight: sign(hand, spot) / 2,
      })),
    );
  const plus = (is: boolean): number => (is ? 1 : -1);
  const spot = effect((_, spotOf) => plus(spotOf === 'R'));
  const hand = effect((of) => plus(of === 'R'));
  const interaction = effect((of, spotOf) => plus(of === spotOf));
  if (state.at < state.asked.length || !spot || !hand || !interaction) return undefined;
  return {
    spot,
    hand,
    interaction,
    trims: { R: -spot.value / 2, L: spot.value / 2, leftDb: halfWidth(spot) },
  };
}

/**
 * The rig with the trims taken off the levels: on one surface as trims of its landing spots, on two as theirs, in
 * place of what they had.
 */
export function rigWithSpots(rig: Rig, places: SpotPlaces, { trims }: SpotsFound): Rig {
  const trimmed = (surface: Surface): Surface => {
    if (surface.id !== places.R && surface.id !== places.L) return surface;
    if (places.R === places.L) return { ...surface, spots: trims };
    const more = surface.id === places.R ? trims.R : trims.L;
    return { ...surface, trimDb: more, trimmed: true, trimLeftDb: trims.leftDb };
  };
  return { ...rig, surfaces: rig.surfaces.map(trimmed) };
}

/**
 * What was found, in words.
 * @example spotWords({ spot: { value: 3.1, interval: [2.5, 3.7] }, hand: { value: -1, interval: [-1.6, -0.4] },
 *   interaction: { value: 0.1, interval: [-0.5, 0.7] }, trims: { R: -1.55, L: 1.55, leftDb: 0.6 } })[0]
 * // => Where the right hand lands the pad reads 3.1 dB louder: taken off.
 */
export function spotWords({ spot, hand, interaction, trims }: SpotsFound): readonly string[] {
  const words = [
    isCertain(spot)
      ? `Where the ${louder(spot.value)} hand lands the pad reads ${size(spot.value)} dB louder: taken off.`
      : 'Both landing spots read alike.',
    isCertain(hand)
      ? `The ${louder(hand.value)} hand itself strikes ${size(hand.value)} dB louder: that stays.`
      : 'Both hands strike alike.',
    `A balance finer than ${size(trims.leftDb)} dB is not told by this pad.`,
  ];
  if (isCertain(interaction) && Math.abs(interaction.value) > trims.leftDb) {
    words.push('A hand struck otherwise on the other’s spot, so this may be off. Swap spots once more.');
  }
  return words;
}

const isCertain = ({ interval: [low, high] }: Estimate): boolean => low > 0 || high < 0;
const louder = (db: Db): string => (db > 0 ? 'right' : 'left');
const size = (db: Db): string => Math.abs(db).toFixed(1);
