import { bundledPhrases } from '../src/exercises/bundled-phrases';
import { plainClick } from '../src/exercises/click-plan';
import { phraseNamed } from '../src/exercises/phrase';
import type { Phrase } from '../src/exercises/types';
import type { Course } from '../src/alignment/course/types';
import { parseFault } from '../src/model/faults';
import { modelTake, type ModelPlayer } from '../src/model/model-player';
import { gradeTake } from '../src/take/grade-take';
import type { Report } from '../src/grading/types';
import type { Table } from './table';

/** Eight phrases without rests or graces that good players are told nothing in. */
const PHRASES = [
  'Single paradiddle, accent walk',
  'Single paradiddle, rotations',
  'Single paradiddle, accents off, then accent walk',
  'single paradiddle',
  'double stroke open roll',
  'single stroke roll',
  'triple paradiddle',
  'Single paradiddle, accent walk, both leads',
];

const TEMPOS = [60, 84, 104, 120, 140, 160];
const CYCLES = [2, 4, 8];

/** What is planted, what of it must be told, and the figure of the design. */
interface Cell {
  readonly name: string;
  readonly faults: string;
  readonly told: (course: readonly Course[], report: Report) => boolean;
  readonly design: string;
  readonly phrases?: readonly string[];
  readonly player?: Partial<ModelPlayer>;
  readonly surfaces?: readonly (1 | 2)[];
}

const WALK = ['Single paradiddle, accent walk', 'Single paradiddle, accents off, then accent walk'];
const has = (kind: Course['kind']) => (course: readonly Course[]) => course.some((one) => one.kind === kind);
const isGraded = (report: Report): boolean => report.fits && report.counts.slipped === 0;

const cells: readonly Cell[] = [
  ...[50, 100, 150, 200, 250, 300].map((ms): Cell => ({
    name: `latency of ${ms} ms, graded in its place`,
    faults: `latency:${ms}`,
    told: (course, report) =>
      isGraded(report) && report.counts.missed <= 2 && !course.some(({ kind }) => kind === 'late start'),
    design: '100',
    phrases: WALK,
  })),
  {
    name: 'begun a beat late',
    faults: 'late-start:4',
    told: (course, report) => has('late start')(course) && isGraded(report),
    design: '100',
    phrases: [WALK[0]],
  },
  {
    name: 'begun a bar late',
    faults: 'late-start:1bar',
    told: (course, report) => has('late start')(course) && isGraded(report),
    design: '100',
    phrases: WALK,
  },
  {
    name: 'pads swapped',
    faults: 'mirror',
    told: (course, report) => has('mirror')(course) && isGraded(report) && report.counts.wrongHand === 0,
    design: '100',
    surfaces: [2],
    phrases: WALK,
  },
  {
    name: 'a pause of 2½ bars',
    faults: 'pause:3:4:40',
    told: (course, report) => has('pause')(course) && report.counts.missed <= 1 && isGraded(report),
    design: '100',
  },
  {
    name: 'stopped, and from bar 1 again',
    faults: 'restart:3:4:40',
    told: (course, report) => has('pause')(course) && report.counts.missed <= 2 && isGraded(report),
    design: '100',
    phrases: WALK,
  },
  {
    name: 'the cable out for 40 strokes',
    faults: 'cable:3:4:40',
    told: (course, report) => has('cable')(course) && report.counts.missed <= 1 && isGraded(report),
    design: '100',
  },
  {
    name: 'bars 2 and 3 swapped',
    faults: 'swap:2:3',
    told: (course, report) =>
      report.slips.length === 0 &&
      course.filter(({ kind }) => kind === 'other bar').length === Math.round(report.bars.length / 2),
    design: '100',
    phrases: [WALK[0]],
  },
  {
    name: 'one bar wrong',
    faults: 'played-as:2:4:2',
    told: (course, report) =>
      report.slips.length === 0 && course.filter(({ kind }) => kind === 'other bar').length === 1,
    design: '100',
    phrases: [WALK[0]],
  },
  {
    name: 'one bar wrong, 6 dB of contrast',
    faults: 'played-as:2:4:2 softs:10',
    told: (course, report) =>
      report.slips.length === 0 && course.filter(({ kind }) => kind === 'other bar').length === 1,
    design: '82–100',
    phrases: [WALK[0]],
  },
  {
    name: 'rotations on two pads, bars swapped',
    faults: 'swap:2:3',
    told: (course, report) =>
      report.slips.length === 0 &&
      course.filter(({ kind }) => kind === 'other bar').length === Math.round(report.bars.length / 2),
    design: '97–100',
    phrases: [PHRASES[1]],
    surfaces: [2],
  },
  {
    name: 'slip of 16',
    faults: 'slip:2:4:16',
    told: (course, report) => report.slips.length === 1 && course.length === 0,
    design: '99',
    phrases: [WALK[0]],
  },
  {
    name: '0.4 % fast',
    faults: 'tempo:0.4',
    told: (course, report) => has('tempo')(course) && isGraded(report),
    design: 'line',
  },
  {
    name: '60 ms early from half on',
    faults: 'step:HALF:-60',
    told: (course, report) => has('step')(course) && isGraded(report),
    design: 'step',
    // Thirty-seconds left out: 60 ms is a whole partial of theirs, so nobody can know.
    phrases: PHRASES.filter((name) => name !== 'double stroke open roll'),
  },
  {
    name: 'rushing 2 % in bare bars',
    faults: 'bare-rush:2',
    told: (course) => course.some((one) => one.kind === 'tempo' && one.bare === true),
    design: 'drift',
    player: { clicks: { ...plainClick, bare: { kind: 'steady', on: 2, off: 2 } } },
    phrases: WALK,
  },
  { name: '×½', faults: 'rate:0.5', told: has('rate'), design: '100' },
  { name: '×3/2', faults: 'rate:3/2', told: has('rate'), design: '100' },
  { name: '×2/3', faults: 'rate:2/3', told: has('rate'), design: '100' },
  { name: '×2', faults: 'rate:2', told: has('rate'), design: '94' },
  {
    name: '5 % came twice',
    faults: 'twice:0.05:25',
    told: (course, report) => has('doubles')(course) && report.counts.extra <= 1,
    design: '94–100',
  },
  { name: 'one velocity', faults: 'velocities:1', told: has('one loudness'), design: 'told' },
];

function players(
  count: number,
  cell: Pick<Cell, 'phrases' | 'surfaces' | 'player'>,
  seed: number,
): ModelPlayer[] {
  const names = cell.phrases ?? PHRASES;
  return Array.from({ length: count }, (_, i): ModelPlayer => ({
    phrase: phraseNamed(names[i % names.length]),
    bpm: TEMPOS[(i * 5 + seed) % TEMPOS.length] + (i % 7),
    cycles: CYCLES[i % CYCLES.length],
    surfaces: (cell.surfaces ?? [1, 2])[Math.floor(i / 3) % (cell.surfaces ?? [1, 2]).length],
    seed: seed + 7919 * i,
    ...cell.player,
  }));
}

function faultsOf(text: string, { phrase, cycles = 1 }: ModelPlayer): ModelPlayer['faults'] {
  if (text === '') return [];
  const half = Math.floor((phrase.bars.length * cycles) / 2) + 1;
  return text.replace('HALF', String(half)).split(' ').map(parseFault);
}

/** Faults that need more bars than some phrases have. */
function longEnough(player: ModelPlayer): ModelPlayer {
  const bars = player.phrase.bars.length * (player.cycles ?? 1);
  return bars >= 8 ? player : { ...player, cycles: Math.ceil(8 / player.phrase.bars.length) * 2 };
}

const graded = (player: ModelPlayer): Report => gradeTake(modelTake(player).take);

const SEED = Number(process.env['COURSE_SEED'] ?? 20261129);
const TAKES = Number(process.env['COURSE_TAKES'] ?? 40);
const GOOD = Number(process.env['COURSE_GOOD'] ?? 400);

/** Phrases with rests, graces or unisons, reported beside. */
const withRests = (): readonly Phrase[] =>
  bundledPhrases
    .map(({ phrase }) => phrase)
    .filter(({ bars }) => bars.some(({ sticking }) => /[-{[]/.test(sticking)));

export function run(): Promise<readonly Table[]> {
  const rows = cells.map((cell): readonly (string | number)[] => {
    const all = players(TAKES, cell, SEED).map(longEnough);
    const found = all.filter((player) => {
      const report = graded({ ...player, faults: faultsOf(cell.faults, player) ?? [] });
      return cell.told(report.course, report);
    });
    return [cell.name, all.length, Math.round((100 * found.length) / all.length), cell.design];
  });
  const steady = players(GOOD, {}, SEED + 1).map((player, i): ModelPlayer => ({
    ...player,
    faults: [[], ['wander:6'], ['correction:0.25'], ['jitter:usb', 'curve:0.8']][i % 4].map(parseFault),
  }));
  const odd = withRests().flatMap((phrase, i) =>
    [0, 1].map((n): ModelPlayer => ({
      phrase,
      bpm: TEMPOS[(i + n) % TEMPOS.length],
      cycles: 4,
      seed: SEED + i + 1000 * n,
      surfaces: n === 0 ? 1 : 2,
    })),
  );
  const hard = [
    ['leaks of 12 dB', 'leak-before:L:12 leak-after:R:12'],
    ['10 % missed', 'missed:0.1'],
    ['scatter of 15 ms', 'scatter:15'],
    ['lag of 25 ms', 'late:L:25'],
    ['no contrast', 'accents:-16'],
  ] as const;
  const toldIn = (all: readonly ModelPlayer[]): readonly string[] =>
    all.flatMap((player) => {
      const kinds = graded(player).course.map(({ kind }) => kind);
      return kinds.length === 0 ? [] : [`${player.phrase.title} ${player.bpm}: ${kinds.join(', ')}`];
    });
  const nothing = [
    ['good players', steady] as const,
    ['good players, phrases with rests, graces, unisons', odd] as const,
    ...hard.map(([name, faults]) => {
      const all = players(Math.max(40, GOOD / 10), {}, SEED + 2);
      return [name, all.map((player) => ({ ...player, faults: faultsOf(faults, player) ?? [] }))] as const;
    }),
  ].map(([name, all]) => {
    const told = toldIn(all);
    return [name, all.length, told.length, told.slice(0, 4).join('; ')];
  });
  return Promise.resolve([
    {
      title: 'What happened to the take, told right (%)',
      columns: ['planted', 'takes', 'told', 'design'],
      rows,
    },
    {
      title: 'Nothing happened: takes told something',
      columns: ['players', 'takes', 'told', 'what'],
      rows: nothing,
    },
  ]);
}
