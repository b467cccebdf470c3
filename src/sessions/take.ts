import * as v from 'valibot';
import { InputError } from '../errors';
import { dynamicsOf } from '../exercises/dynamics';
import { parseFeet } from '../exercises/feet';
import { barSticking } from '../exercises/phrase';
import type { Phrase } from '../exercises/types';
import { settingsOf } from '../settings';
import { clicks } from './click-schema';
import { checked, parsedJson, type Format } from './read-json';
import { rig } from './rig-schema';
import { filled, finite, hit, isoDate, oneOf, phrase, tempo, text } from './schema';
import { takeEvents } from './take-events';
import type { Rig, Take } from './types';

const FORMAT = 'evenhand-take';
const VERSION = 1;

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
  clicks: v.exactOptional(clicks),
  limits: oneOf(['first year', 'working', 'recital']),
  settings: v.record(v.string(), finite),
  rig,
  downbeatMs: v.nullable(finite),
  hits: v.array(hit, 'must be a list of hits'),
  notes: text,
  playerId: v.exactOptional(text),
  cold: v.exactOptional(v.boolean('must be true or false')),
  sheetId: v.exactOptional(text),
  remedy: v.exactOptional(text),
  events: v.exactOptional(takeEvents),
});

const takeFormat: Format<typeof takeSchema> = { format: FORMAT, version: VERSION, schema: takeSchema };

/**
 * A take from what a file held.
 * @param data parsed JSON
 * @throws InputError at the first place that breaks a rule: a foreign or newer file, a value out of range, hits whose
 *   times go backwards, fewer than two hits, a bar that does not parse
 */
export function takeFrom(data: unknown): Take {
  const take = checked(data, takeFormat) as Take;
  refuseBackwards(take);
  if (take.hits.length < 2) {
    throw new InputError('hits', `must have at least 2 hits to be a take, got ${take.hits.length}`);
  }
  checkBars(take.phrase);
  settingsOf(take.limits, take.settings);
  return take;
}

/**
 * A take from the text of a `.take.json` file.
 * @throws InputError as {@link takeFrom}, and for text that is no JSON (a truncated file, say) with line and column
 */
export function readTake(json: string): Take {
  return takeFrom(parsedJson(json));
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

/**
 * Every bar of a phrase, parsed, with its dyn line, and the feet.
 * @throws InputError at `phrase.bars[n].sticking`, `phrase.bars[n].dyn` or `phrase.feet`
 */
export function checkBars(of: Phrase): void {
  try {
    if (of.feet !== undefined) parseFeet(of.feet);
  } catch (error) {
    throw error instanceof InputError ? error.within('phrase.feet') : error;
  }
  of.bars.forEach((_, index) => {
    try {
      barSticking(of, index);
      dynamicsOf(of, index);
    } catch (error) {
      throw error instanceof InputError ? error.within('phrase') : error;
    }
  });
}
