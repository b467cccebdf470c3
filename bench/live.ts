import { phraseNamed } from '../src/exercises/phrase';
import { liveSteps } from '../src/take/live/step';
import { modelTake } from '../src/model/model-player';
import { settingsOf } from '../src/settings';
import { quantile, type Table } from './table';

/** A live step for each of an hour's strokes: conditioning, pairing and the figures that are shown. */
export function run(): Promise<Table[]> {
  const phrase = phraseNamed('Single paradiddle, accent walk');
  const { take, grid } = modelTake({ phrase, bpm: 120, seed: 11, cycles: 450, missed: 0.01, added: 0.005 });
  const rows = [1, 2, 3].map((round) => {
    const { start, step } = liveSteps(grid, take.rig, settingsOf('working'));
    const microseconds: number[] = [];
    let state = start;
    for (const hit of take.hits) {
      const from = performance.now();
      state = step(state, { kind: 'hit', hit });
      microseconds.push(1000 * (performance.now() - from));
    }
    const at = (share: number): string => quantile(microseconds, share).toFixed(1);
    return [`round ${round}`, take.hits.length, at(0.5), at(0.99), at(0.9999)];
  });
  return Promise.resolve([
    {
      title: 'A live step (asked: under 20 µs median, 200 µs at the 99th percentile)',
      columns: ['', 'hits', 'median µs', '99 % µs', '99.99 % µs'],
      rows,
    },
  ]);
}
