import type { TakeSummary } from '../../sessions/take-record';

/** One thing History can be of, with how many takes there are of it. */
export interface Choice {
  readonly id: string;
  readonly name: string;
  readonly takes: number;
}

/** Phrases that were played, the one played last first. */
export function phrasesPlayed(takes: readonly TakeSummary[]): readonly Choice[] {
  return choices(takes, ({ phraseKey, title }) => [phraseKey, title]);
}

/** Rigs that a phrase was played on, the one played last first. */
export function rigsPlayed(takes: readonly TakeSummary[], phraseKey: string): readonly Choice[] {
  const ofPhrase = takes.filter((take) => take.phraseKey === phraseKey);
  return choices(ofPhrase, ({ rigId, rigName }) => [rigId, rigName]);
}

/** Two of one name are told apart by a number. */
function choices(
  takes: readonly TakeSummary[],
  of: (take: TakeSummary) => readonly [id: string, name: string],
): readonly Choice[] {
  const newestFirst = [...takes].sort((a, b) => (a.recordedAt < b.recordedAt ? 1 : -1));
  const found = new Map<string, Choice>();
  for (const take of newestFirst) {
    const [id, name] = of(take);
    found.set(id, { id, name, takes: (found.get(id)?.takes ?? 0) + 1 });
  }
  const seen = new Map<string, number>();
  return [...found.values()].map((choice) => {
    const nth = (seen.get(choice.name) ?? 0) + 1;
    seen.set(choice.name, nth);
    return nth === 1 ? choice : { ...choice, name: `${choice.name} (${nth})` };
  });
}
