import * as v from 'valibot';
import { InputError } from '../../errors';
import { phraseFileFrom, type PhraseFile } from '../phrase-file';
import { playerSchema, type Player } from '../player';
import { checkedAgainst } from '../read-json';
import { rigFileFrom } from '../rig-file';
import { gradedSchema } from '../graded-schema';
import { rig as rigSchema } from '../rig-schema';
import { filled, isoDate, text } from '../schema';
import type { KeptFile, KeptRig } from '../store-types';
import { takeFrom } from '../take';
import type { Graded } from '../take-record';
import type { Take } from '../types';
import { weekSheetFrom } from '../week-sheet';

/** A take with what was known of it: whose it is, its sentence, what History keeps of its report. */
export interface LibraryTake {
  readonly take: Take;
  readonly playerId: string;
  readonly sentence: string;
  readonly graded: Graded | null;
}

/** What a library holds, by list. */
export interface LibraryItems {
  readonly players: readonly Player[];
  readonly phrases: readonly PhraseFile[];
  readonly rigs: readonly KeptRig[];
  readonly sheets: readonly KeptFile[];
  /** Lesson notes as they were written: their own format is the note's affair. */
  readonly notes: readonly KeptFile[];
  readonly takes: readonly LibraryTake[];
}

/** Something that was not taken, and why: its place is in the reason. */
export interface Refused {
  readonly list: keyof LibraryItems;
  readonly index: number;
  readonly reason: string;
}

const keptFile = v.looseObject({ id: filled, playerId: text, changedAt: isoDate, file: v.unknown() });
const keptRig = v.looseObject({ id: filled, rig: v.unknown(), changedAt: isoDate });

const libraryTake = v.looseObject({
  take: v.unknown(),
  playerId: text,
  sentence: text,
  graded: v.unknown(),
});

/** One thing of a list, checked by its own rules. */
export const readers: {
  readonly [List in keyof LibraryItems]: (data: unknown) => LibraryItems[List][number];
} = {
  players: (data) => checkedAgainst(playerSchema, data),
  phrases: phraseFileFrom,
  rigs(data) {
    const kept = checkedAgainst(keptRig, data);
    const { id, changedAt, rig } = kept;
    // Rigs are named by what keeps them: one that has no id of its own is that one.
    const whole = { id, name: '', ...(typeof rig === 'object' ? rig : {}) };
    rigFileFrom({ format: 'evenhand-rig', version: 1, rig: whole });
    return { id, changedAt, rig: checkedAgainst(rigSchema, rig) };
  },
  sheets(data) {
    const kept = checkedAgainst(keptFile, data);
    return { ...kept, file: within('file', () => weekSheetFrom(kept.file)) };
  },
  notes: (data) => checkedAgainst(keptFile, data),
  takes(data) {
    const { take, playerId, sentence, graded } = checkedAgainst(libraryTake, data);
    const known = v.safeParse(gradedSchema, graded);
    // What was said of a take can be found again from it; the take itself is what must be sound.
    return {
      take: within('take', () => takeFrom(take)),
      playerId,
      sentence,
      graded: known.success ? known.output : null,
    };
  },
};

/** Every thing in the lists, checked by its own rules. */
export function itemsFrom(lists: Readonly<Record<keyof LibraryItems, readonly unknown[]>>): {
  readonly items: LibraryItems;
  readonly refused: readonly Refused[];
} {
  const refused: Refused[] = [];
  function read<List extends keyof LibraryItems>(list: List): LibraryItems[List][number][] {
    const seen = new Set<string>();
    return lists[list].flatMap((data, index) => {
      try {
        const thing = readers[list](data);
        const key = keyOf(thing);
        if (seen.has(key)) throw new InputError('', 'must not be there twice', key);
        seen.add(key);
        return [thing];
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        refused.push({ list, index, reason: error.within(`${list}[${index}]`).message });
        return [];
      }
    });
  }
  const items: LibraryItems = {
    players: read('players'),
    phrases: read('phrases'),
    rigs: read('rigs'),
    sheets: read('sheets'),
    notes: read('notes'),
    takes: read('takes'),
  };
  return { items, refused };
}

/** What tells things of a list apart: phrases go by their names. */
function keyOf(thing: LibraryItems[keyof LibraryItems][number]): string {
  if ('take' in thing) return thing.take.id;
  return 'phrase' in thing ? thing.name : thing.id;
}

function within<Value>(place: string, work: () => Value): Value {
  try {
    return work();
  } catch (error) {
    throw error instanceof InputError ? error.within(place) : error;
  }
}
