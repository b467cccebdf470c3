import { phraseNamed } from '../../../src/exercises/phrase';
import { gradedRecord } from '../../../src/insight/graded-record';
import { modelTake } from '../../../src/model/model-player';
import { summaryOf, type TakeSummary } from '../../../src/sessions/take-record';
import type { Reviewed } from '../../../src/take/reviewed';
import { gradeTake } from '../../../src/take/grade-take';

/** What became of a model student over a term: up by a quarter, down by a fifth, away at its end, or away in the middle. */
export const courses = ['rising', 'falling', 'resting', 'returning'] as const;
type Course = (typeof courses)[number];

const WALK = phraseNamed('Single paradiddle, accent walk');
/** A Monday. */
const FIRST_MS = Date.parse('2026-01-05T17:00:00.000Z');
const [DAY_MS, MINUTE_MS] = [86_400_000, 60_000];
const LAST_DAY = 53;
/** Two days a week with a take under, about and over what the student can play. */
const WEEKDAYS = [0, 4];
const SHARES = [0.92, 1, 1.08];
/** Of 16 strokes with this share left out, four bars of five are complete: 1 - 0.8^(1/16). */
const LEFT_OUT = 0.0139;
const STEEPNESS = 14;
const MOST_LEFT_OUT = 0.1;

/** The tempo at which this student plays four bars of five clean on a day of the term; undefined on a day off. */
function ableBpm(course: Course, day: number): number | undefined {
  switch (course) {
    case 'rising':
      return 84 * 1.25 ** (day / LAST_DAY);
    case 'falling':
      return 112 * 0.8 ** (day / LAST_DAY);
    case 'resting':
      return day < 28 ? 96 : undefined;
    case 'returning':
      return day < 21 ? 108 : day >= 46 ? 88 : undefined;
  }
}

/** A student's takes, oldest first. Model takes: nobody played them. */
export function studentTakes(course: Course): readonly Reviewed[] {
  const days = Array.from({ length: LAST_DAY + 1 }, (_, day) => day).filter((day) =>
    WEEKDAYS.includes(day % 7),
  );
  return days.flatMap((day) => {
    const able = ableBpm(course, day);
    if (able === undefined) return [];
    return SHARES.map((share, nth): Reviewed => {
      const bpm = Math.round(able * share);
      const missed = Math.min(MOST_LEFT_OUT, LEFT_OUT * (bpm / able) ** STEEPNESS);
      const seed = 100 * day + nth + 10_000 * courses.indexOf(course);
      const { take } = modelTake({ phrase: WALK, bpm, seed, cycles: 6, missed, timingSdMs: 4 });
      const recordedAt = new Date(FIRST_MS + day * DAY_MS + 6 * nth * MINUTE_MS).toISOString();
      const own = { ...take, id: `${course}-${day}-${nth}`, player: `A ${course} student`, recordedAt };
      return { take: own, report: gradeTake(own) };
    });
  });
}

/** The same as a library keeps them. */
export function recordsOf(takes: readonly Reviewed[]): readonly TakeSummary[] {
  return takes.map(({ take, report }) => ({
    ...summaryOf(take),
    source: 'played',
    playerId: take.player,
    sentence: report.sentence,
    graded: gradedRecord(take, report),
  }));
}
