import { gridOf } from '../../exercises/grid';
import type { Grid, Phrase } from '../../exercises/types';
import type { Bpm } from '../../units';
import { remembered } from './remembered';

/** One cycle of the phrase. */
export const cycleOf = remembered((phrase: Phrase, bpm: Bpm): Grid =>
  gridOf({ ...phrase, cycles: 1 }, { bpm }, 0),
);
