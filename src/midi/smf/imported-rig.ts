import { InputError } from '../../errors';
import type { Surface } from '../../sessions/types';
import type { Hand, RawHit } from '../../stroke';

/** Notes the user chose of a file: which to take at all, and which are a hand's. */
export interface ChosenNotes {
  readonly notes?: readonly number[];
  readonly right?: readonly number[];
  readonly left?: readonly number[];
}

/**
 * Surfaces for the strokes of a foreign file: one a hand where the user said which notes are whose, and one that either
 * hand may play for what is left; each on every channel that it is struck on. Notes nobody struck have no surface.
 * @throws InputError for a note that is both hands'
 */
export function surfacesOf(hits: readonly RawHit[], { right = [], left = [] }: ChosenNotes): Surface[] {
  const both = right.find((note) => left.includes(note));
  if (both !== undefined) throw new InputError('right', 'must have no note that the left hand has', both);
  const owned = new Set([...right, ...left]);
  const rest = [...new Set(hits.map((hit) => hit.note))].filter((note) => !owned.has(note));
  return [
    ...onChannels(hits, right, 'right', 'Right hand', 'R'),
    ...onChannels(hits, left, 'left', 'Left hand', 'L'),
    ...onChannels(hits, rest, 'pad', 'Pad', null),
  ];
}

function onChannels(
  hits: readonly RawHit[],
  notes: readonly number[],
  id: string,
  name: string,
  hand: Hand | null,
): Surface[] {
  const struck = hits.filter((hit) => notes.includes(hit.note));
  const channels = [...new Set(struck.map((hit) => hit.channel))].sort((a, b) => a - b);
  return channels.map((channel, index) => ({
    id: index === 0 ? id : `${id} ${index + 1}`,
    name: index === 0 ? name : `${name} ${index + 1}`,
    port: '*',
    channel,
    notes: [...new Set(struck.filter((hit) => hit.channel === channel).map((hit) => hit.note))].sort(
      (a, b) => a - b,
    ),
    hand,
    trimDb: 0,
  }));
}
