import { phraseNamed } from '../src/exercises/phrase';
import type { JudgedKey, Report } from '../src/grading/types';
import type { Fault } from '../src/model/faults';
import { gradeTake } from '../src/take/grade-take';
import { modelTake } from '../src/model/model-player';
import type { Table } from './table';

export const WALK = 'Single paradiddle, accent walk';
export const ROTATIONS = 'Single paradiddle, rotations';
const LEADS = 'Single paradiddle, accent walk, both leads';
const TAKES = 300;
const FIRST_SEED = 900_000;

export interface Planted {
  readonly measure: JudgedKey;
  readonly phrase: string;
  readonly words: string;
  readonly faults: readonly Fault[];
  readonly accentDb?: number;
  readonly tapDb?: number;
}

/** Faults whose size puts the measure at its *not yet* limit: margin −1. */
export const planted: readonly Planted[] = [
  {
    measure: 'leakBefore',
    phrase: WALK,
    words: 'left +5 dB in accent on 4',
    faults: [{ kind: 'leak-before', hand: 'L', db: 5, variation: 'accent on 4' }],
  },
  {
    measure: 'leakAfter',
    phrase: WALK,
    words: 'right +5 dB in accent on 2',
    faults: [{ kind: 'leak-after', hand: 'R', db: 5, variation: 'accent on 2' }],
  },
  {
    measure: 'spill',
    phrase: WALK,
    words: 'left +5 dB everywhere',
    faults: [{ kind: 'spill', hand: 'L', db: 5 }],
  },
  { measure: 'fade', phrase: WALK, words: '−5 dB everywhere', faults: [{ kind: 'fade', db: -5 }] },
  {
    measure: 'balanceSoft',
    phrase: ROTATIONS,
    words: 'right taps +5 dB',
    faults: [
      { kind: 'softs', db: 0 },
      { kind: 'balance', hand: 'R', db: 5 },
    ],
  },
  {
    measure: 'lag',
    phrase: ROTATIONS,
    words: 'left 20 ms late',
    faults: [{ kind: 'late', hand: 'L', ms: 20 }],
  },
  { measure: 'seam', phrase: WALK, words: '20 ms early', faults: [{ kind: 'seam', ms: -20 }] },
  {
    measure: 'contrast',
    phrase: WALK,
    words: 'accents 6 dB over taps, accent on 3',
    faults: [{ kind: 'accents', db: -10, variation: 'accent on 3' }],
  },
  {
    measure: 'softness',
    phrase: ROTATIONS,
    words: 'taps at −10 dB, accents at 0',
    faults: [{ kind: 'softs', db: 10 }],
    accentDb: 2,
  },
  {
    measure: 'scatter',
    phrase: WALK,
    words: 'twice the limit in accent on 2',
    faults: [{ kind: 'scatter', ms: 28.6, variation: 'accent on 2' }],
  },
  { measure: 'doubleGap', phrase: WALK, words: '12 % short', faults: [{ kind: 'double-gap', ms: -21.4 }] },
  {
    measure: 'leakBefore',
    phrase: LEADS,
    words: 'right +5 dB, both leads',
    faults: [{ kind: 'leak-before', hand: 'R', db: 5, variation: 'accent on 3, left lead' }],
  },
];

function reports(count: number, make: (seed: number) => Report): Report[] {
  return Array.from({ length: count }, (_, index) => make(FIRST_SEED + index));
}

/** A model player's take at 84 bpm, graded. */
export function graded(phrase: string, seed: number, cycles: number, planted?: Planted): Report {
  const { take } = modelTake({
    phrase: phraseNamed(phrase),
    bpm: 84,
    seed,
    cycles,
    faults: planted?.faults ?? [],
    ...(planted?.accentDb === undefined ? {} : { accentDb: planted.accentDb }),
    ...(planted?.tapDb === undefined ? {} : { tapDb: planted.tapDb }),
  });
  return gradeTake(take);
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const share = (all: readonly Report[], is: (report: Report) => boolean): number =>
  all.filter(is).length / all.length;

/** True where any variation is under *holds*. */
export const namedFault = (report: Report): boolean =>
  report.variations.some(({ band }) => band === 'close' || band === 'not yet');

/** How often a good player is told a fault, and how often a planted one is named. */
export function run(): Promise<Table[]> {
  const good = [WALK, ROTATIONS, LEADS].flatMap((phrase) =>
    [4, 8].map((cycles) => {
      const all = reports(TAKES, (seed) => graded(phrase, seed, cycles));
      return [phrase, cycles, all.length, percent(share(all, namedFault))];
    }),
  );
  const found = planted.map((one) => {
    const all = reports(TAKES / 3, (seed) => graded(one.phrase, seed, 8, one));
    const named = share(all, (report) => report.weakest?.measure === one.measure);
    return [one.measure, one.words, all.length, percent(named)];
  });
  return Promise.resolve([
    {
      title:
        'A good player (6 ms, 1.2 dB) told a fault: any variation under holds (asked: at most 8 % at 8 cycles)',
      columns: ['phrase', 'cycles', 'takes', 'told a fault'],
      rows: good,
    },
    {
      title: 'Planted faults at margin −1 named by weakest.measure, 8 cycles (asked: at least 90 %)',
      columns: ['measure', 'planted', 'takes', 'named'],
      rows: found,
    },
  ]);
}
