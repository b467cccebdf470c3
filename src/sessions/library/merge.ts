import type { PhraseFile } from '../phrase-file';
import type { Batch, KeptFile, KeptRig } from '../store-types';
import type { Player } from '../player';
import { summaryOf } from '../take-record';
import type { Take } from '../types';
import type { LibraryItems, LibraryTake } from './items';

/**
 * What became of one thing of a library. *new*: it was not here. *newer*: it took the place of an older one. *both*: it
 * differs from the one here and neither is the newer, so it was kept beside it. *same*, *older*: left out, for the one
 * here is that very one, or a newer.
 */
export interface MergeRow {
  readonly list: keyof LibraryItems;
  /** The id or name it was kept under, or would have been. */
  readonly key: string;
  /** What a person would call it. */
  readonly name: string;
  readonly outcome: 'new' | 'newer' | 'both' | 'same' | 'older';
}

/** What is here already: all of each collection, and of the takes at least those whose ids the library names. */
export interface Held {
  readonly players: readonly Player[];
  readonly phrases: readonly PhraseFile[];
  readonly rigs: readonly KeptRig[];
  readonly sheets: readonly KeptFile[];
  readonly notes: readonly KeptFile[];
  readonly takes: readonly Take[];
}

/**
 * A library merged into what is here: by id (phrases by name), the newer wins, both are kept where neither is the newer,
 * and the newer is never overwritten. Nothing here is ever taken away. What is kept beside another has a name or id with
 * a number after it; merging the same library again then changes nothing.
 * @returns what to put away in one go, and a row a thing
 */
export function mergeLibrary(held: Held, library: LibraryItems): { batch: Batch; rows: readonly MergeRow[] } {
  const rows: MergeRow[] = [];
  const merged = <Thing>(
    list: keyof LibraryItems,
    kind: ItemKind<Thing>,
    here: readonly Thing[],
    coming: readonly Thing[],
  ) => {
    const out: Thing[] = [];
    const known = new Map(here.map((thing) => [kind.key(thing), thing]));
    for (const thing of coming) {
      const { outcome, kept } = settled(kind, known, thing);
      rows.push({ list, key: kind.key(kept), name: kind.name(kept), outcome });
      if (outcome === 'same' || outcome === 'older') continue;
      known.set(kind.key(kept), kept);
      out.push(kept);
    }
    return out;
  };
  const takesHere = held.takes.map((take): LibraryTake => ({
    take,
    playerId: '',
    sentence: '',
    graded: null,
  }));
  const batch: Batch = {
    players: merged('players', players, held.players, library.players),
    phrases: merged('phrases', phrases, held.phrases, library.phrases),
    rigs: merged('rigs', rigs, held.rigs, library.rigs),
    sheets: merged('sheets', files, held.sheets, library.sheets),
    notes: merged('notes', files, held.notes, library.notes),
    takes: merged('takes', takes, takesHere, library.takes).map(({ take, playerId, sentence, graded }) => ({
      take,
      summary: { ...summaryOf(take), playerId, sentence, graded },
    })),
  };
  return { batch, rows };
}

/** How things of one kind are told apart and compared. */
interface ItemKind<Thing> {
  readonly key: (thing: Thing) => string;
  readonly under: (thing: Thing, key: string) => Thing;
  readonly name: (thing: Thing) => string;
  /** When it was changed; undefined where it does not say. */
  readonly changedAt: (thing: Thing) => string | undefined;
  /** What makes two of one key and one time the same. */
  readonly content: (thing: Thing) => unknown;
}

const players: ItemKind<Player> = {
  key: ({ id }) => id,
  under: (player, id) => ({ ...player, id }),
  name: ({ name, id }) => (name === '' ? id : name),
  changedAt: (player) => player.changedAt,
  content: (player) => ({ ...player, id: '', changedAt: '' }),
};

const phrases: ItemKind<PhraseFile> = {
  key: ({ name }) => name,
  under: (file, name) => ({ ...file, name }),
  name: ({ name }) => name,
  changedAt: (file) => file.changedAt,
  content: (file) => ({ ...file, name: '', changedAt: '' }),
};

const rigs: ItemKind<KeptRig> = {
  key: ({ id }) => id,
  under: (kept, id) => ({ ...kept, id, ...(kept.rig.id === undefined ? {} : { rig: { ...kept.rig, id } }) }),
  name: ({ id, rig }) => rig.name ?? id,
  changedAt: (kept) => kept.changedAt,
  content: ({ rig }) => ({ ...rig, id: '' }),
};

const files: ItemKind<KeptFile> = {
  key: ({ id }) => id,
  under: (kept, id) => ({ ...kept, id }),
  name: ({ id, changedAt }) => `${changedAt.slice(0, 10)} ${id}`,
  changedAt: (kept) => kept.changedAt,
  content: ({ file, playerId }) => [file, playerId],
};

/** A take is written once, as it was played: two of one id are the same, or are two takes. Whose they are may change. */
const takes: ItemKind<LibraryTake> = {
  key: ({ take }) => take.id,
  under: (one, id) => ({ ...one, take: { ...one.take, id } }),
  name: ({ take }) => `${take.recordedAt.slice(0, 10)} ${take.phrase.title}`,
  changedAt: () => undefined,
  content: ({ take }) => ({ ...take, id: '', playerId: '' }),
};

function settled<Thing>(
  kind: ItemKind<Thing>,
  known: ReadonlyMap<string, Thing>,
  thing: Thing,
): { readonly outcome: MergeRow['outcome']; readonly kept: Thing } {
  const wanted = kind.key(thing);
  const here = known.get(wanted);
  if (here === undefined) return { outcome: 'new', kept: thing };
  if (isSame(kind, here, thing)) return { outcome: 'same', kept: thing };
  const [ours, theirs] = [timeOf(kind.changedAt(here)), timeOf(kind.changedAt(thing))];
  if (theirs > ours) return { outcome: 'newer', kept: thing };
  if (theirs < ours) return { outcome: 'older', kept: thing };
  for (let number = 2; ; number += 1) {
    const kept = kind.under(thing, `${wanted} (${number})`);
    const there = known.get(kind.key(kept));
    if (there === undefined) return { outcome: 'both', kept };
    if (isSame(kind, there, kept)) return { outcome: 'same', kept };
  }
}

/** The same whenever it was changed: then nothing is to be done. */
function isSame<Thing>(kind: ItemKind<Thing>, a: Thing, b: Thing): boolean {
  return sorted(kind.content(a)) === sorted(kind.content(b));
}

/** NaN, which is neither before nor after anything, where a time is not said on either side. */
const timeOf = (iso: string | undefined): number => (iso === undefined ? NaN : Date.parse(iso));

/** JSON with keys in order: the same data, the same text. */
function sorted(value: unknown): string {
  return JSON.stringify(value, (_, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}
