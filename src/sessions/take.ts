import * as v from 'valibot';
import { InputError } from '../errors';
import { dynamicsOf } from '../exercises/dynamics';
import { parseFeet } from '../exercises/feet';
import { barSticking } from '../exercises/phrase';
import type { Phrase } from '../exercises/types';
import { settingsOf } from '../settings';
import { checked, parsedJson, type Format } from './read-json';
import { rig } from './rig-schema';
import { takeSchema } from './take-schema';
import type { Rig, Take } from './types';

const takeFormat: Format<typeof takeSchema> = {
  format: 'evenhand-take',
  version: 1,
  schema: takeSchema,
};

/**
 * A take from what a file held.
 * @param data parsed JSON
 * @throws InputError at the first place that breaks a rule: a foreign or newer file, a value out of range, hits whose
 *   times go backwards, fewer than two hits, a bar that does not parse
 */
export function takeFrom(data: unknown): Take {
  const take: Take = checked(data, takeFormat);
  refuseBackwards(take);
  refuseFar(take);
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
  return parsed.success ? parsed.output : undefined;
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

const DAY_MS = 86_400_000;

/** A take is of one day: further off a time is in another unit, or on another clock. */
function refuseFar({ downbeatMs, hits, events = [] }: Take): void {
  const fromMs = downbeatMs ?? (hits.length === 0 ? 0 : hits[0].atMs);
  const refuse = (atMs: number, place: string): void => {
    if (Math.abs(atMs - fromMs) <= DAY_MS) return;
    throw new InputError(place, `must be within a day of the downbeat (${fromMs} ms)`, atMs);
  };
  hits.forEach(({ atMs }, index) => {
    refuse(atMs, `hits[${index}].atMs`);
  });
  events.forEach(({ atMs }, index) => {
    refuse(atMs, `events[${index}].atMs`);
  });
}

/** An hour at the fastest tempo in the finest division is 384,000; one cycle is begun more. */
const MOST_PARTIALS = 400_000;

/**
 * Every bar of a phrase, parsed, with its dyn line, and the feet.
 * @throws InputError at `phrase.bars[n].sticking`, `phrase.bars[n].dyn` or `phrase.feet`, and at `phrase.cycles` for more
 *   than an hour of them
 */
export function checkBars(of: Phrase): void {
  try {
    if (of.feet !== undefined) parseFeet(of.feet);
  } catch (error) {
    throw error instanceof InputError ? error.within('phrase.feet') : error;
  }
  let partials = 0;
  of.bars.forEach((_, index) => {
    try {
      partials += barSticking(of, index).length;
      dynamicsOf(of, index);
    } catch (error) {
      throw error instanceof InputError ? error.within('phrase') : error;
    }
  });
  if (partials * of.cycles > MOST_PARTIALS) {
    const rule = `must make at most ${MOST_PARTIALS} partials, an hour of the finest: its bars have ${partials}`;
    throw new InputError('phrase.cycles', rule, of.cycles);
  }
}
