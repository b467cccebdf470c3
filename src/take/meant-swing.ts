import { performed, performanceOf } from '../exercises/performance';
import type { Report } from '../grading/types';
import type { Take } from '../sessions/types';

/** Swing that a phrase may carry, in percent. */
const LEAST = 50;
const MOST = 70;

/**
 * The swing that was heard, rounded to 1 % and to what a phrase can carry, where the report calls it a fault: the
 * off-beats aren't where the phrase has them, or a late hand or wide doubles that may as well be swing.
 * @returns undefined where nothing was called a fault that swing would explain
 */
export function swingPlayed({ timeModel, measures }: Report): number | undefined {
  if (timeModel === undefined || timeModel.swingPercent === null) return undefined;
  const isOut = (key: 'feel' | 'lag' | 'doubleGap'): boolean => (measures[key]?.supported ?? 0) < 0;
  if (!isOut('feel') && !timeModel.notToldApart.some(isOut)) return undefined;
  return Math.min(MOST, Math.max(LEAST, Math.round(timeModel.swingPercent)));
}

/**
 * The take of a player who meant to swing: its phrase swung as it was played, so that it can be graded anew.
 * @returns undefined where no swing was heard, or the phrase has it already
 * @example played at 61.7 %, written straight: the phrase swung at 62 %
 */
export function asSwung(take: Take, report: Report): Take | undefined {
  const percent = swingPlayed(report);
  const { base, performance } = performanceOf(take.phrase);
  if (percent === undefined || percent === Math.round(100 * performance.swing)) return undefined;
  return { ...take, phrase: performed(base, { ...performance, swing: percent / 100 }) };
}
