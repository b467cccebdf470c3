import * as v from 'valibot';
import { InputError } from '../errors';
import { checked, type Format } from './read-json';
import { filled, text } from './schema';
import type { KeptFile } from './store-types';
import type { Stored } from './stored';
import { weekSheetFrom, type WeekSheet } from './week-sheet';

/** What is begun and not given yet: a note a take, a week sheet, the words of the next line of a week's list, a term report. */
const draft = v.variant(
  'of',
  [
    v.looseObject({
      of: v.literal('note'),
      takeId: filled,
      /** Of the take's phrase. */
      title: text,
      student: text,
      date: text,
      words: text,
      target: text,
    }),
    /** Its own format says what a week sheet is. */
    v.looseObject({ of: v.literal('week sheet'), sheet: v.unknown() }),
    v.looseObject({ of: v.literal('list'), words: text }),
    v.looseObject({
      of: v.literal('term report'),
      student: text,
      fromDay: text,
      toDay: text,
      words: text,
    }),
  ],
  'must be "note", "week sheet", "list" or "term report"',
);

/** `evenhand-draft`, version 1. It lies among the notes of a library. */
export const draftSchema = v.looseObject({
  format: v.literal('evenhand-draft', 'must be "evenhand-draft"'),
  version: v.literal(1, 'must be 1'),
  draft,
});
const format: Format<typeof draftSchema> = { format: 'evenhand-draft', version: 1, schema: draftSchema };

type Stores = Stored<typeof draft>;
export type Draft =
  Exclude<Stores, { readonly of: 'week sheet' }> | { readonly of: 'week sheet'; readonly sheet: WeekSheet };
export type DraftOf<Of extends Draft['of']> = Extract<Draft, { readonly of: Of }>;

/** A draft with whose it is. */
export interface Begun {
  readonly playerId: string;
  readonly draft: Draft;
}

/** One a take, a sheet, a player: what is begun anew takes its place. */
export function draftId({ playerId, draft }: Begun): string {
  switch (draft.of) {
    case 'note':
      return noteDraftId(draft.takeId);
    case 'week sheet':
      return `draft of sheet ${draft.sheet.id}`;
    case 'list':
      return `draft of list ${playerId}`;
    case 'term report':
      return `draft of term ${playerId}`;
  }
}

export const noteDraftId = (takeId: string): string => `draft of note ${takeId}`;

/** As the library keeps it. */
export function keptDraft(begun: Begun, changedAt: string): KeptFile {
  const { playerId, draft } = begun;
  return { id: draftId(begun), playerId, changedAt, file: { format: 'evenhand-draft', version: 1, draft } };
}

/** Undefined for a note of another format, and for one that doesn't read. */
export function draftFrom({ playerId, file }: KeptFile): Begun | undefined {
  try {
    const { draft } = checked(file, format);
    return {
      playerId,
      draft: draft.of === 'week sheet' ? { of: draft.of, sheet: weekSheetFrom(draft.sheet) } : draft,
    };
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}
