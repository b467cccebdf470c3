import * as v from 'valibot';
import type { Phrase, Tempo } from '../exercises/types';
import type { Limits } from '../settings';
import type { RawHit } from '../stroke';
import type { Bpm, Ms } from '../units';
import { schemaOf } from './stored';

/** The parts that several formats are made of, with the rule each breaks in words. Unknown keys are let through. */
export const finite = v.pipe(v.number('must be a number'), v.finite('must be a finite number'));
export const whole = (from: number, to: number, what = 'an integer') =>
  v.pipe(
    v.number(`must be ${what} ${from}–${to}`),
    v.integer(`must be ${what} ${from}–${to}`),
    v.minValue(from, `must be ${what} ${from}–${to}`),
    v.maxValue(to, `must be ${what} ${from}–${to}`),
  );
/** A number between two, in a unit. */
export const between = (from: number, to: number, unit = ''): v.GenericSchema<unknown, number> => {
  const rule = `must be ${from} to ${to}${unit === '' ? '' : ` ${unit}`}`.replaceAll('-', '−');
  return v.pipe(v.number(rule), v.minValue(from, rule), v.maxValue(to, rule));
};
/** A list no longer than any that is meant. */
export const listOf = <Item extends v.GenericSchema>(item: Item, what: string, most: number) =>
  v.pipe(v.array(item, `must be a list of ${what}`), v.maxLength(most, `must have at most ${most} ${what}`));
/** A clock's ms: further from nought the tenths of a millisecond are lost. */
const MOST_CLOCK_MS = 1e13;
const clockRule = 'must be a time in ms';
export const clockMs: v.GenericSchema<unknown, Ms> = v.pipe(
  v.number(clockRule),
  v.minValue(-MOST_CLOCK_MS, clockRule),
  v.maxValue(MOST_CLOCK_MS, clockRule),
);
export const text = v.string('must be text');
export const filled = v.pipe(text, v.minLength(1, 'must not be empty'));
export const bpm: v.GenericSchema<unknown, Bpm> = v.pipe(
  v.number('must be a tempo from 20 to 400 bpm'),
  v.minValue(20, 'must be a tempo from 20 to 400 bpm'),
  v.maxValue(400, 'must be a tempo from 20 to 400 bpm'),
);
const partialsPerBeat = v.union(
  [
    whole(1, 16),
    v.pipe(
      v.array(whole(1, 16)),
      v.minLength(1, 'must have one number a beat'),
      v.maxLength(16, 'must have one number a beat'),
    ),
  ],
  'must be an integer 1–16, or a list with one a beat',
);
export const oneOf = <const Options extends readonly string[]>(options: Options) =>
  v.picklist(options, `must be ${options.map((option) => `"${option}"`).join(' or ')}`);
export const limits = schemaOf<Limits>()(oneOf(['first year', 'working', 'recital']));
export const isoDate = v.pipe(
  text,
  v.check((value) => !Number.isNaN(Date.parse(value)), 'must be a date like 2026-03-02T17:05:11.000Z'),
);

const bar = v.looseObject({
  variation: filled,
  sticking: filled,
  beatsPerBar: v.exactOptional(whole(1, 16)),
  partialsPerBeat: v.exactOptional(partialsPerBeat),
  role: v.exactOptional(oneOf(['listen', 'say', 'play'])),
  dyn: v.exactOptional(text),
});

/** The Phrase screen makes no longer cycle either. */
const MOST_BARS = 4096;
const MOST_RAMP_POINTS = 100_000;

export const phrase = schemaOf<Phrase>()(
  v.looseObject({
    title: text,
    beatsPerBar: whole(1, 16),
    partialsPerBeat,
    cycles: whole(1, 10_000),
    bars: v.pipe(listOf(bar, 'bars', MOST_BARS), v.minLength(1, 'must have at least one bar')),
    swing: v.exactOptional(
      v.pipe(finite, v.minValue(0.5, 'must be 0.50–0.70'), v.maxValue(0.7, 'must be 0.50–0.70')),
    ),
    feet: v.exactOptional(text),
    voicing: v.exactOptional(v.record(v.string(), text)),
  }),
);

export const tempo = schemaOf<Tempo>()(
  v.union(
    [
      v.looseObject({ bpm }),
      v.looseObject({
        ramp: v.pipe(
          listOf(v.looseObject({ bar: between(0, 100_000), bpm }), 'points', MOST_RAMP_POINTS),
          v.minLength(1, 'must have at least one point'),
          v.check(
            (points) => points.every((point, index) => index === 0 || point.bar > points[index - 1].bar),
            'must have its points in order of their bars',
          ),
        ),
      }),
    ],
    'must be { "bpm": … } with 20 to 400 bpm, or { "ramp": [ … ] }',
  ),
);

export const hit = schemaOf<RawHit>()(
  v.looseObject({
    atMs: clockMs,
    port: text,
    channel: whole(1, 16),
    note: whole(0, 127),
    velocity: whole(1, 127),
  }),
);
