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

/** `evenhand-week`, version 1: what a student works on in a week. Takes played to it carry its id. */
export const weekSchema = v.looseObject({
  format: v.literal('evenhand-week', 'must be "evenhand-week"'),
  version: v.literal(1, 'must be 1'),
  id: filled,
  /** A name, initials or a number; may be empty. */
  student: text,
  phrase,
  bpm,
  limits,
  targets: v.array(target, 'must be a list of targets'),
  /** The teacher's. */
  words: text,
  /** Null where none was set. */
  due: v.nullable(day),
  /** Of two of one id the newer wins. */
  changedAt: isoDate,
});
export type WeekSheet = Stored<typeof weekSchema>;

const format: Format<typeof weekSchema> = { format: 'evenhand-week', version: 1, schema: weekSchema };

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
  checkBars(sheet.phrase);
  checkTargets(sheet);
  return sheet;
}

export function writeWeekSheet(sheet: WeekSheet): string {
  return `${JSON.stringify(sheet, undefined, 2)}\n`;
}

function checkTargets({ targets, phrase: { bars } }: WeekSheet): void {
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
