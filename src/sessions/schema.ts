import * as v from 'valibot';

/** The parts that several formats are made of, with the rule each breaks in words. Unknown keys are let through. */
export const finite = v.pipe(v.number('must be a number'), v.finite('must be a finite number'));
export const whole = (from: number, to: number, what = 'an integer') =>
  v.pipe(
    v.number(`must be ${what} ${from}–${to}`),
    v.integer(`must be ${what} ${from}–${to}`),
    v.minValue(from, `must be ${what} ${from}–${to}`),
    v.maxValue(to, `must be ${what} ${from}–${to}`),
  );
export const text = v.string('must be text');
export const filled = v.pipe(text, v.minLength(1, 'must not be empty'));
export const bpm = v.pipe(
  v.number('must be a tempo from 20 to 400 bpm'),
  v.minValue(20, 'must be a tempo from 20 to 400 bpm'),
  v.maxValue(400, 'must be a tempo from 20 to 400 bpm'),
);
const partialsPerBeat = v.union(
  [whole(1, 16), v.pipe(v.array(whole(1, 16)), v.minLength(1, 'must have one number a beat'))],
  'must be an integer 1–16, or a list with one a beat',
);
export const oneOf = <const Options extends readonly string[]>(options: Options) =>
  v.picklist(options, `must be ${options.map((option) => `"${option}"`).join(' or ')}`);
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

export const phrase = v.looseObject({
  title: text,
  beatsPerBar: whole(1, 16),
  partialsPerBeat,
  cycles: whole(1, 10_000),
  bars: v.pipe(v.array(bar, 'must be a list of bars'), v.minLength(1, 'must have at least one bar')),
  swing: v.exactOptional(
    v.pipe(finite, v.minValue(0.5, 'must be 0.50–0.70'), v.maxValue(0.7, 'must be 0.50–0.70')),
  ),
  feet: v.exactOptional(text),
  voicing: v.exactOptional(v.record(v.string(), text)),
});

export const tempo = v.union(
  [
    v.looseObject({ bpm }),
    v.looseObject({
      ramp: v.pipe(
        v.array(v.looseObject({ bar: v.pipe(finite, v.minValue(0, 'must be 0 or later')), bpm })),
        v.minLength(1, 'must have at least one point'),
        v.check(
          (points) => points.every((point, index) => index === 0 || point.bar > points[index - 1].bar),
          'must have its points in order of their bars',
        ),
      ),
    }),
  ],
  'must be { "bpm": … } with 20 to 400 bpm, or { "ramp": [ … ] }',
);

export const hit = v.looseObject({
  atMs: finite,
  port: text,
  channel: whole(1, 16),
  note: whole(0, 127),
  velocity: whole(1, 127),
});
