import { PLAY_ALONG_CLICKS, delayWords } from '../../midi/learning/delays';
import type { HeightName } from '../../sessions/learned';
import type { Rig } from '../../sessions/types';
import type { Hand } from '../../stroke';
import type { RigTask } from '../../state/rig/state';
import type { TaskName } from '../../state/rig/task-names';
import { capital } from '../shared/numbers';
import { plural } from '../../text';

/** What the Rig screen asks for, readable from behind the kit. */
interface Asking {
  readonly says: string;
  readonly detail: readonly string[];
  /** A number to count down by, and of what; null where nothing is counted. */
  readonly count: { readonly number: number; readonly words: string } | null;
}

export const taskTitles: Readonly<Record<TaskName, string>> = {
  surfaces: 'surfaces',
  hands: 'hands',
  heights: 'heights',
  spots: 'swapped spots',
  trims: 'trims between surfaces',
  softest: 'softest strokes',
  pairs: 'closest pair',
  'false notes': 'false notes',
  delays: 'delays',
};

const hands: Readonly<Record<Hand, string>> = { R: 'right', L: 'left' };
const how: Readonly<Record<HeightName, string>> = {
  low: 'Low as your ghost notes and taps are.',
  half: 'Half as high as your full stroke.',
  full: 'Full as your accents are, and no higher.',
};

/** What to strike next, in words. @param newest name of the surface struck last */
// eslint-disable-next-line max-lines-per-function -- a table of words, one case a task
export function askingWords(task: RigTask, rig: Rig | null, newest: string | null): Asking {
  const name = (id: string): string => rig?.surfaces.find((one) => one.id === id)?.name ?? id;
  const plain = (says: string, ...detail: string[]): Asking => ({ says, detail, count: null });
  switch (task.kind) {
    case 'rest':
      if (rig === null)
        return plain(
          'Strike the first thing you play.',
          'Pad, drum, rim, cymbal or pedal, one at a time. Each strike makes a surface.',
        );
      return plain(
        `${rig.name ?? 'This rig'} is ready.`,
        'Three strikes in a row on one surface: it starts and stops your takes from now on, and Play opens.',
        'Two strikes: teach this rig more.',
      );
    case 'surfaces':
      if (newest === null)
        return plain(
          rig === null ? 'Strike the first thing you play.' : 'Strike what is still missing.',
          'Pad, drum, rim, cymbal or pedal, one at a time. Each strike makes a surface.',
        );
      return plain(
        `That is ${newest}. Strike the next.`,
        'All there? Wait four seconds: the hands come next.',
      );
    case 'hands':
      return plain(
        task.strikes.first === null
          ? 'Strike once where your right hand plays.'
          : 'Now once where your left hand plays.',
        'On two surfaces, each is its hand’s own. Twice on the same, and either hand plays it.',
      );
    case 'heights': {
      const asked = task.state.asked[task.state.at];
      if (asked === undefined) return plain('Heights are learned.');
      return {
        says: `${capital(asked.height)} strokes, ${hands[asked.hand]} hand, on ${name(asked.surface)}`,
        detail: [how[asked.height]],
        count: left(task.state, 'strokes left'),
      };
    }
    case 'spots': {
      const asked = task.state.asked[task.state.at];
      if (asked === undefined) return plain('Both spots are known.');
      const own = asked.hand === asked.spot;
      const where = own ? 'where it always lands' : `where the ${hands[asked.spot]} hand lands`;
      return {
        says: `Soft strokes, ${hands[asked.hand]} hand, ${where}, on ${name(asked.surface)}`,
        detail: [
          'All at one height. Both hands on both spots tell a loud place of the pad from a loud hand.',
        ],
        count: left(task.state, 'strokes left'),
      };
    }
    case 'trims': {
      const asked = task.state.asked[task.state.at];
      if (asked === undefined) return plain('The surfaces are weighed.');
      return {
        says: `Half-high strokes, ${hands[asked.hand]} hand, on ${name(asked.surface)}`,
        detail: ['The same height on every surface: what then differs is the kit’s.'],
        count: left(task.state, 'strokes left'),
      };
    }
    case 'softest': {
      const asked = task.state.asked[task.state.at];
      if (asked === undefined) return plain('The soft end is known.');
      return {
        says: `Softer and softer on ${name(asked.surface)}`,
        detail: ['Down to the softest stroke that still arrives. What doesn’t arrive isn’t counted.'],
        count: left(task.state, 'strokes left'),
      };
    }
    case 'pairs': {
      const { gestures, surface, hand } = task.state;
      const flams = gestures < 10;
      return {
        says: flams
          ? `Tight flams on ${name(surface)}`
          : `An accent and a tap right after it, ${hands[hand]} hand, on ${name(surface)}`,
        detail: ['Each by itself, with a silence of half a second after it.'],
        count: {
          number: flams ? 10 - gestures : 20 - gestures,
          words: flams ? 'flams left' : 'doubles left',
        },
      };
    }
    case 'false notes': {
      const strokes = [...task.state.strokes.values()].reduce((sum, one) => sum + one, 0);
      return {
        says: 'Single strokes, on every surface in turn, pedals too',
        detail: ['Half a minute. Never two at once, half a second apart, soft and loud.'],
        count: { number: strokes, words: strokes === 1 ? 'stroke so far' : 'strokes so far' },
      };
    }
    case 'delays':
      return {
        says: 'One stroke with each click',
        detail: ['On any surface, with either hand, as close to the click as you can.'],
        count: {
          number: Math.max(0, PLAY_ALONG_CLICKS - (task.state?.latenessMs.length ?? 0)),
          words: 'clicks left',
        },
      };
    case 'delays found':
      return plain(
        `Click to time stamp: ${task.found.sumMs.toFixed(1)} ms. Take it into the rig?`,
        ...delayWords(task.found),
        'Three strikes: take it. Two: play along once more. Takes that were played before stay as they are.',
      );
    case 'between':
      return task.next === null
        ? plain(
            `That was all: ${taskTitles[task.done]} done.`,
            'Three strikes: back to the rig. Two: once more.',
          )
        : plain(
            `One strike, and ${taskTitles[task.next]} ${taskTitles[task.next].endsWith('s') ? 'come' : 'comes'} next.`,
            `${capital(taskTitles[task.done])} done. Two strikes: once more. Three: enough.`,
          );
  }
}

/** Strikes left of those asked for at once. */
function left(
  {
    asked,
    given,
    at,
  }: {
    readonly asked: readonly { readonly strokes: number }[];
    readonly given: readonly (readonly unknown[])[];
    readonly at: number;
  },
  words: string,
): Asking['count'] {
  return { number: asked[at].strokes - given[at].length, words };
}

/** What strikes elsewhere do while a surface is asked for; null where there is no other. */
export function gestureWords(task: RigTask, rig: Rig | null): string | null {
  const asks = ['heights', 'spots', 'trims', 'softest', 'pairs'].includes(task.kind);
  if (!asks) return null;
  return (rig?.surfaces.length ?? 0) > 1
    ? 'Two strikes on another surface: these again. Three: skip them. Keys: A, S.'
    : 'Key A: these again. S: skip them.';
}

/** What a surface's notes are, for a row. @example notesWords([38, 40]) // => 'notes 38, 40' */
export const notesWords = (notes: readonly number[]): string =>
  `${plural(notes.length, 'note')} ${notes.join(', ')}`;
