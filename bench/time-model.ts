import { phraseNamed } from '../src/exercises/phrase';
import { parseFault } from '../src/model/faults';
import { modelTake } from '../src/model/model-player';
import type { JudgedKey, Report } from '../src/grading/types';
import { gradeTake } from '../src/take/grade-take';
import type { Table } from './table';

const WALK = 'Single paradiddle, accent walk';
const PHRASES = [
  WALK,
  'Single paradiddle, rotations',
  'Single paradiddle, accents off, then accent walk',
  'single paradiddle',
  'triple paradiddle',
  'Single paradiddle, accent walk, both leads',
];
/** What the time model tells; scatter is what it leaves. */
const TOLD: readonly JudgedKey[] = ['lag', 'doubleGap', 'arrival', 'feel'];
const TEMPOS = [60, 84, 104, 120, 140, 160];
const CYCLES = [2, 4, 8];

const SEED = Number(process.env['TIME_SEED'] ?? 20261130);
const TAKES = Number(process.env['TIME_TAKES'] ?? 40);
const GOOD = Number(process.env['TIME_GOOD'] ?? 300);

function graded(phrase: string, index: number, cycles: number, faults: string): Report {
  const { take } = modelTake({
    phrase: phraseNamed(phrase),
    bpm: TEMPOS[(5 * index + SEED) % TEMPOS.length],
    seed: SEED + 7919 * index,
    cycles,
    faults: faults === '' ? [] : faults.split(' + ').map(parseFault),
  });
  return gradeTake(take);
}

const isOut = (report: Report, key: JudgedKey): boolean =>
  [report.measures, ...report.variations.map(({ measures }) => measures)].some((of) => {
    const figure = of[key];
    const bands = figure === undefined ? [] : 'band' in figure ? [figure.band] : [];
    return bands.some((band) => band === 'close' || band === 'not yet');
  });

/** What is planted, when it counts as told, and the figure of the grading design, section 5. */
interface Cell {
  readonly words: string;
  readonly phrase: string;
  readonly cycles: number;
  readonly faults: string;
  readonly told: (report: Report) => boolean;
  readonly design: string;
}

const names =
  (key: JudgedKey, variation?: string) =>
  ({ weakest }: Report): boolean =>
    weakest?.measure === key && (variation === undefined || weakest.variation === variation);
const hasSwing = ({ course }: Report): boolean => course.some(({ kind }) => kind === 'swing');
const both = (report: Report): boolean =>
  report.weakest?.variation === 'accent on 4' &&
  ['leakBefore', 'spill'].every((key) => report.weakest?.measure === key || isOut(report, key as JudgedKey));

const cells: readonly Cell[] = [
  ...CYCLES.map((cycles): Cell => ({
    words: 'one variation 25 ms late: found and named',
    phrase: WALK,
    cycles,
    faults: 'arrival:25:accent on 3',
    told: names('arrival', 'accent on 3'),
    design: cycles === 2 ? '93–100' : '100',
  })),
  {
    words: 'left 18 ms late',
    phrase: WALK,
    cycles: 4,
    faults: 'late:L:18',
    told: (report) => names('lag')(report) && !hasSwing(report),
    design: '100',
  },
  {
    words: 'left 18 ms late, swung 62 %: both',
    phrase: WALK,
    cycles: 4,
    faults: 'swing:62 + late:L:18',
    told: (report) => names('lag')(report) && hasSwing(report),
    design: '100',
  },
  {
    words: 'swung 62 %: a false lag or wide double',
    phrase: WALK,
    cycles: 4,
    faults: 'swing:62',
    told: (report) => isOut(report, 'lag') || isOut(report, 'doubleGap'),
    design: '0',
  },
  {
    words: 'doubles 8 % wide: out of band',
    phrase: WALK,
    cycles: 8,
    faults: 'double-gap:DOUBLE',
    told: (report) => isOut(report, 'doubleGap'),
    design: '—',
  },
  {
    words: 'leak of 6 dB in one variation',
    phrase: WALK,
    cycles: 4,
    faults: 'leak-before:L:6:accent on 4',
    told: names('leakBefore', 'accent on 4'),
    design: '—',
  },
  {
    words: 'spill of 6 dB in one variation',
    phrase: WALK,
    cycles: 4,
    faults: 'spill:L:6:accent on 4',
    told: names('spill', 'accent on 4'),
    design: '—',
  },
  {
    words: 'leak and spill of 6 dB in one variation: both',
    phrase: WALK,
    cycles: 4,
    faults: 'leak-before:L:6:accent on 4 + spill:L:6:accent on 4',
    told: both,
    design: '97–100',
  },
  ...[4, 8].map((cycles): Cell => ({
    words: '3.5 dB loud all over in one variation: not called a leak',
    phrase: WALK,
    cycles,
    faults: 'softs:3.5:accent on 4',
    told: (report) => !(['leakBefore', 'leakAfter', 'spill'] as const).some((key) => isOut(report, key)),
    design: cycles === 4 ? '87–100' : '100',
  })),
];

const percent = (found: number, of: number): string => ((100 * found) / of).toFixed(1);

function foundIn({ phrase, cycles, faults, told }: Cell): number {
  return Array.from({ length: TAKES }, (_, i) => i).filter((i) => {
    const gapMs = 60_000 / TEMPOS[(5 * i + SEED) % TEMPOS.length] / 4;
    return told(graded(phrase, i, cycles, faults.replace('DOUBLE', String(0.08 * gapMs))));
  }).length;
}

/** Takes of a good player under slow drifts whose 90 % interval holds the truth, by measure. */
function coverage(): (string | number)[][] {
  const keys = ['lag', 'arrival', 'scatter'] as const;
  const all = Array.from({ length: 3 * TAKES }, (_, i) => graded(WALK, i, 4, 'wander:6'));
  // How much of a drift a take of this length shows is known by the mean of many only.
  const scatters = all.flatMap(({ measures }) => measures.scatter?.value ?? []);
  const scatter = scatters.reduce((sum, one) => sum + one, 0) / scatters.length;
  const truth = { lag: 0, arrival: 0, scatter };
  return keys.map((key) => {
    const intervals = all.flatMap(({ measures, variations }) => {
      const figures = key === 'arrival' ? variations.map((row) => row.measures[key]) : [measures[key]];
      return figures.flatMap((figure) => (figure?.interval ? [figure.interval] : []));
    });
    const held = intervals.filter(([low, high]) => low <= truth[key] && truth[key] <= high).length;
    return [key, intervals.length, percent(held, intervals.length), '80–98'];
  });
}

/** What the time model and the two-stage soft-stroke model find, and what they tell good players. */
export function run(): Promise<readonly Table[]> {
  const good = Array.from({ length: GOOD }, (_, i) =>
    graded(
      PHRASES[i % PHRASES.length],
      i,
      CYCLES[i % CYCLES.length],
      ['', 'wander:4', 'correction:0.25'][i % 3],
    ),
  );
  const told = good.filter((report) => TOLD.some((key) => isOut(report, key)));
  return Promise.resolve([
    {
      title: 'Good players (6 ms, slow drifts, phase correction) told a fault of time (asked: 1 of 1,000)',
      columns: ['takes', 'told', 'lag', 'doubleGap', 'arrival', 'feel', 'scatter beside'],
      rows: [
        [
          good.length,
          told.length,
          ...[...TOLD, 'scatter' as const].map((key) => good.filter((report) => isOut(report, key)).length),
        ],
      ],
    },
    {
      title: 'Planted, and told as that (%)',
      columns: ['planted', 'cycles', 'takes', 'told', 'design'],
      rows: cells.map((cell) => [cell.words, cell.cycles, TAKES, percent(foundIn(cell), TAKES), cell.design]),
    },
    {
      title: '90 % intervals that hold the truth under 1/f drifts of 6 ms (%)',
      columns: ['measure', 'intervals', 'hold', 'design'],
      rows: coverage(),
    },
  ]);
}
