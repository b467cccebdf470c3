import * as v from 'valibot';
import { InputError } from '../errors';
import { isParted, measureOrder, type JudgedKey, type PartedKey } from '../grading/measures';
import { checked, parsedJson, type Format } from './read-json';
import { bpm, filled, finite, isoDate, limits, oneOf, phrase, text, whole } from './schema';
import type { Stored } from './stored';
import { checkBars } from './take';

/** A measure that a target may name: one with two figures, as the seam has, is none. */
export type TargetMeasure = Exclude<JudgedKey, PartedKey>;

/** Measures that a target may name, in the order of reports. */
export const targetMeasures: readonly TargetMeasure[] = measureOrder.filter(
  (key): key is TargetMeasure => !isParted(key),
);

/** What is to be reached in the week. Each can be told from the takes that come back. */
const target = v.variant(
  'kind',
  [
    /** Bars that hold: four of five in one take, at this tempo or faster. */
    v.looseObject({ kind: v.literal('tempo'), bpm }),
    /** A take in which nothing is *close* or *not yet*: of one variation where it is named. */
    v.looseObject({ kind: v.literal('holds'), variation: v.exactOptional(filled) }),
    /**
     * A figure on the good side of a limit, in the measure's unit. Where either direction is as bad (balance, lag, fade,
     * gap of doubles) *at most* is without its sign.
     */
    v.looseObject({
      kind: v.literal('measure'),
      measure: oneOf(targetMeasures),
      variation: v.exactOptional(filled),
      atMost: v.exactOptional(finite),
      atLeast: v.exactOptional(finite),
    }),
    /** Minutes of playing over all takes. */
    v.looseObject({ kind: v.literal('minutes'), minutes: whole(1, 10_000, 'a whole number') }),
  ],
  'must be "tempo", "holds", "measure" or "minutes"',
);

export type WeekTarget = Stored<typeof target>;

/** A day of the calendar: 2026-02-30 is none. */
const day = v.pipe(
  text,
  v.regex(/^\d{4}-\d{2}-\d{2}$/, 'must be a day like 2026-12-01'),
  v.check(isDay, 'must be a day like 2026-12-01'),
);

const targets = v.array(target, 'must be a list of targets');
/** A day's, for one exercise. */
const minutes = v.exactOptional(whole(1, 120, 'a whole number'));
const before = v.exactOptional(text);

/** An exercise after the first. */
const exercise = v.looseObject({
  phrase,
  bpm,
  /** Of playing, each day; absent where nothing is said. */
  minutes,
  targets,
  /** The teacher's, of this exercise. */
  words: text,
  /** A plain line that stands before it; absent for none. */
  before,
});
export type WeekExercise = Stored<typeof exercise>;

/**
 * `evenhand-week`, version 2: what a student works on in a week, up to six exercises in order. Takes played to it carry its
 * id. The first exercise stands in the sheet itself: one of a single exercise is a sheet of version 1.
 */
export const weekSchema = v.looseObject({
  format: v.literal('evenhand-week', 'must be "evenhand-week"'),
  version: v.picklist([1, 2], 'must be 1 or 2'),
  id: filled,
  /** A name, initials or a number; may be empty. */
  student: text,
  phrase,
  bpm,
  limits,
  targets,
  /** The teacher's, of the first exercise. */
  words: text,
  /** Minutes of the first exercise each day, and the plain line before it; absent where nothing is said. */
  minutes,
  before,
  /** The exercises after the first, in order. */
  more: v.exactOptional(
    v.pipe(v.array(exercise, 'must be a list'), v.maxLength(5, 'must be 5 exercises at most')),
  ),
  /** Null where none was set. */
  due: v.nullable(day),
  /** Of two of one id the newer wins. */
  changedAt: isoDate,
});
export type WeekSheet = Stored<typeof weekSchema>;

const format: Format<typeof weekSchema> = { format: 'evenhand-week', version: 2, schema: weekSchema };

/**
 * A week sheet from the text of a `.week.json` file. Unknown keys survive.
 * @throws InputError at the place that breaks a rule: a foreign or newer file, a bar that does not parse, a target of a
 *   variation that the phrase does not have, or of a measure without a limit
 */
export function readWeekSheet(json: string): WeekSheet {
  return weekSheetFrom(parsedJson(json));
}

/** The same from data that is parsed already, as a store gives it. */
export function weekSheetFrom(data: unknown): WeekSheet {
  const sheet: WeekSheet = checked(data, format);
  checkExercise(sheet);
  (sheet.more ?? []).forEach((one, index) => {
    try {
      checkExercise(one);
    } catch (error) {
      throw error instanceof InputError ? error.within(`more[${index}]`) : error;
    }
  });
  return sheet;
}

export function writeWeekSheet(sheet: WeekSheet): string {
  return `${JSON.stringify(sheet, undefined, 2)}\n`;
}

function checkExercise({ targets, phrase }: Pick<WeekExercise, 'phrase' | 'targets'>): void {
  const { bars } = phrase;
  checkBars(phrase);
  targets.forEach((one, index) => {
    const place = `targets[${index}]`;
    if ('variation' in one && !bars.some(({ variation }) => variation === one.variation)) {
      throw new InputError(`${place}.variation`, 'must be a variation of the phrase', one.variation);
    }
    if (one.kind === 'measure' && (one.atMost === undefined) === (one.atLeast === undefined)) {
      throw new InputError(place, 'must have one limit: atMost or atLeast');
    }
  });
}

function isDay(written: string): boolean {
  const at = Date.parse(`${written}T00:00:00Z`);
  return !Number.isNaN(at) && new Date(at).toISOString().startsWith(written);
}
