import * as v from 'valibot';
import { measureOrder } from '../grading/types';
import { finite, text } from './schema';

/** Reports that grading makes now: what is kept of an older one is graded again when there is time. */
export const GRADED_VERSION = 2;

/** One figure as History keeps it: unit of its measure, with its 90 % interval where there is one. */
export const figure = v.object({ value: finite, interval: v.nullable(v.tuple([finite, finite])) });

/** Bars of one variation at one tempo, and how many of them held. */
export const barsHeld = v.object({ variation: text, bpm: finite, bars: finite, held: finite });

/** What History keeps of a take's report. */
export const gradedSchema = v.object({
  /** Of the report it was kept from. */
  version: v.picklist([1, GRADED_VERSION]),
  weakest: v.nullable(
    v.object({
      variation: text,
      measure: v.picklist(measureOrder),
      /** Supported margin: 0 at the *holds* limit, 1 at the ideal. */
      margin: finite,
    }),
  ),
  measures: v.record(v.picklist(measureOrder), figure),
  bars: v.array(barsHeld),
});
