import { gridOf } from '../exercises/grid';
import type { Grid, Phrase } from '../exercises/types';
import { writtenIn } from '../exercises/written';
import type { Bpm } from '../units';
import { remembered } from './remembered';

/** One cycle of the phrase. */
export const cycleOf = remembered((phrase: Phrase, bpm: Bpm): Grid =>
  gridOf({ ...phrase, cycles: 1 }, { bpm }, 0),
);

/** What stands in its bars: slots of a cycle, and the feet until they come round. */
export const writtenOf = remembered((phrase: Phrase) =>
  writtenIn(phrase, gridOf({ ...phrase, cycles: 1 }, ANY_TEMPO, 0)),
);

/** Where things stand in a bar doesn't depend on the tempo. */
const ANY_TEMPO = { bpm: 60 };
