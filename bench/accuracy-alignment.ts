import { align } from '../src/alignment/align';
import type { AlignStroke, Alignment, Misfit } from '../src/alignment/types';
import { gridOf } from '../src/exercises/grid';
import type { Grid, Phrase } from '../src/exercises/types';
import { settingsOf } from '../src/settings';
import { follow, outcomeAt } from '../src/alignment/follow';
import { madeTake, nearestSlotPairing, seeded, type Making } from './made-takes';
import type { Table } from './table';

const settings = settingsOf('working');
const BPM = 90;
export const GAP = 60_000 / BPM / 4;
export const BARS = 16;

const WALK = ['Rlrr Lrll Rlrr Lrll', 'rLrr lRll rLrr lRll', 'rlRr lrLl rlRr lrLl', 'rlrR lrlL rlrR lrlL'];
const ROTATIONS = [
  'Rlrr Lrll Rlrr Lrll',
  'Rllr Lrrl Rllr Lrrl',
  'Rrlr Llrl Rrlr Llrl',
  'Rlrl Lrlr Rlrl Lrlr',
];
/** Name, bars of a cycle, and what its seeds begin at. */
export const PHRASES: readonly (readonly [string, readonly string[], number])[] = [
  ['accent walk', WALK, 1],
  ['rotations', ROTATIONS, 500_001],
];

function phraseOf(stickings: readonly string[], partialsPerBeat = 4, swing?: number): Phrase {
  const bars = stickings.map((sticking) => ({ variation: sticking, sticking }));
  const phrase = { title: 'benchmark', beatsPerBar: 4, partialsPerBeat, cycles: 4, bars };
  return swing === undefined ? phrase : { ...phrase, swing };
}

export const straight = (stickings: readonly string[], bars = BARS): Grid =>
  gridOf(phraseOf(stickings), { bpm: BPM }, 1000, bars);

/** Strokes paired under what `align` says: slipped ones are paired too. */
export function strokeOfSlots(alignment: Alignment): Int32Array {
  return Int32Array.from(alignment.outcomes, (outcome) =>
    outcome.status === 'matched' || outcome.status === 'slipped' ? (outcome.stroke ?? -1) : -1,
  );
}

export function agreeing(a: Int32Array, b: Int32Array): number {
  let same = 0;
  for (let i = 0; i < a.length; i++) if (a[i] === b[i]) same++;
  return same;
}

const percent = (share: number): string => `${(100 * share).toFixed(2)} %`;

function pairing(takes: number): Table {
  const rows: (string | number)[][] = [];
  const cases: readonly (readonly [string, Omit<Making, 'seed'>, string])[] = [
    ['8 ms', { sdMs: 8 }, '100 %'],
    ['15 % of the gap', { sdMs: 0.15 * GAP }, '99 %'],
    ['15 %, 3 % missed, 3 % added', { sdMs: 0.15 * GAP, missed: 0.03, added: 0.03 }, '99 %'],
    ['20 %', { sdMs: 0.2 * GAP }, '-'],
    ['20 %, 3 % missed, 3 % added', { sdMs: 0.2 * GAP, missed: 0.03, added: 0.03 }, '98.5 %'],
    ['25 %', { sdMs: 0.25 * GAP }, '-'],
  ];
  for (const [phraseName, stickings, firstSeed] of PHRASES) {
    const grid = straight(stickings);
    for (const [name, making, target] of cases) {
      let right = 0;
      let nearest = 0;
      let slots = 0;
      for (let seed = firstSeed; seed < firstSeed + takes; seed++) {
        const made = madeTake(grid, { ...making, seed: seed * 7919, offsetMs: spreadOffset(seed, 0.2) });
        const alignment = align(grid, made.strokes, settings);
        right += agreeing(strokeOfSlots(alignment), made.strokeOf);
        nearest += agreeing(nearestSlotPairing(grid, made.strokes, alignment.offsetMs), made.strokeOf);
        slots += grid.slots.length;
      }
      rows.push([phraseName, name, percent(right / slots), percent(nearest / slots), target]);
    }
  }
  return {
    title: `Slots paired right (90 bpm sixteenths, ${takes} takes of ${BARS} bars)`,
    columns: ['phrase', 'spread', 'paired right', 'nearest slot', 'wanted'],
    rows,
  };
}

export const spreadOffset = (seed: number, most: number): number => (seeded(seed)() * 2 - 1) * most * GAP;

function offsets(takes: number): Table {
  const rows: (string | number)[][] = [];
  for (const [phraseName, stickings, firstSeed] of PHRASES) {
    const grid = straight(stickings, 4);
    for (const share of [0, 0.15, 0.3, 0.45]) {
      for (const sd of [8, 0.15 * GAP]) {
        let found = 0;
        let worst = 0;
        let count = 0;
        for (let seed = firstSeed; seed < firstSeed + takes; seed++) {
          for (const sign of share === 0 ? [1] : [1, -1]) {
            const offsetMs = sign * share * GAP;
            const made = madeTake(grid, {
              sdMs: sd,
              seed: seed * 104_729 + sign,
              offsetMs,
              missed: 0.02,
              added: 0.02,
            });
            const error = Math.abs(align(grid, made.strokes, settings).offsetMs - offsetMs);
            count++;
            if (error < GAP / 4) {
              found++;
              worst = Math.max(worst, error);
            }
          }
        }
        rows.push([
          phraseName,
          `±${share} gap`,
          `${sd.toFixed(0)} ms`,
          percent(found / count),
          worst.toFixed(1),
        ]);
      }
    }
  }
  for (const [name, grid] of irregularGrids()) {
    for (const share of [0, 0.3, 0.45]) {
      let found = 0;
      let worst = 0;
      let count = 0;
      for (let seed = 1; seed <= takes; seed++) {
        for (const sign of share === 0 ? [1] : [1, -1]) {
          const offsetMs = sign * share * grid.smallestGapMs;
          const making = { sdMs: 8, seed: seed * 15_013 + sign, offsetMs, missed: 0.02, added: 0.02 };
          const error = Math.abs(align(grid, madeTake(grid, making).strokes, settings).offsetMs - offsetMs);
          count++;
          if (error >= grid.smallestGapMs / 4) continue;
          found++;
          worst = Math.max(worst, error);
        }
      }
      rows.push([name, `±${share} gap`, '8 ms', percent(found / count), worst.toFixed(1)]);
    }
  }
  return {
    title: `Offsets found (4 bars, 2 % missed and added, ${takes} takes a sign)`,
    columns: ['phrase', 'offset', 'spread', 'right gap', 'largest error there, ms'],
    rows,
  };
}

function irregularGrids(): (readonly [string, Grid])[] {
  const mixed = ['Rlrl Rl Rlr Lrlr', 'r- L-l r--- Llrl'].map((sticking, i) => ({
    variation: sticking,
    sticking,
    partialsPerBeat: i === 0 ? [4, 2, 3, 4] : [2, 3, 4, 4],
  }));
  const walk = phraseOf(WALK);
  return [
    ['swing 0.6', gridOf(phraseOf(WALK, 4, 0.6), { bpm: BPM }, 1000, 4)],
    ['swing 0.667', gridOf(phraseOf(WALK, 4, 0.667), { bpm: BPM }, 1000, 4)],
    ['mixed subdivisions and rests', gridOf({ ...walk, bars: mixed }, { bpm: BPM }, 1000, 6)],
    [
      'ramp 60 to 120 bpm',
      gridOf(
        walk,
        {
          ramp: [
            { bar: 0, bpm: 60 },
            { bar: 8, bpm: 120 },
          ],
        },
        1000,
        8,
      ),
    ],
  ];
}

function slips(takes: number): Table {
  const rows: (string | number)[][] = [];
  for (const [phraseName, stickings, firstSeed] of PHRASES) {
    const grid = straight(stickings);
    for (const length of [12, 16, 32, 64]) {
      for (const lag of [1, -1]) {
        let told = 0;
        let placed = 0;
        for (let seed = firstSeed; seed < firstSeed + takes; seed++) {
          const random = seeded(seed * 31 + length);
          const from = Math.floor(random() * (grid.slots.length - length - 8)) + 4;
          const slip = { from, to: from + length, lag };
          const made = madeTake(grid, { sdMs: 8, seed: seed * 613, slip, missed: 0.01, added: 0.01 });
          const found = align(grid, made.strokes, settings).slips;
          const first = firstDisplaced(grid, slip);
          if (found.length === 1 && found[0].lag === lag) told++;
          if (found.length === 1 && found[0].lag === lag && sameBeat(grid, first, found[0])) placed++;
        }
        rows.push([
          phraseName,
          `${length} slots, lag ${lag}`,
          percent(told / takes),
          percent(placed / takes),
        ]);
      }
    }
    for (const [name, making] of [
      ['good player', { sdMs: 6 }],
      [
        '15 % of the gap, 3 dB, 3 % missed and added',
        { sdMs: 0.15 * GAP, levelSdDb: 3, missed: 0.03, added: 0.03 },
      ],
      ['20 % of the gap, 4 dB', { sdMs: 0.2 * GAP, levelSdDb: 4 }],
      ['accents hardly told, 8 dB', { sdMs: 8, levelSdDb: 8 }],
    ] as const) {
      let alarms = 0;
      for (let seed = firstSeed; seed < firstSeed + 3 * takes; seed++) {
        if (align(grid, madeTake(grid, { ...making, seed: seed * 211 }).strokes, settings).slips.length > 0)
          alarms++;
      }
      rows.push([phraseName, `none: ${name}`, `${alarms} of ${3 * takes} false alarms`, '-']);
    }
  }
  return {
    title: `Slips (${takes} takes a row)`,
    columns: ['phrase', 'slip', 'told', 'with its bar and beat'],
    rows,
  };
}

/** The first slot of a slip whose kind is not the one due. */
function firstDisplaced(grid: Grid, slip: { from: number; to: number; lag: number }): number {
  for (let i = slip.from; i < slip.to; i++) {
    if (grid.slots[i].kind !== grid.slots[i + slip.lag].kind) return i;
  }
  return slip.from;
}

function sameBeat(grid: Grid, index: number, slip: { bar: number; slot: number }): boolean {
  const due = grid.slots[index];
  const told = grid.slots[grid.bars[slip.bar].firstSlot + slip.slot];
  return due.bar === told.bar && due.beat === told.beat;
}

function fit(takes: number): Table {
  const rows: (string | number)[][] = [];
  const row = (
    firstSeed: number,
    name: string,
    wanted: string,
    make: (seed: number) => Misfit | null,
  ): void => {
    const reasons = new Map<string, number>();
    for (let seed = firstSeed; seed < firstSeed + takes; seed++) {
      const reason = make(seed)?.reason ?? 'fits';
      reasons.set(reason, (reasons.get(reason) ?? 0) + 1);
    }
    const told = [...reasons].map(([reason, n]) => `${reason} ${percent(n / takes)}`).join(', ');
    rows.push([name, told, wanted]);
  };
  for (const [phraseName, stickings, firstSeed] of PHRASES) {
    const grid = straight(stickings);
    const judged = (making: Making, on: Grid = grid): Misfit | null =>
      align(on, madeTake(on, making).strokes, settings).misfit;
    for (const [name, sdMs] of [
      ['good, 6 ms', 6],
      ['spread 15 % of the gap', 0.15 * GAP],
      ['spread 20 %', 0.2 * GAP],
    ] as const) {
      row(firstSeed, `${phraseName}: ${name}, 3 % missed and added`, 'fits', (seed) =>
        judged({ sdMs, seed: seed * 37, missed: 0.03, added: 0.03, offsetMs: spreadOffset(seed, 0.45) }),
      );
    }
    row(firstSeed, `${phraseName}: spread 25 %`, 'fits', (seed) =>
      judged({ sdMs: 0.25 * GAP, seed: seed * 41 }),
    );
    const short = straight(stickings, 4);
    row(firstSeed, `${phraseName}: 4 bars, spread 20 %`, 'fits', (seed) =>
      judged({ sdMs: 0.2 * GAP, seed: seed * 71 }, short),
    );
    row(firstSeed, `${phraseName}: 4 bars, sloppy, 32 %`, 'does not fit', (seed) =>
      judged({ sdMs: 0.32 * GAP, seed: seed * 73 }, short),
    );
    for (const share of [0.32, 0.36, 0.4]) {
      row(firstSeed, `${phraseName}: sloppy, ${100 * share} %`, 'does not fit', (seed) =>
        judged({ sdMs: share * GAP, seed: seed * 43 }),
      );
    }
    for (const swing of [0.6, 0.64, 0.667, 0.7]) {
      row(firstSeed, `${phraseName}: swung ${swing}, 8 ms`, swing < 0.64 ? '-' : 'swung', (seed) =>
        judged({
          sdMs: 8,
          seed: seed * 47,
          playedAtMs: (i) => grid.slots[i].atMs + (i % 2) * (swing - 0.5) * 2 * GAP,
        }),
      );
    }
    for (const bpm of [84, 87, 88.5, 92, 96]) {
      row(firstSeed, `${phraseName}: played at ${bpm}`, 'tempo', (seed) =>
        judged({
          sdMs: 8,
          seed: seed * 53,
          playedAtMs: (i) => 1000 + ((grid.slots[i].atMs - 1000) * BPM) / bpm,
        }),
      );
    }
    row(firstSeed, `${phraseName}: random times`, 'does not fit', (seed) => {
      const random = seeded(seed * 59);
      const last = grid.slots[grid.slots.length - 1].atMs;
      return judged({ sdMs: 0, seed, playedAtMs: () => 1000 + random() * (last - 1000) });
    });
    row(firstSeed, `${phraseName}: triplets`, 'subdivision', (seed) =>
      judged({ sdMs: 8, seed: seed * 61, playedAtMs: (i) => 1000 + (i * GAP * 4) / 3 }),
    );
    const swung = gridOf(phraseOf(stickings, 4, 0.64), { bpm: BPM }, 1000, BARS);
    row(firstSeed, `${phraseName} written with swing 0.64, played so, 12 ms`, 'fits', (seed) =>
      judged({ sdMs: 12, seed: seed * 67, missed: 0.02, added: 0.02 }, swung),
    );
  }
  return { title: `Does not fit the grid (${takes} takes a row)`, columns: ['take', 'told', 'wanted'], rows };
}

export function liveTable(takes: number): Table {
  const rows: (string | number)[][] = [];
  let same = 0;
  let slots = 0;
  for (const [phraseName, stickings, firstSeed] of PHRASES) {
    const grid = straight(stickings);
    const longer = straight(stickings, BARS + 8);
    for (const [name, spread, most, errors] of [
      ['8 ms, offset within 0.2 gap', 8 / GAP, 0.2, 0],
      ['8 ms, offset within 0.45 gap', 8 / GAP, 0.45, 0.03],
      ['15 %, offset within 0.45 gap', 0.15, 0.45, 0.03],
      ['20 %, offset within 0.45 gap', 0.2, 0.45, 0],
      ['20 %, offset within 0.45 gap, 3 % missed and added', 0.2, 0.45, 0.03],
    ] as const) {
      let least = 1;
      let under = 0;
      let sum = 0;
      for (let seed = firstSeed; seed < firstSeed + takes; seed++) {
        const offsetMs = spreadOffset(seed, most);
        const making = { sdMs: spread * GAP, seed: seed * 79, offsetMs, missed: errors, added: errors };
        const { strokes } = madeTake(grid, making);
        const batch = strokeOfSlots(align(grid, strokes, settings));
        const share = agreeing(batch, followed(longer, strokes).subarray(0, batch.length)) / batch.length;
        sum += share;
        least = Math.min(least, share);
        if (share < 0.99) under++;
      }
      same += sum;
      slots += takes;
      rows.push([phraseName, name, percent(sum / takes), percent(least), under]);
    }
  }
  rows.push(['all', '', percent(same / slots), '-', '-']);
  return {
    title: `Live against batch: slots with the same stroke (${takes} takes a row; asked: 99.5 % over all, 99 % in each)`,
    columns: ['phrase', 'take', 'same', 'worst take', 'takes under 99 %'],
    rows,
  };
}

/** A take followed stroke by stroke with a tick every 16 ms, as on the page. */
export function followed(grid: Grid, strokes: readonly AlignStroke[]): Int32Array {
  const follower = follow(grid, settings);
  let state = follower.start;
  let tickMs = 0;
  for (const stroke of strokes) {
    for (; tickMs < stroke.atMs; tickMs += 16) state = follower.step(state, { kind: 'tick', atMs: tickMs });
    state = follower.step(state, { kind: 'stroke', stroke });
  }
  state = follower.step(state, { kind: 'tick', atMs: Infinity });
  return Int32Array.from(grid.slots, (_, slot) => {
    const outcome = outcomeAt(state, slot);
    return outcome?.status === 'matched' ? outcome.stroke : -1;
  });
}

export async function run(takes = 100): Promise<Table[]> {
  return Promise.resolve([pairing(takes), offsets(takes), slips(takes), fit(takes), liveTable(takes)]);
}
