import type { TakeHeld } from '../../insight/climb';
import type { Climbing } from '../../state/climb';
import { fixed } from '../shared/numbers';
import type { CeilingPicture } from './picture';

/** Takes of a climb, a row each: bars held at their tempo. */
export function climbPicture({ takes }: Pick<Climbing, 'takes'>): CeilingPicture {
  const held = takes.filter(({ went }) => went === 'held').map(({ bpm }) => bpm);
  return {
    kind: 'ceiling',
    name: 'ceiling',
    title:
      held.length === 0
        ? 'No take has been clean yet'
        : `Clean up to ${fixed(Math.max(...held), 0)} bpm, in ${takes.length === 1 ? 'one take' : `${takes.length} takes`}`,
    of: 'this climb',
    drawn:
      'a row a take at its tempo in bpm: a full square where all bars were clean, an empty one where none was',
    rows: takes.map(({ bpm, bars, held: own, went }, index) => ({
      label: `take ${index + 1}`,
      bars: [{ bpm, held: own, notHeld: bars - own }],
      ceilingBpm: null,
      interval: null,
      words: wentWords[went],
    })),
  };
}

const wentWords: Readonly<Record<TakeHeld, string>> = {
  held: 'clean',
  close: 'close',
  'not held': 'not clean',
};
