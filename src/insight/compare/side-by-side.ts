import type { BlindBar } from '../../grading/apart/listen-blind';
import { compareTakes, type Comparison } from './compare';
import type { Reviewed } from '../../take/reviewed';

/** Two takes of one phrase and what differs: second less first. */
export interface SideBySide {
  readonly first: Reviewed;
  readonly second: Reviewed;
  readonly comparison: Comparison;
}

/**
 * The open take and the one set beside it. The earlier is the first, as before and after; a model player's and the
 * teacher's come before a player's, who is held against them.
 * @throws InputError where their bars are not the same
 */
export function sideBySide(open: Reviewed, beside: Reviewed): SideBySide {
  const [first, second] = comesFirst(beside, open) ? [beside, open] : [open, beside];
  const comparison = compareTakes(
    { report: first.report, phrase: first.take.phrase },
    { report: second.report, phrase: second.take.phrase },
  );
  return { first, second, comparison };
}

function comesFirst({ take: one }: Reviewed, { take: other }: Reviewed): boolean {
  if (isModel(one) !== isModel(other)) return isModel(one);
  return one.recordedAt <= other.recordedAt;
}

/** Played to be held against. */
const isModel = ({ source, teacher }: Reviewed['take']): boolean => source === 'model' || teacher === true;

const THIS_TAKE = 'this take';

/** What the take set beside the open one is called. @example besideName({ source: 'model' }) // => 'the model take' */
export function besideName({ source, teacher }: Pick<Reviewed['take'], 'source' | 'teacher'>): string {
  if (source === 'model') return 'the model take';
  return teacher === true ? 'the teacher’s take' : 'the other take';
}

/**
 * Bars of both takes to be told apart by ear: those with nothing missed in them, of each variation as many of one as of
 * the other, so that what is played says nothing of who played it.
 */
export function blindBarsOfTwo(open: Reviewed, beside: Reviewed): readonly BlindBar[] {
  const answers = [THIS_TAKE, besideName(beside.take)];
  const whole = [open, beside].map(wholeBars);
  return [...new Set(whole[0].map(({ variation }) => variation))].flatMap((variation) => {
    const of = whole.map((bars) => bars.filter((bar) => bar.variation === variation));
    const n = Math.min(...of.map(({ length }) => length));
    return of.flatMap((bars, take) =>
      bars.slice(0, n).map(({ index }) => ({ take, bar: index, answer: answers[take] })),
    );
  });
}

function wholeBars({ report }: Reviewed): Reviewed['report']['bars'] {
  const broken = new Set(report.slots.filter(({ status }) => status !== 'matched').map(({ bar }) => bar));
  return report.bars.filter(({ index, role }) => role === undefined && !broken.has(index));
}

/** By this the model player is asked for the open take's phrase. */
export const STEADY_MODEL = 'steady-model';
