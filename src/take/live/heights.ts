import type { Slot } from '../../exercises/types';
import { accentHeightLimit, softHeightLimit, type HeightLines } from '../../grading/evidence/heights';
import { heightWords } from '../../words/heights';
import { distributionOf, median } from '../../grading/numbers/statistics';
import type { Db } from '../../units';
import type { LiveState } from '../types';

/** Cycles that the one number is of. */
const CYCLES = 2;

/** Where accents and soft strokes of the last two cycles stand between the player's own heights, in words; '' before there are both. */
export function liveHeightWords(
  { passes }: Pick<LiveState, 'passes'>,
  slots: readonly Slot[],
  lines: HeightLines,
): string {
  const middleOf = (isAccent: boolean): Db | undefined => {
    const levels = slots.flatMap(({ kind, shiftDb }, place) =>
      (kind === 'accent') === isAccent
        ? (passes[place] ?? [])
            .slice(-CYCLES)
            .flatMap(({ levelDb }) => (levelDb === null ? [] : [levelDb - shiftDb]))
        : [],
    );
    return levels.length === 0 ? undefined : median(distributionOf(levels));
  };
  const [accents, softs] = [middleOf(true), middleOf(false)];
  if (accents === undefined || softs === undefined) return '';
  return `accents ${heightOnly(accents, lines)}, soft strokes ${heightOnly(softs, lines)}`;
}

/**
 * The contrast to aim at between the player's own heights: where accents and soft strokes both just hold.
 * @example contrastAimDb({ low: -24, half: -14, full: -4 }) // => 10
 */
export const contrastAimDb = (lines: HeightLines): Db =>
  accentHeightLimit(lines).holds - softHeightLimit(lines).holds;

/** Read from behind a kit: the height without its dB. */
const heightOnly = (level: Db, lines: HeightLines): string =>
  heightWords(level, lines).replace(/ \(.*\)$/, '');
