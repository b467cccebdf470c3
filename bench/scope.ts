import { phraseNamed } from '../src/exercises/phrase';
import type { Report } from '../src/grading/types';
import type { Fault } from '../src/model/faults';
import { modelTake } from '../src/model/model-player';
import { gradeTake } from '../src/take/grade-take';
import { namedFault, ROTATIONS, WALK } from './accuracy-grading';
import type { Table } from './table';

const LEADS = 'Single paradiddle, accent walk, both leads';
const TAKES = Number(process.env.TAKES ?? 300);
const FIRST_SEED = 700_000;

/** A player whose time drifts slowly about the grid, as people's does. */
const DRIFT: Fault = { kind: 'wander', ms: 4 };

interface Played {
  readonly phrase: string;
  readonly seed: number;
  readonly cycles: number;
  readonly faults?: readonly Fault[];
}

/** 6 ms, 1.2 dB, a mild slow drift. */
export const good = ({ phrase, seed, cycles, faults = [] }: Played): Report =>
  gradeTake(
    modelTake({ phrase: phraseNamed(phrase), bpm: 84, seed, cycles, faults: [DRIFT, ...faults] }).take,
  );

const TEMPI = [60, 72, 84, 96, 108, 120];

/** 9 ms, 1.8 dB, accents 16 dB over taps, at 60 to 120 bpm in turn. */
export const loose = ({ phrase, seed, cycles }: Played): Report =>
  gradeTake(
    modelTake({
      phrase: phraseNamed(phrase),
      bpm: TEMPI[seed % TEMPI.length],
      seed,
      cycles,
      timingSdMs: 9,
      levelSdDb: 1.8,
      accentDb: -4,
      tapDb: -20,
    }).take,
  );

/** Share of a take's bars that are clean. */
export function cleanShare({ bars }: Report): number {
  const own = bars.filter(({ role }) => role === undefined);
  return own.filter(({ clean }) => clean).length / own.length;
}

export const isAlone = ({ weakest, variations }: Report): boolean =>
  weakest?.scope === 'variation' &&
  variations.some(({ name, band }) => name === weakest.variation && (band === 'close' || band === 'not yet'));

interface InAll {
  readonly words: string;
  readonly phrase: string;
  readonly faults: readonly Fault[];
}

/** The same in every variation. */
export const inAll: readonly InAll[] = [
  { words: 'left leak before, 5 dB', phrase: WALK, faults: [{ kind: 'leak-before', hand: 'L', db: 5 }] },
  { words: 'right leak after, 5 dB', phrase: WALK, faults: [{ kind: 'leak-after', hand: 'R', db: 5 }] },
  { words: 'left spill, 5 dB', phrase: WALK, faults: [{ kind: 'spill', hand: 'L', db: 5 }] },
  { words: 'left 18 ms late', phrase: WALK, faults: [{ kind: 'late', hand: 'L', ms: 18 }] },
  { words: 'left 18 ms late', phrase: ROTATIONS, faults: [{ kind: 'late', hand: 'L', ms: 18 }] },
  { words: 'second of doubles −5 dB', phrase: ROTATIONS, faults: [{ kind: 'fade', db: -5 }] },
  { words: 'accents 8 dB softer', phrase: WALK, faults: [{ kind: 'accents', db: -8 }] },
  { words: 'taps 8 dB louder', phrase: ROTATIONS, faults: [{ kind: 'softs', db: 8 }] },
  { words: 'right 5 dB louder', phrase: ROTATIONS, faults: [{ kind: 'balance', hand: 'R', db: 5 }] },
  { words: 'scatter of 25 ms', phrase: WALK, faults: [{ kind: 'scatter', ms: 25 }] },
];

interface InOne {
  readonly words: string;
  readonly phrase: string;
  readonly variation: string;
  readonly faults: readonly Fault[];
}

/** In one variation only. */
export const inOne: readonly InOne[] = [
  one('left leak before, 5 dB', WALK, 'accent on 4', { kind: 'leak-before', hand: 'L', db: 5 }),
  one('right leak after, 5 dB', WALK, 'accent on 2', { kind: 'leak-after', hand: 'R', db: 5 }),
  one('left 18 ms late', WALK, 'accent on 3', { kind: 'late', hand: 'L', ms: 18 }),
  one('left 18 ms late', ROTATIONS, 'RLLR LRRL', { kind: 'late', hand: 'L', ms: 18 }),
];

function one(words: string, phrase: string, variation: string, fault: Fault): InOne {
  return { words, phrase, variation, faults: [{ ...fault, variation } as Fault] };
}

const reports = (make: (seed: number) => Report): readonly Report[] =>
  Array.from({ length: TAKES }, (_, index) => make(FIRST_SEED + index));
const share = (all: readonly Report[], is: (report: Report) => boolean): number =>
  all.filter(is).length / all.length;
const percent = (value: number): string => `${(100 * value).toFixed(1)} %`;
const meanClean = (all: readonly Report[]): string =>
  percent(all.reduce((sum, report) => sum + cleanShare(report), 0) / all.length);

/** Clean bars, and whether blame falls where the fault lives. */
export function run(): Promise<readonly Table[]> {
  const phrases = [WALK, ROTATIONS, LEADS];
  const players = phrases.map((phrase) => {
    const own = reports((seed) => good({ phrase, seed, cycles: 8 }));
    const looser = reports((seed) => loose({ phrase, seed, cycles: 8 }));
    return [phrase, TAKES, percent(share(own, namedFault)), meanClean(own), meanClean(looser)];
  });
  const everywhere = inAll.flatMap(({ words, phrase, faults }) =>
    [4, 8].map((cycles) => {
      const all = reports((seed) => good({ phrase, seed, cycles, faults }));
      return [words, phrase, cycles, TAKES, percent(share(all, namedFault)), percent(share(all, isAlone))];
    }),
  );
  const alone = inOne.map(({ words, phrase, variation, faults }) => {
    const all = reports((seed) => good({ phrase, seed, cycles: 8, faults }));
    const named = share(all, (report) => isAlone(report) && report.weakest?.variation === variation);
    return [words, `${phrase}: ${variation}`, TAKES, percent(named)];
  });
  const seeds = `seeds from ${FIRST_SEED}`;
  return Promise.resolve([
    {
      title: `A good player (6 ms, 1.2 dB, 1/f drift of 4 ms), 8 cycles, ${seeds}: told a variation’s fault (asked: 3 % at most), bars clean (95 %); a looser one (9 ms, 1.8 dB, 60–120 bpm): bars clean (80 %)`,
      columns: ['phrase', 'takes', 'told a fault', 'bars clean', 'of the looser'],
      rows: players,
    },
    {
      title: `The same fault in all variations, ${seeds}: one named alone (asked: 10 % at most)`,
      columns: ['planted', 'phrase', 'cycles', 'takes', 'told', 'one alone'],
      rows: everywhere,
    },
    {
      title: `A fault in one variation, 8 cycles, ${seeds}: that one named (asked: 90 %)`,
      columns: ['planted', 'in', 'takes', 'named'],
      rows: alone,
    },
  ]);
}
