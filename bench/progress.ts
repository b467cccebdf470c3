import { changeOf } from '../src/insight/ceiling/change';
import { posteriorOf } from '../src/insight/ceiling/posterior';
import type { TriedBars } from '../src/grading/tried-bars';
import { normal, seeded, type Random } from '../src/model/random';
import type { Table } from './table';

const PLAYERS = 200;
const FIRST_SEED = 40_000;

interface Term {
  /** Share of the ceiling gained (lost where negative) over the eight weeks. */
  readonly change: number;
  readonly lapses: number;
  /** Sd of a day's own ceiling about the line, as a share. */
  readonly dayEffect: number;
}

const WEEKS = 8;
const WEEKDAYS = [0, 2, 4];
/** A take's bars of one variation. */
const BARS = 8;
/** About where a player chooses tempos: three takes a day, each somewhere about the day's own ceiling as they know it. */
const TEMPO_SHARES = [0.9, 1, 1.1] as const;

interface Learner {
  readonly tried: readonly TriedBars[];
  /** On the last day, lapses aside. */
  readonly ceilingBpm: number;
}

/** Eight weeks of three days with three takes of one variation, by the logistic curve alone. */
export function learner({ change, lapses, dayEffect }: Term, random: Random): Learner {
  const b = 12 * Math.exp(0.6 * normal(random));
  const first = 70 + 80 * random();
  const lastDay = (WEEKS - 1) * 7 + 4;
  const ceilingOn = (day: number): number => first * (1 + change) ** (day / lastDay);
  const tried: TriedBars[] = [];
  for (let week = 0; week < WEEKS; week += 1) {
    for (const weekday of WEEKDAYS) {
      const day = week * 7 + weekday;
      const today = ceilingOn(day) * Math.exp(dayEffect * normal(random));
      const t50 = today * Math.exp(Math.log(4) / b);
      const known = ceilingOn(day) * Math.exp(0.04 * normal(random));
      for (const share of TEMPO_SHARES) {
        const bpm = Math.round(known * share);
        const p = (1 - lapses) / (1 + (bpm / t50) ** b);
        let clean = 0;
        for (let bar = 0; bar < BARS; bar += 1) clean += Number(random() < p);
        tried.push({ bpm, bars: BARS, clean, day });
      }
    }
  }
  return { tried, ceilingBpm: ceilingOn(lastDay) };
}

const percent = (part: number, of: number): string => `${((100 * part) / of).toFixed(1)}`;

interface Told {
  covered: number;
  up: number;
  down: number;
  none: number;
}

function told(term: Term, seed: number): Told {
  const sum: Told = { covered: 0, up: 0, down: 0, none: 0 };
  for (let player = 0; player < PLAYERS; player += 1) {
    const { tried, ceilingBpm } = learner(term, seeded(FIRST_SEED + seed * PLAYERS + player));
    const posterior = posteriorOf(tried);
    const [low, high] = posterior.ceilingOn(posterior.days[1]).interval;
    sum.covered += Number(low <= ceilingBpm && ceilingBpm <= high);
    const { kind } = changeOf(tried, posterior);
    if (kind !== 'not enough') sum[kind] += 1;
  }
  return sum;
}

const terms: readonly (Term & { readonly asked: string })[] = [
  { change: 0, lapses: 0.02, dayEffect: 0.03, asked: 'told ≤ 8' },
  { change: 0, lapses: 0.02, dayEffect: 0.06, asked: 'told ≤ 8, covered ≥ 85' },
  { change: 0, lapses: 0.07, dayEffect: 0.06, asked: 'told ≤ 8, covered ≥ 85' },
  { change: 0, lapses: 0.12, dayEffect: 0.06, asked: 'told ≤ 8, covered ≥ 75' },
  { change: -0.1, lapses: 0.02, dayEffect: 0.03, asked: 'down ≥ 45' },
  { change: -0.1, lapses: 0.07, dayEffect: 0.06, asked: 'down ≥ 45' },
  { change: -0.15, lapses: 0.02, dayEffect: 0.03, asked: 'down ≥ 75' },
  { change: -0.15, lapses: 0.07, dayEffect: 0.06, asked: 'down ≥ 75' },
  { change: -0.15, lapses: 0.12, dayEffect: 0.06, asked: 'covered ≥ 75' },
  { change: 0.1, lapses: 0.07, dayEffect: 0.06, asked: 'up as down' },
  { change: 0.15, lapses: 0.07, dayEffect: 0.06, asked: 'up as down' },
];

/** Ceiling and change of made-up learners; each row other players. */
export function run(): Promise<Table[]> {
  const start = performance.now();
  const rows = terms.map((term, index) => {
    const { covered, up, down, none } = told(term, index);
    const right = term.change > 0 ? up : down;
    return [
      `${(100 * term.change).toFixed(0)} %`,
      `${(100 * term.lapses).toFixed(0)} %`,
      `${(100 * term.dayEffect).toFixed(0)} %`,
      percent(covered, PLAYERS),
      percent(up, PLAYERS),
      percent(down, PLAYERS),
      percent(none, PLAYERS),
      up + down === 0 || term.change === 0 ? '' : percent(right, up + down),
      term.asked,
    ];
  });
  const each = (performance.now() - start) / (terms.length * PLAYERS);
  return Promise.resolve([
    {
      title: `Ceiling over eight weeks of three days with three takes: % of ${PLAYERS} made-up learners a row, ${each.toFixed(2)} ms each`,
      columns: ['change', 'lapses', 'day', 'covered', 'told up', 'told down', 'none', 'right sign', 'asked'],
      rows,
    },
  ]);
}
