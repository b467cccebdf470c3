import { activePlayers, playerName, type Player } from './player';

type Coded = Pick<Player, 'id' | 'name' | 'code'>;

/**
 * A short code a player: initials, with a number where two have the same. It tells two of one name apart, and stands for a
 * name where one would be read by others: in names of files, in tables that are passed on. A code that was kept stays; those of players of older
 * libraries, who have none, are found in the order of their ids.
 */
export function codesOf(players: readonly Coded[]): ReadonlyMap<string, string> {
  const codes = new Map<string, string>();
  const used = new Set<string>();
  const inOrder = [...players].sort((a, b) => (a.id < b.id ? -1 : 1));
  const give = (id: string, code: string): void => {
    codes.set(id, code);
    used.add(code);
  };
  for (const { id, code } of inOrder) if (code !== undefined && !used.has(code)) give(id, code);
  for (const { id, name } of inOrder) if (!codes.has(id)) give(id, freeCode(name, used));
  return codes;
}

/** The code of a name that nobody else has: that of a player who comes, or is called otherwise now. */
export function codeFor(name: string, others: readonly Coded[]): string {
  return freeCode(name, new Set(codesOf(others).values()));
}

/**
 * Initials, and the first number that makes them one's own.
 * @example freeCode('Kim P.', new Set(['KP'])) // => 'KP2'
 */
export function freeCode(name: string, used: ReadonlySet<string>): string {
  const initials = initialsOf(name);
  for (let number = 1; ; number += 1) {
    const code = number === 1 ? initials : `${initials}${number}`;
    if (!used.has(code)) return code;
  }
}

function initialsOf(name: string): string {
  const words = name.split(/[^\p{L}\p{N}]+/u);
  const letters = words.map((word) => (isNumber(word) ? word : [...word].slice(0, 1).join('').toUpperCase()));
  return letters.join('') || playerName({ name: '' });
}

/** A number that is called a name is one's own already: "Student 12" is S12. */
const isNumber = (word: string): boolean => /^\p{N}+$/u.test(word);

/** What players are called on the page: by their names, with the short code where two have one name. */
export function playerLabels(players: readonly Coded[]): ReadonlyMap<string, string> {
  const codes = codesOf(players);
  const same = ({ name }: Coded): string => name.trim().toLowerCase();
  const times = new Map<string, number>();
  for (const player of players) times.set(same(player), (times.get(same(player)) ?? 0) + 1);
  return new Map(
    players.map((player) => {
      const isTwin = (times.get(same(player)) ?? 0) > 1;
      const name = playerName(player);
      return [player.id, isTwin ? `${name} (${codes.get(player.id) ?? ''})` : name];
    }),
  );
}

const natural = new Intl.Collator(undefined, { numeric: true, sensitivity: 'base' });

/** As a person orders them: 1, 2, … 10; two of one name by their short codes. */
export function inNaturalOrder(players: readonly Player[]): readonly Player[] {
  const codes = codesOf(players);
  const codeOf = ({ id }: Player): string => codes.get(id) ?? '';
  return [...players].sort(
    (a, b) => natural.compare(a.name, b.name) || natural.compare(codeOf(a), codeOf(b)),
  );
}

/** Who may have a turn, as they are called: those of a list to choose from. */
export function calledPlayers(
  players: readonly Player[],
): readonly { readonly id: string; readonly name: string }[] {
  const active = new Set(activePlayers(players).map(({ id }) => id));
  return everybodyCalled(players).filter(({ id }) => active.has(id));
}

/** The same of all, of the archive too. */
export function everybodyCalled(
  players: readonly Player[],
): readonly { readonly id: string; readonly name: string }[] {
  const labels = playerLabels(players);
  return players.map(({ id }) => ({ id, name: labels.get(id) ?? '' }));
}
