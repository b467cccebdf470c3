import type { Ceiling, HeldBars } from '../../insight/ceiling';
import { ceilingWords } from '../../insight/ceiling-words';
import type { TakeCeilings } from '../../insight/take-ceilings';
import { capital } from '../shared/numbers';
import type { CeilingPicture, CeilingRow } from './picture';

/** Bars held and not held against tempo, a row a variation; null while there are too few bars to tell anything. */
export function ceilingPicture({ phrase, variations, bars }: TakeCeilings): CeilingPicture | null {
  if (phrase.kind === 'too few bars') return null;
  const first = firstToBreak(variations);
  return {
    kind: 'ceiling',
    name: 'ceiling',
    title: `${capital(ceilingWords(phrase))}${first === null ? '' : `; ${first} breaks first`}.`,
    of: 'this phrase on this rig',
    drawn:
      'bars by tempo in bpm: a full square where all held, an empty one where none did; the line is where four of five hold',
    rows: [...variations].map(([label, ceiling]) => rowOf(label, ceiling, bars)),
  };
}

function rowOf(label: string, ceiling: Ceiling, bars: readonly HeldBars[]): CeilingRow {
  const own = bars.filter(({ variation }) => variation === label);
  const tempos = [...new Set(own.map(({ bpm }) => bpm))].sort((a, b) => a - b);
  return {
    label,
    bars: tempos.map((bpm) => {
      const at = own.filter((row) => row.bpm === bpm);
      const held = at.reduce((sum, row) => sum + row.held, 0);
      return { bpm, held, notHeld: at.reduce((sum, row) => sum + row.bars, 0) - held };
    }),
    ceilingBpm: ceiling.kind === 'at' ? ceiling.clean.value : null,
    interval: ceiling.kind === 'at' ? ceiling.clean.interval : null,
    words: ceilingWords(ceiling),
  };
}

/** The variation whose ceiling lies under every other's, intervals and all; null where none does. */
function firstToBreak(variations: TakeCeilings['variations']): string | null {
  const told = [...variations].flatMap(([name, ceiling]) => {
    if (ceiling.kind === 'at') {
      const [low, high] = ceiling.clean.interval ?? [ceiling.clean.value, ceiling.clean.value];
      return [{ name, low, high }];
    }
    return ceiling.kind === 'above' ? [{ name, low: ceiling.bpm, high: Infinity }] : [];
  });
  if (told.length < 2 || told.length < variations.size) return null;
  const [lowest, next] = told.toSorted((a, b) => a.low - b.low);
  return lowest.high < next.low ? lowest.name : null;
}
