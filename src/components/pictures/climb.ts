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
        ? 'No take has held yet'
        : `Held up to ${fixed(Math.max(...held), 0)} bpm, in ${takes.length === 1 ? 'one take' : `${takes.length} takes`}`,
    of: 'this climb',
    drawn: 'a row a take at its tempo in bpm: a full square where all bars held, an empty one where none did',
    rows: takes.map(({ bpm, bars, held: own, went }, index) => ({
      label: `take ${index + 1}`,
      bars: [{ bpm, held: own, notHeld: bars - own }],
      ceilingBpm: null,
      interval: null,
      words: went,
    })),
  };
}
