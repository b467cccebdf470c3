/** A stretch of weeks without a long absence: what a line over time can be laid through. */
interface Spell<Played> {
  readonly played: readonly Played[];
  /** Days of the first and the last. */
  readonly days: readonly [number, number];
}

/** Longer away than this and another spell begins; it is also what *now* means. Source: grading.md section 7. */
export const NOW_DAYS = 21;
/** A line over more than about a school term would tell of no week in it. Common practice, no source. */
const LONGEST_DAYS = 112;

/**
 * What was played, parted where the player was away for over three weeks, and cut back from the newest day of each stretch
 * where it is longer than a term. Oldest spell first.
 * @example spellsOf([{ day: 0 }, { day: 10 }, { day: 60 }]).map(({ days }) => days) // => [[0, 10], [60, 60]]
 */
export function spellsOf<Played extends { readonly day: number }>(
  played: readonly Played[],
): readonly Spell<Played>[] {
  // oldest first, as takes mostly come: sorting what is sorted is quick
  const inOrder = [...played].sort((a, b) => a.day - b.day);
  const spells: Spell<Played>[] = [];
  let end = inOrder.length;
  for (let at = end - 1; at >= 0; at -= 1) {
    const [first, last] = [inOrder[at].day, inOrder[end - 1].day];
    const before = at === 0 ? -Infinity : inOrder[at - 1].day;
    if (first - before <= NOW_DAYS && last - before <= LONGEST_DAYS) continue;
    spells.push({ played: inOrder.slice(at, end), days: [first, last] });
    end = at;
  }
  return spells.reverse();
}
