import { phraseNamed } from '../src/exercises/phrase';
import { enduranceOf } from '../src/insight/endurance';
import { openCloseOpen } from '../src/insight/open-close-open';
import { modelTake, type ModelPlayer } from '../src/model/model-player';
import { normal, seeded } from '../src/model/random';
import { gradeTake } from '../src/take/grade-take';
import type { Take } from '../src/sessions/types';
import type { Db } from '../src/units';
import type { Table } from './table';

const PLAYERS = 120;
const FIRST_SEED = 60_000;
const WALK = phraseNamed('Single paradiddle, accent walk');
/** GM2: 40 dB a decade of velocity. */
const DECADE_DB = 40;

/** A model take whose soft strokes are so much louder, bar by bar. */
function moved(player: Omit<ModelPlayer, 'phrase'>, byBar: (bar: number, bpm: number) => Db): Take {
  const { take, truth, grid } = modelTake({ ...player, phrase: WALK });
  const hits = [...take.hits];
  for (const slot of grid.slots) {
    const hit = truth.hitOfSlot[slot.index];
    if (slot.kind === 'accent' || hit === null) continue;
    const { startMs, endMs, beats } = grid.bars[slot.bar];
    const db = byBar(slot.bar, (beats * 60_000) / (endMs - startMs));
    const velocity = Math.round(hits[hit].velocity * 10 ** (db / DECADE_DB));
    hits[hit] = { ...hits[hit], velocity: Math.min(127, Math.max(1, velocity)) };
  }
  return { ...take, hits };
}

/** A level that wanders: each bar leans on the one before by `LEAN`, its sd over long is `sdDb`. */
function wandering(sdDb: Db, seed: number): (bar: number) => Db {
  const random = seeded(seed);
  const path = [sdDb * normal(random)];
  return (bar) => {
    while (path.length <= bar) {
      path.push(LEAN * path[path.length - 1] + sdDb * Math.sqrt(1 - LEAN ** 2) * normal(random));
    }
    return path[bar];
  };
}
const LEAN = 0.8;

const percent = (part: number): string => ((100 * part) / PLAYERS).toFixed(1);
const BPM = 84;

/** Of so many players, how many are told of a change. */
function tired(
  cycles: number,
  byBar: (bar: number, seed: number) => Db,
  of: 'anything' | 'softness',
): string {
  let told = 0;
  for (let player = 0; player < PLAYERS; player += 1) {
    const seed = FIRST_SEED + 1000 * cycles + player;
    const wander = (bar: number): Db => byBar(bar, seed);
    const take = moved({ bpm: BPM, seed, cycles }, wander);
    const found = enduranceOf(gradeTake(take), take.phrase, take.tempo);
    const isTold =
      of === 'anything' ? found?.words !== 'The end is like the beginning.' : (found?.rose ?? null) !== null;
    told += Number(isTold);
  }
  return percent(told);
}

const walks = new Map<number, (bar: number) => Db>();
function drifting(bar: number, seed: number): Db {
  const walk = walks.get(seed) ?? wandering(1.2, seed);
  walks.set(seed, walk);
  return walk(bar);
}

const rising = (cycles: number) => (bar: number) => (3 * bar) / (4 * cycles - 1);

const RAMP = [
  { bar: 0, bpm: 60 },
  { bar: 24, bpm: 120 },
  { bar: 48, bpm: 60 },
] as const;

/** Ways up and back that are told apart, and how far the two lie from each other in the mean. */
function turned(byTempo: (bpm: number) => Db, laterDb: Db): readonly string[] {
  let [apart, left] = [0, 0];
  const gaps: number[] = [];
  for (let player = 0; player < PLAYERS; player += 1) {
    const take = moved(
      { bpm: 60, ramp: RAMP, seed: FIRST_SEED + 50_000 + player, cycles: 12 },
      (bar, bpm) => byTempo(bpm) + (bar >= 24 ? laterDb : 0),
    );
    const measures = openCloseOpen(gradeTake(take), take.phrase, take.tempo)?.measures ?? [];
    apart += Number(measures.some((one) => one.apart));
    const contrast = measures.find(({ measure }) => measure === 'contrast');
    if (contrast?.leavesBpm === null || contrast?.leavesBpm === undefined) continue;
    left += 1;
    if (contrast.returnsBpm !== null) gaps.push(contrast.leavesBpm - contrast.returnsBpm);
  }
  const mean = gaps.reduce((sum, one) => sum + one, 0) / gaps.length;
  return [percent(left), gaps.length === 0 ? '' : mean.toFixed(1), percent(PLAYERS - apart)];
}

/** Soft strokes come up by 12 dB from 80 to 110 bpm. */
const lostAbove80 = (bpm: number): Db => Math.max(0, Math.min(12, 0.4 * (bpm - 80)));

/** Tiring, and a tempo up and down again, of model players on a paradiddle whose accent walks. */
export function run(): Promise<Table[]> {
  const steady = (cycles: number): readonly string[] => [
    'steady',
    String(cycles),
    tired(cycles, () => 0, 'anything'),
    'told ≤ 2',
  ];
  const drift = (cycles: number): readonly string[] => [
    'soft strokes wander by 1.2 dB (sd; bars lean 0.8 on the last)',
    String(cycles),
    tired(cycles, drifting, 'anything'),
    'told ≤ 9',
  ];
  const rise = (cycles: number, asked: string): readonly string[] => [
    'soft strokes rise by 3 dB',
    String(cycles),
    tired(cycles, rising(cycles), 'softness'),
    asked,
  ];
  return Promise.resolve([
    {
      title: `Tiring: % of ${PLAYERS} model players a row who are told of it`,
      columns: ['player', 'cycles', 'told', 'asked'],
      rows: [
        steady(4),
        steady(8),
        steady(16),
        drift(8),
        drift(16),
        rise(4, ''),
        rise(8, 'told ≥ 90'),
        rise(16, 'told ≥ 90'),
      ],
    },
    {
      title: `Open–close–open, 60 to 120 and back in 48 bars: ${PLAYERS} model players a row`,
      columns: ['player', 'contrast leaves, %', 'leaves less returns, bpm', 'none apart, %', 'asked'],
      rows: [
        ['holds throughout', ...turned(() => 0, 0), 'none ≥ 95'],
        ['lost from 80 to 110, no hysteresis', ...turned(lostAbove80, 0), 'none ≥ 95'],
        ['the same, 4 dB louder on the way back', ...turned(lostAbove80, 4), ''],
      ],
    },
  ]);
}
