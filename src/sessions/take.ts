import * as v from 'valibot';
import { InputError } from '../errors';
import { barSticking } from '../exercises/phrase';
import { settingsOf } from '../settings';
import { firstWrongIndex } from './json-place';
import type { Rig, Take } from './types';

const FORMAT = 'evenhand-take';
const VERSION = 1;

const finite = v.pipe(v.number('must be a number'), v.finite('must be a finite number'));
const whole = (from: number, to: number, what = 'an integer') =>
  v.pipe(
    v.number(`must be ${what} ${from}–${to}`),
    v.integer(`must be ${what} ${from}–${to}`),
    v.minValue(from, `must be ${what} ${from}–${to}`),
    v.maxValue(to, `must be ${what} ${from}–${to}`),
  );
const text = v.string('must be text');
const filled = v.pipe(text, v.minLength(1, 'must not be empty'));
const bpm = v.pipe(
  v.number('must be a tempo from 20 to 400 bpm'),
  v.minValue(20, 'must be a tempo from 20 to 400 bpm'),
  v.maxValue(400, 'must be a tempo from 20 to 400 bpm'),
);
const partialsPerBeat = v.union(
  [whole(1, 16), v.pipe(v.array(whole(1, 16)), v.minLength(1, 'must have one number a beat'))],
  'must be an integer 1–16, or a list with one a beat',
);
const oneOf = <const Options extends readonly string[]>(options: Options) =>
  v.picklist(options, `must be ${options.map((option) => `"${option}"`).join(' or ')}`);
const isoDate = v.pipe(
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

const phrase = v.looseObject({
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

const tempo = v.union(
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

const surface = v.looseObject({
  id: filled,
  name: text,
  port: text,
  channel: whole(1, 16),
  notes: v.array(whole(0, 127), 'must be a list of notes'),
  hand: v.nullable(oneOf(['R', 'L'])),
  trimDb: finite,
  thresholdVelocity: v.exactOptional(whole(1, 127)),
});

const rig = v.looseObject({
  levelLaw: v.literal('gm2', 'must be "gm2"'),
  inputDelayMs: finite,
  outputDelayMs: finite,
  surfaces: v.pipe(
    v.array(surface, 'must be a list of surfaces'),
    v.minLength(1, 'must have at least one surface'),
  ),
});

const hit = v.looseObject({
  atMs: finite,
  port: text,
  channel: whole(1, 16),
  note: whole(0, 127),
  velocity: whole(1, 127),
});

/** `evenhand-take` version 1 as a schema; unknown keys are let through and kept. */
export const takeSchema = v.looseObject({
  format: v.literal(FORMAT, `must be "${FORMAT}"`),
  version: v.literal(VERSION, `must be ${VERSION}`),
  id: filled,
  player: text,
  recordedAt: isoDate,
  source: oneOf(['played', 'model', 'imported']),
  phrase,
  tempo,
  click: oneOf(['on', 'bare', 'none']),
  limits: oneOf(['first year', 'working', 'recital']),
  settings: v.record(v.string(), finite),
  rig,
  downbeatMs: v.nullable(finite),
  hits: v.array(hit, 'must be a list of hits'),
  notes: text,
});

/**
 * A take from what a file held.
 * @param data parsed JSON
 * @throws InputError at the first place that breaks a rule: a foreign or newer file, a value out of range, hits whose
 *   times go backwards, fewer than two hits, a bar that does not parse
 */
export function takeFrom(data: unknown): Take {
  refuseForeign(data);
  const parsed = v.safeParse(takeSchema, data, { abortEarly: true });
  if (!parsed.success) throw inputError(parsed.issues[0], data);
  const take = parsed.output as Take;
  refuseBackwards(take);
  if (take.hits.length < 2) {
    throw new InputError('hits', `must have at least 2 hits to be a take, got ${take.hits.length}`);
  }
  checkPhrase(take);
  settingsOf(take.limits, take.settings);
  return take;
}

/**
 * A take from the text of a `.take.json` file.
 * @throws InputError as {@link takeFrom}, and for text that is no JSON (a truncated file, say) with line and column
 */
export function readTake(json: string): Take {
  let data: unknown;
  try {
    data = JSON.parse(json);
  } catch {
    throw notJson(json);
  }
  return takeFrom(data);
}

/** The text of a `.take.json` file. `readTake(writeTake(take))` equals the take, unknown keys included. */
export function writeTake(take: Take): string {
  const { hits, ...head } = take;
  const opened = JSON.stringify(head, undefined, 2).slice(0, -2);
  const rows = hits.map((one) => `    ${JSON.stringify(one)}`).join(',\n');
  return `${opened},\n  "hits": [${rows === '' ? '' : `\n${rows}\n  `}]\n}\n`;
}

/**
 * A rig as it was kept, or undefined where what was kept is none: then the player strikes once more.
 * @param data whatever the store gave back
 */
export function rigFrom(data: unknown): Rig | undefined {
  const parsed = v.safeParse(rig, data);
  return parsed.success ? (parsed.output as Rig) : undefined;
}

function refuseForeign(data: unknown): void {
  if (typeof data !== 'object' || data === null || Array.isArray(data)) {
    throw new InputError('file', 'must be a JSON object with a format', data === null ? null : typeof data);
  }
  const { format, version } = data as Record<string, unknown>;
  if (format !== FORMAT) throw new InputError('format', `must be "${FORMAT}"`, format ?? null);
  if (typeof version === 'number' && version > VERSION) {
    throw new InputError(
      'version',
      `must be ${VERSION}`,
      version,
      'written by a newer Evenhand; update this one',
    );
  }
}

function refuseBackwards({ hits }: Take): void {
  for (let index = 1; index < hits.length; index += 1) {
    if (hits[index].atMs < hits[index - 1].atMs) {
      throw new InputError(
        `hits[${index}].atMs`,
        `must not be before the hit ahead of it (${hits[index - 1].atMs} ms)`,
        hits[index].atMs,
      );
    }
  }
}

function checkPhrase(take: Take): void {
  take.phrase.bars.forEach((_, index) => {
    try {
      barSticking(take.phrase, index);
    } catch (error) {
      throw error instanceof InputError ? error.within('phrase') : error;
    }
  });
}

function inputError(issue: v.BaseIssue<unknown>, data: unknown): InputError {
  const deepest = deepestIssue(issue);
  const place = (deepest.path ?? [])
    .map((step) => (typeof step.key === 'number' ? `[${step.key}]` : `.${String(step.key)}`))
    .join('')
    .replace(/^\./, '');
  const missing = deepest.input === undefined && place !== '';
  const value = deepest.input === undefined && data !== undefined ? undefined : deepest.input;
  const rule = deepest.message.startsWith('must') ? deepest.message : 'must be what the format says';
  return new InputError(place === '' ? 'file' : place, missing ? `is missing: it ${rule}` : rule, value);
}

/** Of a union's issues, the one that got furthest: `{ "bpm": 0 }` is about the tempo, not about the union. */
function deepestIssue(issue: v.BaseIssue<unknown>): v.BaseIssue<unknown> {
  const inner = (issue.issues ?? []).filter((one) => one.input !== undefined && (one.path?.length ?? 0) > 0);
  if (inner.length === 0) return issue;
  const [first] = inner;
  return { ...first, path: [...(issue.path ?? []), ...(first.path ?? [])] } as v.BaseIssue<unknown>;
}

function notJson(json: string): InputError {
  const index = firstWrongIndex(json) ?? 0;
  const before = json.slice(0, index).split('\n');
  const place = `line ${before.length}, column ${before[before.length - 1].length + 1}`;
  const cutOff = index >= json.trimEnd().length;
  return new InputError(
    place,
    'must be JSON',
    cutOff ? undefined : json.slice(index, index + 12),
    cutOff ? 'the file seems cut off' : undefined,
  );
}
