import type { HeightLines } from '../../grading/evidence/heights';
import { asksForDelays } from '../../midi/learning/delays';
import type { Grid } from '../../exercises/types';
import { contrastAimDb, liveHeightWords } from '../../take/live/heights';
import { pictureLines } from '../../take/rig-heights';
import type { State } from '../../state/state';
import { remembered } from '../../state/remembered';
import { rigInUse } from '../../state/selectors/input';
import type { LiveState } from '../../take/types';
import type { Rig } from '../../sessions/types';
import type { Db } from '../../units';
import { fixed } from '../shared/numbers';
import type { LiveFigure } from '../shared/types';

/** The rig's own heights for what is on the stand; null where it has not learned them. */
export function heightsIn(state: State, cycle: Grid): HeightLines | null {
  return linesOf(rigInUse(state), cycle);
}

const linesOf = remembered((rig: Rig | null, cycle: Grid) =>
  rig === null ? null : pictureLines(rig, cycle),
);

/**
 * The one number: contrast of the last two cycles, aimed at by the rig's heights where it knows them and by the limits
 * where it doesn't.
 * @param live what was live with the last beat, so that it can be read
 */
export const contrastFigure = remembered(
  (live: LiveState | null, cycle: Grid, lines: HeightLines | null, aimDb: Db): LiveFigure => {
    const what = { value: live?.contrastDb ?? null, unit: 'dB' };
    if (lines === null)
      return {
        ...what,
        heights: '',
        words: 'contrast of the last two cycles',
        aim: `aim ${fixed(aimDb, 0)} dB or more`,
      };
    const heights = live === null ? '' : liveHeightWords(live, cycle.slots, lines);
    const aim = `aim full and low, ${fixed(contrastAimDb(lines), 0)} dB apart or more`;
    return { ...what, heights, words: 'contrast', aim };
  },
);

/** What a player should know of the rig before this take; empty where all is well. */
export function rigHint(state: State): string {
  const { rig, bpm, rigging } = state;
  const uncertain = rigging.uncertain[0] as string | undefined;
  if (uncertain !== undefined) {
    const surface = rig?.surfaces.find(({ port }) => port === uncertain)?.name ?? uncertain;
    return `Strike ${surface} once: two inputs have the same name, and were plugged in anew.`;
  }
  const inUse = rigInUse(state);
  if (inUse === null || inUse.id === undefined) return '';
  const start = inUse.surfaces.find(({ id }) => id === inUse.start?.surface);
  const hints = [
    `Rig: ${inUse.name ?? 'without a name'}.`,
    ...(start === undefined
      ? []
      : [`${start.name} starts and stops; after a stop 1, 2, 3 strikes: again, slower, faster.`]),
    ...(asksForDelays(inUse, bpm)
      ? [`At ${fixed(bpm, 0)} bpm the delays of kit and sound count: teach them on Rig.`]
      : []),
  ];
  return hints.join(' ');
}
