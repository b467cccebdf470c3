import type { Grid, Note, Phrase } from '../exercises/types';
import { surfaceNotes, surfaceOfNote } from '../exercises/voicings';
import type { Rig, Surface } from '../sessions/types';
import { otherHand } from '../stroke';
import { surfaceNamed } from '../take/voiced-rig';

/** What the model player plays on. */
export interface ModelSurfaces {
  readonly rig: Rig;
  readonly phrase: Phrase;
}

export const PORT = 'Model pad';

const base = { port: '*', channel: 10, hand: null, trimDb: 0 } as const;

/** A pad for both hands, or one a hand. */
export const modelRig = (surfaces: 1 | 2): Rig => ({
  levelLaw: 'gm2',
  inputDelayMs: 0,
  outputDelayMs: 0,
  surfaces:
    surfaces === 1
      ? [{ id: 'pad', name: 'Pad', ...base, notes: [38] }]
      : [
          { id: 'right', name: 'Right pad', ...base, notes: [38], hand: 'R' },
          { id: 'left', name: 'Left pad', ...base, notes: [48], hand: 'L' },
        ],
});

/** Notes for surfaces of the player's own names. */
const FIRST_FREE_NOTE = 60;

/** The same with what the phrase asks for: the surfaces of its voicing, in place of the pads, and those of its feet. */
export function modelRigFor(phrase: Phrase, grid: Grid, surfaces: 1 | 2): Rig {
  const names = [...new Set(Object.values(phrase.voicing ?? {}))];
  const isVoiced = grid.slots.every(({ surface }) => surface !== null);
  const voiced = names.map((name, index): Surface => ({
    id: name,
    name,
    ...base,
    notes: [Object.hasOwn(surfaceNotes, name) ? surfaceNotes[name] : FIRST_FREE_NOTE + index],
  }));
  const feet = (['K', 'H'] as const)
    .filter((foot) => grid.feet.some((slot) => slot.foot === foot))
    .map((foot): Surface => {
      const name = foot === 'K' ? 'bass drum' : 'hi-hat foot';
      return { id: name, name, ...base, notes: [surfaceNotes[name]], foot };
    });
  const pads = modelRig(surfaces);
  // A pad answers to the snare's note; where that is a surface of the voicing it keeps the note.
  const taken = new Set(voiced.flatMap(({ notes }) => notes));
  const free = isVoiced ? [] : pads.surfaces.filter(({ notes }) => !taken.has(notes[0]));
  return { ...pads, surfaces: [...free, ...voiced, ...feet] };
}

/** The note a stroke sounds: of the surface it is voiced to, else of its hand's pad. */
export function noteOf({ rig, phrase }: ModelSurfaces, note: Note): number {
  const name = surfaceOfNote(phrase.voicing ?? {}, note);
  const surface =
    (name === undefined ? undefined : surfaceNamed(rig, name)) ??
    rig.surfaces.find(({ hand, foot }) => foot === undefined && hand !== otherHand(note.hand));
  return surface?.notes[0] ?? 38;
}
