import * as v from 'valibot';
import { InputError } from '../errors';
import { firstWrongIndex } from './json-place';

/** A format of ours: its name, the version this reader knows, and its rules. */
export interface Format<Schema extends v.GenericSchema> {
  readonly format: string;
  readonly version: number;
  readonly schema: Schema;
}

/** A library of ten years is a quarter of it. */
const MOST_SIGNS = 500_000_000;
/** No format of ours goes deeper than ten; what is kept of unknown keys may. */
const DEEPEST = 64;

/**
 * Text as JSON.
 * @throws InputError with line and column (of a truncated file, say), and before anything is made of it where it is larger
 *   or nested deeper than any file of ours
 */
export function parsedJson(json: string): unknown {
  if (json.length > MOST_SIGNS) {
    throw new InputError('file', `must have at most ${MOST_SIGNS} characters`, json.length);
  }
  refuseDeep(json);
  try {
    return JSON.parse(json);
  } catch {
    throw notJson(json);
  }
}

/** Brackets within brackets, counted outside of texts; where they begin to be too many is said. */
function refuseDeep(json: string): void {
  let depth = 0;
  for (const [bracket] of json.matchAll(BRACKETS)) {
    if (bracket === '{' || bracket === '[') depth += 1;
    else if (bracket === '}' || bracket === ']') depth -= 1;
    if (depth > DEEPEST) {
      throw new InputError(
        'file',
        `must not be nested more than ${DEEPEST} deep`,
        undefined,
        'no file of ours is',
      );
    }
  }
}

/** A whole text, or a bracket. */
const BRACKETS = /"(?:[^"\\]|\\.)*"?|[[\]{}]/gs;

/**
 * Data checked against a format.
 * @throws InputError at the first place that breaks a rule; a foreign or newer file is refused by name
 */
export function checked<Schema extends v.GenericSchema>(
  data: unknown,
  { format, version, schema }: Format<Schema>,
): v.InferOutput<Schema> {
  refuseForeign(data, format, version);
  return checkedAgainst(schema, data);
}

/**
 * Data checked against rules, whatever its format.
 * @throws InputError at the first place that breaks one
 */
export function checkedAgainst<Schema extends v.GenericSchema>(
  schema: Schema,
  data: unknown,
): v.InferOutput<Schema> {
  const parsed = v.safeParse(schema, data, { abortEarly: true });
  if (!parsed.success) throw inputError(parsed.issues[0], data);
  return parsed.output;
}

function refuseForeign(data: unknown, format: string, version: number): void {
  if (typeof data !== 'object' || data === null || Array.isArray(data)) {
    throw new InputError('file', 'must be a JSON object with a format', data === null ? null : typeof data);
  }
  const found = data as Record<string, unknown>;
  if (found['format'] !== format)
    throw new InputError('format', `must be "${format}"`, found['format'] ?? null);
  if (typeof found['version'] === 'number' && found['version'] > version) {
    throw new InputError(
      'version',
      `must be ${version}`,
      found['version'],
      'written by a newer Evenhand; update this one',
    );
  }
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
