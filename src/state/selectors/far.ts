import type { Grid, Phrase, Slot } from '../../exercises/types';
import { pictureLines } from '../../take/rig-heights';
import type { State } from '../state';
import { FAR_PASSES, type FarFrame, type FarScene } from '../far';
import { cycleOf } from '../cycle';
import { figureInUse, figureShown } from './view';
import { remembered } from '../remembered';
import { rigInUse } from './input';
import type { Rig } from '../../sessions/types';
import type { Limits } from '../../settings';

/** What a far view is to draw of the state; the very object while nothing of it changes. */
export function farSceneOf(state: State): FarScene {
  const { phrase, bpm, limits } = state;
  return sceneOf(phrase, cycleOf(phrase, bpm), rigInUse(state), limits);
}

const sceneOf = remembered((phrase: Phrase, grid: Grid, rig: Rig | null, limits: Limits): FarScene => {
  const heights = rig === null ? null : pictureLines(rig, grid);
  const { bars, slots } = grid;
  return { title: phrase.title, bars, slots, cycles: phrase.cycles, limits, heights };
});

/** The bar that is on, as small as it can be sent. */
export function farFrameOf(state: State, scene: number, marks: number): FarFrame {
  const { position, live, running } = state;
  const isPlaying = position?.phase === 'playing';
  const barInCycle = isPlaying ? position.barInCycle : 0;
  const cycle = isPlaying ? position.cycle : 0;
  const { slots } = cycleOf(state.phrase, state.bpm);
  const ofBar = slots.filter((slot: Slot) => slot.barInCycle === barInCycle);
  return {
    scene,
    running: running !== null,
    barInCycle,
    cycle,
    beat: isPlaying || position?.phase === 'count-in' ? position.beat : null,
    counting: position?.phase === 'count-in',
    ...(live?.freeTime === undefined ? {} : { freeTime: live.freeTime }),
    passes: ofBar.map((slot) => live?.passes[slot.index]?.slice(-FAR_PASSES) ?? []),
    extras: live?.extras.filter((extra) => extra.barInCycle === barInCycle && extra.cycle === cycle) ?? [],
    name: figureInUse(state),
    choice: state.figureChoice,
    figure: figureShown(state),
    marks,
  };
}
