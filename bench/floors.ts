import { align } from '../src/alignment/align';
import { binomialTail } from '../src/grading/numbers/quantiles';
import { settingsOf } from '../src/settings';
import {
  agreeing,
  BARS,
  followed,
  GAP,
  PHRASES,
  spreadOffset,
  straight,
  strokeOfSlots,
} from './accuracy-alignment';
import { graded, planted, ROTATIONS, namedFault, WALK } from './accuracy-grading';
import { madeTake, seeded } from './made-takes';
import { cleanShare, good, inAll, inOne, isAlone, loose } from './scope';
import type { Table } from './table';

/**
 * A figure that must never fall: of takes made so, at least this share turns out right. `npm run bench floors` measures it on
 * hundreds of takes; `npm test` looks at a few, and fails under what a true share of `floor` brings once in a million times.
 */
export interface Floor {
  readonly name: string;
  readonly floor: number;
  /** Takes that `npm test` looks at. */
  readonly few: number;
  /** Whether the take of this seed turns out right. */
  readonly holds: (seed: number) => boolean;
}

const settings = settingsOf('working');
const [walk] = PHRASES;
const grid = straight(walk[1]);
const longer = straight(walk[1], BARS + 8);

/** Share of the slots that have the stroke meant for them. */
function pairedRight(seed: number, spread: number, errors: number): number {
  const offsetMs = spreadOffset(seed, 0.2);
  const making = { sdMs: spread * GAP, missed: errors, added: errors, offsetMs, seed: seed * 7919 };
  const made = madeTake(grid, making);
  return agreeing(strokeOfSlots(align(grid, made.strokes, settings)), made.strokeOf) / grid.slots.length;
}

/** Share of the slots that have the same stroke live and in the whole take: offset within 0.45 of the gap. */
export function liveAsBatch(seed: number, spread: number, errors: number): number {
  const offsetMs = spreadOffset(seed, 0.45);
  const making = { sdMs: spread * GAP, missed: errors, added: errors, offsetMs, seed: seed * 79 };
  const { strokes } = madeTake(grid, making);
  const batch = strokeOfSlots(align(grid, strokes, settings));
  return agreeing(batch, followed(longer, strokes).subarray(0, batch.length)) / batch.length;
}

function slipFound(seed: number, lag: 1 | -1): boolean {
  const from = Math.floor(seeded(seed * 31)() * (grid.slots.length - SLIPPED - 8)) + 4;
  const slip = { from, to: from + SLIPPED, lag };
  const made = madeTake(grid, { sdMs: 8, seed: seed * 613, slip, missed: 0.01, added: 0.01 });
  const { slips } = align(grid, made.strokes, settings);
  return slips.length === 1 && slips[0].lag === lag;
}

const SLIPPED = 16;

const soundTake = (seed: number, spread: number, levelSdDb: number, errors: number) =>
  align(
    grid,
    madeTake(grid, { sdMs: spread * GAP, levelSdDb, missed: errors, added: errors, seed: seed * 211 })
      .strokes,
    settings,
  );

export const floors: readonly Floor[] = [
  {
    name: 'pairing: 98 % of the slots right at a spread of 15 % of the gap, 3 % missed and added',
    floor: 0.97,
    few: 60,
    holds: (seed) => pairedRight(seed, 0.15, 0.03) >= 0.98,
  },
  {
    name: 'pairing: 97 % of the slots right at a spread of 25 %',
    floor: 0.99,
    few: 60,
    holds: (seed) => pairedRight(seed, 0.25, 0) >= 0.97,
  },
  {
    name: 'live against the whole take: 99 % of the slots the same, spread 15 %, 3 % missed and added',
    floor: 0.99,
    few: 60,
    holds: (seed) => liveAsBatch(seed, 0.15, 0.03) >= 0.99,
  },
  {
    name: 'live against the whole take: 99 % of the slots the same, spread 20 %, 3 % missed and added',
    floor: 0.99,
    few: 60,
    holds: (seed) => liveAsBatch(seed, 0.2, 0.03) >= 0.99,
  },
  {
    name: 'slips of 16 slots, a stroke dropped: found, and nothing beside',
    floor: 0.99,
    few: 60,
    holds: (seed) => slipFound(seed, 1),
  },
  {
    name: 'slips of 16 slots, a stroke added: found, and nothing beside',
    floor: 0.99,
    few: 60,
    holds: (seed) => slipFound(seed, -1),
  },
  {
    name: 'no slip told of a good player',
    floor: 0.999,
    few: 100,
    holds: (seed) => soundTake(seed, 0.036, 1.2, 0).slips.length === 0,
  },
  {
    name: 'no slip told of a player with 15 % of the gap, 3 dB, 3 % missed and added',
    floor: 0.99,
    few: 100,
    holds: (seed) => soundTake(seed, 0.15, 3, 0.03).slips.length === 0,
  },
  {
    name: 'a spread of 20 % of the gap fits the grid',
    floor: 0.99,
    few: 60,
    holds: (seed) => soundTake(seed, 0.2, 1.2, 0.03).misfit === null,
  },
  {
    name: 'no fault told of a good player, accent walk, 8 cycles',
    floor: 0.98,
    few: 24,
    holds: (seed) => !namedFault(graded(WALK, seed, 8)),
  },
  {
    name: 'no fault told of a good player, rotations, 8 cycles',
    floor: 0.98,
    few: 24,
    holds: (seed) => !namedFault(graded(ROTATIONS, seed, 8)),
  },
  {
    name: 'a good player whose time drifts: 95 % of the bars clean, 8 cycles',
    floor: 0.97,
    few: 24,
    holds: (seed) => cleanShare(good({ phrase: WALK, seed, cycles: 8 })) >= 0.95,
  },
  {
    name: 'a player of 9 ms and 1.8 dB, 60 to 120 bpm: 80 % of the bars clean, 8 cycles',
    floor: 0.95,
    few: 24,
    holds: (seed) => cleanShare(loose({ phrase: ROTATIONS, seed, cycles: 8 })) >= 0.8,
  },
  {
    name: 'the same fault in all variations, of ten in turn: none named alone, 4 cycles',
    floor: 0.93,
    few: 40,
    holds: (seed) => {
      const { phrase, faults } = inAll[seed % inAll.length];
      return !isAlone(good({ phrase, seed, cycles: 4, faults }));
    },
  },
  {
    name: 'a leak of 5 dB or a hand 18 ms late in one variation: that one named alone, 8 cycles',
    floor: 0.95,
    few: 24,
    holds: (seed) => {
      const { phrase, variation, faults } = inOne[seed % inOne.length];
      const report = good({ phrase, seed, cycles: 8, faults });
      return isAlone(report) && report.weakest?.variation === variation;
    },
  },
  {
    name: 'a fault of a margin of −1 is named, of twelve in turn, 8 cycles',
    floor: 0.97,
    few: 48,
    holds: (seed) => {
      const fault = planted[seed % planted.length];
      return graded(fault.phrase, seed, 8, fault).weakest?.measure === fault.measure;
    },
  },
];

/** Of that many takes at the least so many must turn out right: fewer come once in a million times where the share is true. */
export function leastOf(takes: number, floor: number, chance = ONCE_IN): number {
  let least = 0;
  // P(X < k) = 1 − P(X ≥ k)
  while (least < takes && 1 - binomialTail(takes, floor, least + 1) <= chance) least += 1;
  return least;
}

const ONCE_IN = 1e-6;

export function right({ holds }: Floor, takes: number, firstSeed: number): number {
  let count = 0;
  for (let seed = firstSeed; seed < firstSeed + takes; seed += 1) count += Number(holds(seed));
  return count;
}

/** Mean share of slots that live and whole take agree on, and its standard error. */
export function liveOverAll(takes: number, firstSeed: number): { mean: number; error: number } {
  const shares = Array.from({ length: takes }, (_, i) => liveAsBatch(firstSeed + i, 0.2, 0.03));
  const mean = shares.reduce((sum, one) => sum + one, 0) / takes;
  const squares = shares.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return { mean, error: Math.sqrt(squares / (takes - 1) / takes) };
}

const TAKES = 300;
const FIRST_SEED = 4_000_000;

export function run(takes = TAKES): Promise<Table[]> {
  const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
  const rows = floors.map((floor) => [
    floor.name,
    percent(floor.floor),
    percent(right(floor, takes, FIRST_SEED) / takes),
    `${leastOf(floor.few, floor.floor)} of ${floor.few}`,
  ]);
  const { mean } = liveOverAll(takes, FIRST_SEED);
  rows.push([
    'live against the whole take: slots the same over all, spread 20 %',
    '99.5 %',
    `${(100 * mean).toFixed(2)} %`,
    'mean',
  ]);
  return Promise.resolve([
    {
      title: `Figures that must never fall (${takes} takes each)`,
      columns: ['what', 'floor', 'measured', 'wanted in npm test'],
      rows,
    },
  ]);
}
