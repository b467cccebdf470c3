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
  const newestFirst = [...played].sort((a, b) => b.day - a.day);
  const spells: Played[][] = [];
  for (const one of newestFirst) {
    const spell = spells.at(-1);
    const next = spell?.[spell.length - 1].day ?? Infinity;
    if (spell === undefined || next - one.day > NOW_DAYS || spell[0].day - one.day > LONGEST_DAYS) {
      spells.push([one]);
    } else spell.push(one);
  }
  return spells.reverse().map((spell) => {
    const oldestFirst = spell.reverse();
    return { played: oldestFirst, days: [oldestFirst[0].day, oldestFirst[oldestFirst.length - 1].day] };
  });
}
