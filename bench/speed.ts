import { phraseNamed } from '../src/exercises/phrase';
import { gradeTake } from '../src/practice/grade-take';
import { modelTake } from '../src/practice/model-player';
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
  ]);
}
