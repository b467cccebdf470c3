import { ceilingOf, ceilingsOf, type Ceiling, type HeldBars } from '../ceiling';
import type { TakeSummary } from '../../sessions/take-record';
import { daysAPoint } from './days';
import type { SeriesPoint } from './series';
import { dayOf } from './weeks';

/** A ceiling asks for so many bars (grading.md section 7): days with fewer are taken together with the next ones. */
const FEWEST_BARS = 6;

/**
 * Ceiling tempo over weeks, in bpm: each point from the bars of its own days alone, so that one is no echo of the one
 * before. Where all held, only *at least* their fastest tempo is known; where none did, there is no point.
 * @param takes of one phrase on one rig, oldest first
 * @param variation null: bars of all of them
 */
export function ceilingSeries(
  takes: readonly TakeSummary[],
  variation: string | null,
  cold: ReadonlySet<string>,
  eastMinutes: number,
): readonly SeriesPoint[] {
  return stretches(takes, variation, eastMinutes).flatMap(({ days, bars, own }): SeriesPoint[] => {
    const ceiling = ceilingOf(bars);
    const day = days.reduce((sum, one) => sum + one, 0) / days.length;
    const point = { day, takes: own.length, cold: own.every(({ id }) => cold.has(id)), of: variation ?? '' };
    if (ceiling.kind === 'at') return [{ ...point, ...ceiling.clean }];
    return ceiling.kind === 'above' ? [{ ...point, value: ceiling.bpm, interval: null, atLeast: true }] : [];
  });
}

/** Ceilings as they are now, of the phrase and each variation: a bar weighs half after 21 days. */
export function ceilingsNow(takes: readonly TakeSummary[]): {
  readonly phrase: Ceiling;
  readonly variations: ReadonlyMap<string, Ceiling>;
} {
  return ceilingsOf(heldBarsIn(takes));
}

/** Bars held of several takes, with their days before the newest of them. */
export function heldBarsIn(takes: readonly TakeSummary[]): readonly HeldBars[] {
  const newest = takes.reduce((most, { recordedAt }) => Math.max(most, dayOf(recordedAt, 0)), -Infinity);
  return takes.flatMap((take) => heldIn(take, newest - dayOf(take.recordedAt, 0)));
}

interface Stretch {
  readonly days: readonly number[];
  readonly bars: readonly HeldBars[];
  readonly own: readonly TakeSummary[];
}

/** Days one after the other until they have bars enough; the last ones, where too few, go with those before. */
function stretches(
  takes: readonly TakeSummary[],
  variation: string | null,
  eastMinutes: number,
): readonly Stretch[] {
  const played = takes
    .map((take) => ({
      take,
      day: dayOf(take.recordedAt, eastMinutes),
      bars: heldIn(take, 0).filter((row) => variation === null || row.variation === variation),
    }))
    .filter(({ bars }) => bars.length > 0);
  const width = daysAPoint(played.map(({ day }) => day));
  const done: Stretch[] = [];
  let open = nothing();
  played.forEach(({ take, day, bars }, index) => {
    open.days.push(day);
    open.bars.push(...bars);
    open.own.push(take);
    const next = played.at(index + 1)?.day;
    const dayIsOver = next === undefined || unitOf(next, width) !== unitOf(day, width);
    if (!dayIsOver || countOf(open.bars) < FEWEST_BARS) return;
    done.push(open);
    open = nothing();
  });
  const last = done.at(-1);
  if (open.own.length === 0 || last === undefined) return done;
  const both: Stretch = {
    days: [...last.days, ...open.days],
    bars: [...last.bars, ...open.bars],
    own: [...last.own, ...open.own],
  };
  return [...done.slice(0, -1), both];
}

const nothing = (): { days: number[]; bars: HeldBars[]; own: TakeSummary[] } => ({
  days: [],
  bars: [],
  own: [],
});

const unitOf = (day: number, width: number): number => Math.floor(Math.floor(day) / width);

const countOf = (bars: readonly HeldBars[]): number => bars.reduce((sum, { bars: n }) => sum + n, 0);

const heldIn = ({ graded }: TakeSummary, ageDays: number): readonly HeldBars[] =>
  (graded?.bars ?? []).map(({ variation, bpm, bars, held }) => ({ variation, bpm, bars, held, ageDays }));
