import { buildPhrase, type PhrasePlan } from '../src/exercises/build-phrase';
import { gridOf } from '../src/exercises/grid';
import { asWritten, performed, type Performance } from '../src/exercises/performance';
import { phraseNamed } from '../src/exercises/phrase';
import { parseSticking } from '../src/exercises/sticking';
import type { Phrase } from '../src/exercises/types';
import { writtenIn } from '../src/exercises/written';
import { gradeTake } from '../src/take/grade-take';
import { modelTake } from '../src/model/model-player';
import type { Take } from '../src/sessions/types';
import { quantile, type Table } from './table';

const WALK = phraseNamed('Single paradiddle, accent walk');
/** An hour of sixteenths at 120 bpm: 28,800 strokes. */
const HOUR_CYCLES = 450;
const WARM_UP = 4;
const RUNS = 12;

function takeOf(cycles: number): Take {
  return modelTake({ phrase: WALK, bpm: 120, seed: 7, cycles, missed: 0.01, added: 0.005 }).take;
}

function millisecondsOf(work: () => void): number[] {
  for (let index = 0; index < WARM_UP; index += 1) work();
  return Array.from({ length: RUNS }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  });
}

/** Batch grading of an hour, with intervals, and of a tenth of it. */
export function run(): Promise<Table[]> {
  const hour = takeOf(HOUR_CYCLES);
  const tenth = takeOf(HOUR_CYCLES / 10);
  const hourMs = millisecondsOf(() => gradeTake(hour));
  const tenthMs = millisecondsOf(() => gradeTake(tenth));
  const row = (name: string, take: Take, ms: number[]): (string | number)[] => [
    name,
    take.hits.length,
    quantile(ms, 0.5).toFixed(1),
    quantile(ms, 0.95).toFixed(1),
  ];
  const ratio = quantile(hourMs, 0.5) / quantile(tenthMs, 0.5);
  return Promise.resolve([
    {
      title: 'Batch grading with intervals, after warm-up (asked: under 250 ms for the hour)',
      columns: ['take', 'hits', 'median ms', '95 % ms'],
      rows: [row('an hour of sixteenths at 120', hour, hourMs), row('a tenth of it', tenth, tenthMs)],
    },
    {
      title: 'Ten times the strokes (asked: at most 12 times the time)',
      columns: ['times the median'],
      rows: [[ratio.toFixed(1)]],
    },
    {
      title: 'Building a phrase of 64 bars, as the Phrase screen does at every change (asked: under 100 ms)',
      columns: ['phrase', 'bars', 'median ms', '95 % ms'],
      rows: phraseRows(),
    },
  ]);
}

/** From pattern to bars, performance, grid and what stands in them: all but the picture. */
function phraseRows(): (string | number)[][] {
  const walk = {
    pattern: parseSticking('{l}Rlrr {r}Lrll')[0],
    partialsPerBeat: 4,
    beatsPerBar: 4,
    rule: 'accent walk',
    lead: 'both, a cycle each',
    stage: 'learn',
    seed: 1,
    cycles: 8,
  } as const;
  const built = (performance: Partial<Performance>, plan: PhrasePlan): Phrase => {
    const phrase = performed(buildPhrase(plan), { ...asWritten, ...performance });
    writtenIn(phrase, gridOf({ ...phrase, cycles: 1 }, { bpm: 84 }, 0));
    return phrase;
  };
  const kit = { voicing: 'accents to toms', feet: 'K--- H---', swing: 0.6, dyn: 'p < < f' };
  const cases = [
    ['flam paradiddles, both leads, 4 bars of each, twice (call and response)', { first: 'listen' }, walk],
    ['the same on toms, over feet, swung, with dynamics', { ...kit, first: 'listen' }, walk],
    [
      'accents by rotations, 2 bars of each, both leads',
      {},
      { ...walk, pattern: parseSticking('Rlrr Lrll')[0], rule: 'accents by rotations', stage: 'join' },
    ],
  ] as const;
  return cases.map(([name, performance, plan]) => {
    const ms = millisecondsOf(() => built(performance, plan));
    const bars = built(performance, plan).bars.length;
    return [name, bars, quantile(ms, 0.5).toFixed(1), quantile(ms, 0.95).toFixed(1)];
  });
}
