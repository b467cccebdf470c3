import { InputError } from '../../errors';
import type { Phrase, Tempo } from '../../exercises/types';
import type { Take } from '../../sessions/types';
import type { Ms } from '../../units';
import { MOST_TEXT_BYTES } from './sound-file';
import type { MidiContents, TickText } from './types';

const FORMAT = 'evenhand-midi';
const VERSION = 1;

/** What a file of ours carries in one text event, at the tick of the downbeat, so that it can be graded by itself. */
type Carried =
  | { readonly kind: 'phrase'; readonly phrase: Phrase; readonly tempo: Tempo }
  /** All of a take but its hits. `clockMs`: time of the event on the clock of the hits. */
  | { readonly kind: 'take'; readonly clockMs: Ms; readonly take: Omit<Take, 'hits'> };

/**
 * The text of that event, in ASCII: anything else is escaped, as JSON allows.
 * @throws InputError for a phrase longer than a text in a file is read
 */
export function carriedText(carried: Carried): string {
  const json = JSON.stringify({ format: FORMAT, version: VERSION, ...carried });
  const text = json.replaceAll(/[^ -~]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);
  if (text.length > MOST_TEXT_BYTES) {
    const rule = `must fit a MIDI file’s text event of ${MOST_TEXT_BYTES} bytes`;
    throw new InputError('phrase', rule, text.length, 'a shorter phrase, repeated, does');
  }
  return text;
}

/** What a file carries, and where: index of its track, and tick. */
interface Found {
  readonly carried: Carried;
  readonly track: number;
  readonly tick: number;
}

/**
 * The text event of ours in a file, or undefined where it has none. The take or phrase inside is not checked yet.
 * @throws InputError where the event is there but is cut, or of a newer version
 */
export function carriedBy(contents: MidiContents): Found | undefined {
  for (let track = 0; track < contents.tracks.length; track += 1) {
    for (const event of contents.tracks[track].texts) {
      const carried = read(event, `track ${track + 1}, tick ${event.tick}`);
      if (carried !== undefined) return { carried, track, tick: event.tick };
    }
  }
  return undefined;
}

function read({ text }: TickText, place: string): Carried | undefined {
  if (!text.startsWith(`{"format":"${FORMAT}"`)) return undefined;
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    throw new InputError(place, 'must be a whole text: what the file carries of its phrase is cut', text);
  }
  const { version, kind } = data as { version?: unknown; kind?: unknown };
  if (version !== VERSION) {
    throw new InputError(
      place,
      `must be version ${VERSION} of ${FORMAT}`,
      version,
      'written by a newer Evenhand?',
    );
  }
  if (kind !== 'phrase' && kind !== 'take') {
    throw new InputError(place, 'must carry a "phrase" or a "take"', kind ?? null);
  }
  return data as Carried;
}
