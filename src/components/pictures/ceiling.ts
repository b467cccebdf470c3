import type { Ceiling } from '../../insight/ceiling/ceiling';
import type { NamedBars } from '../../insight/ceiling/progress';
import { likeTempi } from '../../grading/tried-bars';
import { ceilingWords } from '../../insight/ceiling/words';
import type { TakeCeilings } from '../../insight/take-ceilings';
import { capital } from '../shared/numbers';
import type { CeilingPicture, CeilingRow } from './picture';

/** Bars clean and not against tempo, a row a variation; null while there are too few bars to tell anything. */
export function ceilingPicture({ progress, bars }: TakeCeilings): CeilingPicture | null {
  const { ceiling, variations } = progress;
  if (ceiling.kind === 'too few bars') return null;
  const first = firstToBreak(progress);
  return {
    kind: 'ceiling',
    name: 'ceiling',
    title: `${capital(ceilingWords(ceiling))}${first === null ? '' : `; ${first} breaks first`}.`,
    of: 'this phrase on this rig',
    drawn:
      'bars by tempo in bpm: a full square where all were clean, an empty one where none was; the line is where four of five are',
    rows: [...variations].map(([label, one]) => rowOf(label, one.ceiling, bars)),
  };
}

function rowOf(label: string, ceiling: Ceiling, bars: readonly NamedBars[]): CeilingRow {
  const own = bars.filter(({ variation }) => variation === label);
  return {
    label,
    bars: likeTempi(own).map(({ bpm, bars: n, clean }) => ({ bpm, held: clean, notHeld: n - clean })),
    ceilingBpm: ceiling.kind === 'at' ? ceiling.clean.value : null,
    interval: ceiling.kind === 'at' ? ceiling.clean.interval : null,
    words: ceilingWords(ceiling),
  };
}

/** The variation whose ceiling lies under every other's, intervals and all; null where none does. */
function firstToBreak({ variations }: TakeCeilings['progress']): string | null {
  const known = [...variations].flatMap(([name, { ceiling }]) => {
    if (ceiling.kind === 'at') {
      const [low, high] = ceiling.clean.interval;
      return [{ name, low, high }];
    }
    return ceiling.kind === 'above' ? [{ name, low: ceiling.bpm, high: Infinity }] : [];
  });
  if (known.length < 2 || known.length < variations.size) return null;
  const [lowest, next] = known.toSorted((a, b) => a.low - b.low);
  return lowest.high < next.low ? lowest.name : null;
}
