import { gridOf } from '../exercises/grid';
import type { Grid, Phrase, Slot } from '../exercises/types';
import { pictureLines } from '../take/rig-heights';
import { rigInUse } from './input';
import { figureInUse } from './live-view';
import type { Sitting } from './state';
import { FAR_PASSES, type FarFrame, type FarScene } from './far';

/** What a far view is to draw of a sitting; the very object while nothing of it changes. */
export function farSceneOf(sitting: Sitting): FarScene {
  const grid = cycleGrid(sitting);
  const rig = rigInUse(sitting);
  const { limits, phrase } = sitting;
  const key = [grid, rig, limits, phrase];
  if (lastScene === null || key.some((one, index) => one !== lastScene?.key[index])) {
    const heights = rig === null ? null : pictureLines(rig, grid);
    const { bars, slots } = grid;
    lastScene = { key, scene: { title: phrase.title, bars, slots, cycles: phrase.cycles, limits, heights } };
  }
  return lastScene.scene;
}

let lastScene: { readonly key: readonly unknown[]; readonly scene: FarScene } | null = null;
let lastGrid: { readonly phrase: Phrase; readonly bpm: number; readonly grid: Grid } | null = null;

/** One cycle of the phrase on the desk. */
export function cycleGrid({ phrase, bpm }: Pick<Sitting, 'phrase' | 'bpm'>): Grid {
  if (lastGrid?.phrase !== phrase || lastGrid.bpm !== bpm) {
    lastGrid = { phrase, bpm, grid: gridOf({ ...phrase, cycles: 1 }, { bpm }, 0) };
  }
  return lastGrid.grid;
}

/** The bar that is on, as small as it can be sent. */
export function farFrameOf(sitting: Sitting, grid: Grid, scene: number, marks: number): FarFrame {
  const { position, live, running, figureNow } = sitting;
  const isPlaying = position?.phase === 'playing';
  const barInCycle = isPlaying ? position.barInCycle : 0;
  const cycle = isPlaying ? position.cycle : 0;
  const ofBar = grid.slots.filter((slot: Slot) => slot.barInCycle === barInCycle);
  const name = figureInUse(sitting);
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
    name,
    choice: sitting.figureChoice,
    figure: figureNow?.name === name ? figureNow : null,
    marks,
  };
}
