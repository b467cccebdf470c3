import type { Take } from '../../sessions/types';
import { STEADY_MODEL } from './side-by-side';
import { modelTake } from '../../model/model-player';

/** How steady the model player plays what is set beside a take: as well as practice makes, not perfect. */
const LEVEL_SD_DB = 0.8;
const TIMING_SD_MS = 4;
const SEED = 6;

/** The phrase of a take by a steady model player, at its tempo and as long. The same take gives the same model. */
export function steadyModelOf({ phrase, tempo, limits }: Take): Take {
  const { take } = modelTake({
    phrase,
    bpm: 'bpm' in tempo ? tempo.bpm : tempo.ramp[0].bpm,
    ...('ramp' in tempo ? { ramp: tempo.ramp } : {}),
    seed: SEED,
    levelSdDb: LEVEL_SD_DB,
    timingSdMs: TIMING_SD_MS,
    limits,
    id: STEADY_MODEL,
    notes: 'Computed by the seeded model player; nobody played it.',
  });
  return take;
}
