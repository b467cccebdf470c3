import { phraseNamed } from '../src/exercises/phrase';
import { giveawayOf } from '../src/grading/apart/giveaway';
import { identificationOf } from '../src/grading/apart/identification';
import { gradeTake } from '../src/take/grade-take';
import { modelTake } from '../src/model/model-player';
import type { Take } from '../src/sessions/types';
import type { Table } from './table';

const ROTATIONS = phraseNamed('Single paradiddle, rotations');
const TAKES = 200;
const PLANTED = 100;
const WHERE = { variation: 'RRLR LLRL', place: 2, db: 2.4 };
/** Ten minutes of four bars at 84 bpm. */
const LONG_CYCLES = 52;

/** A take with one place of one variation 2.4 dB louder. */
function planted(seed: number): Take {
  const { take, truth, grid } = modelTake({ phrase: ROTATIONS, bpm: 84, seed, cycles: 8 });
  const hits = [...take.hits];
  for (const slot of grid.slots) {
    const hit = truth.hitOfSlot[slot.index];
    if (slot.variation !== WHERE.variation || slot.place !== WHERE.place || hit === null) continue;
    const velocity = Math.round(hits[hit].velocity * 10 ** (WHERE.db / 40));
    hits[hit] = { ...hits[hit], velocity: Math.min(127, velocity) };
  }
  return { ...take, hits };
}

const percent = (count: number, of: number): string => `${((100 * count) / of).toFixed(1)} %`;

/** Telling variations apart: false alarms, what is found, and how long it takes. */
export function run(): Promise<Table[]> {
  let [giveaways, given, rates] = [0, 0, 0];
  for (let seed = 5000; seed < 5000 + TAKES; seed++) {
    const { take } = modelTake({ phrase: ROTATIONS, bpm: 84, seed, cycles: 8 });
    const report = gradeTake(take);
    const giveaway = giveawayOf(report, take.phrase, take.tempo);
    const rate = identificationOf(report, take.phrase, take.tempo);
    if (giveaway.kind === 'told' && giveaway.p <= 0.05) giveaways++;
    if (giveaway.kind === 'told' && giveaway.gives) given++;
    if (rate.kind === 'told' && rate.p <= 0.05) rates++;
  }
  let [located, rated] = [0, 0];
  for (let seed = 9000; seed < 9000 + PLANTED; seed++) {
    const take = planted(seed);
    const report = gradeTake(take);
    const found = giveawayOf(report, take.phrase, take.tempo);
    const rate = identificationOf(report, take.phrase, take.tempo);
    if (rate.kind === 'told' && rate.p <= 0.05) rated++;
    if (found.kind !== 'told' || !found.gives || found.dimension !== 'level') continue;
    if (found.variation === WHERE.variation && found.place === WHERE.place) located++;
  }
  const long = modelTake({ phrase: ROTATIONS, bpm: 84, seed: 1, cycles: LONG_CYCLES }).take;
  const report = gradeTake(long);
  const timed = Array.from({ length: 5 }, () => {
    const from = performance.now();
    giveawayOf(report, long.phrase, long.tempo);
    const between = performance.now();
    identificationOf(report, long.phrase, long.tempo);
    return [between - from, performance.now() - between];
  }).sort((a, b) => a[0] + a[1] - b[0] - b[1])[2];
  return Promise.resolve([
    {
      title:
        'Variations told apart, 8 cycles, 500 shuffles (asked: 5 % false alarms; 95 of 100 found and located)',
      columns: ['what', 'takes', 'share'],
      rows: [
        ['giveaway with p up to 0.05, nothing planted', TAKES, percent(giveaways, TAKES)],
        ['the same and audible', TAKES, percent(given, TAKES)],
        ['identification rate with p up to 0.05, nothing planted', TAKES, percent(rates, TAKES)],
        ['2.4 dB at one place: found and located', PLANTED, percent(located, PLANTED)],
        ['2.4 dB at one place: identification rate with p up to 0.05', PLANTED, percent(rated, PLANTED)],
      ],
    },
    {
      title: 'Ten minutes at 84 bpm with 500 shuffles (asked: under 1000 ms together)',
      columns: ['giveaway ms', 'identification ms'],
      rows: [[timed[0].toFixed(0), timed[1].toFixed(0)]],
    },
  ]);
}
