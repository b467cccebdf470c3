/** Steps of Rig that mend what a rig does to a take, by the names they have there. */
export type RigStep = 'false notes' | 'heights' | 'delays';

/** What a rig may do to a take. */
export type RigCause = 'false notes' | 'twice' | 'clipping' | 'few loudnesses' | 'latency';

interface RigWords {
  /** What to do, as an order. */
  readonly todo: string;
  /** What it is for. */
  readonly purpose: string;
  /** When it is done. */
  readonly done: string;
}

const KNOWN = 'Done when Rig names them: takes then go by what it knows.';

/** Each cause in words; the step itself says what to strike. */
export const rigWords: Readonly<Record<RigCause, RigWords>> = {
  'false notes': {
    todo: 'Teach the rig its false notes, by half a minute of single strokes.',
    purpose: 'so that what the pad adds is told from what you play',
    done: KNOWN,
  },
  twice: {
    todo: 'Raise the pad’s retrigger time, then teach the rig what false notes are left.',
    purpose: 'so that one stroke is one note',
    done: 'Done when no stroke comes twice.',
  },
  clipping: {
    todo: 'Turn the pad’s sensitivity down, then show the rig your low, half and full strokes.',
    purpose: 'so that accents stay under the most that the pad can report',
    done: 'Done when full strokes stay under velocity 127.',
  },
  'few loudnesses': {
    todo: 'Choose a velocity curve in the module, then show the rig your low, half and full strokes.',
    purpose: 'so that loud and soft can be told',
    done: 'Done when low, half and full stand apart.',
  },
  latency: {
    todo: 'Play over a cable, or teach the rig its delays, by 72 clicks played along.',
    purpose: 'so that what you hear is when you play',
    done: 'Done when the delays are in the rig.',
  },
};

/** @example teachWords('false notes') // => Teach false notes */
export const teachWords = (step: RigStep): string => `Teach ${step}`;
