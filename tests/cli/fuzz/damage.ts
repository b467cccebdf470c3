import type { Random } from '../../../src/exercises/seeded';
import type { GoodFile } from './good-files';

/**
 * A sound file damaged where its structure lies: a value of a JSON file put in another's place, an event of a MIDI file
 * changed, so that most cases get past the parser and reach what reads them.
 */
export function damaged({ ending, content }: GoodFile, random: Random): string | Uint8Array {
  const times = random() < 0.6 ? 1 : 2 + pick(random, 2);
  if (typeof content !== 'string') return damagedBytes(content, random, times);
  // Now and then the text itself.
  if (random() < 0.1) return damagedText(content, random);
  let data: unknown = JSON.parse(content);
  for (let time = 0; time < times; time += 1) data = damagedJson(data, random);
  const text = JSON.stringify(data);
  return ending === 'take.json' && random() < 0.02 ? text.replace(/\}$/, ',"__proto__":{"hits":[]}}') : text;
}

const pick = (random: Random, of: number): number => Math.floor(random() * of);
const oneOf = <T>(random: Random, all: readonly T[]): T => all[pick(random, all.length)];

type Place = readonly (string | number)[];

/** Every place in it, the whole itself first. */
function placesOf(data: unknown, at: Place = []): Place[] {
  if (typeof data !== 'object' || data === null || at.length > 20) return [at];
  // The first and last of a long list stand for all of it.
  const keys = Array.isArray(data)
    ? [...data.keys()].filter((key) => key < 3 || key > data.length - 3)
    : Object.keys(data);
  const inner = keys.flatMap((key) =>
    placesOf((data as Record<string | number, unknown>)[key], [...at, key]),
  );
  return [at, ...inner];
}

function damagedJson(data: unknown, random: Random): unknown {
  const places = placesOf(data);
  const place = oneOf(random, places);
  const value = place.reduce<unknown>((now, key) => (now as Record<string | number, unknown>)[key], data);
  const other = oneOf(random, places).reduce<unknown>(
    (now, key) => (now as Record<string | number, unknown>)[key],
    data,
  );
  return changedAt(data, place, random, worse(value, other, random));
}

/** The same with the value at a place changed, or its key gone, twice there or under another name. */
function changedAt(data: unknown, place: Place, random: Random, value: unknown): unknown {
  if (place.length === 0) return value;
  const [key, ...rest] = place;
  if (Array.isArray(data)) {
    const list: unknown[] = [...(data as readonly unknown[])];
    const index = Number(key);
    if (rest.length > 0 || random() < 0.7) list[index] = changedAt(list[index], rest, random, value);
    else if (random() < 0.5) list.splice(index, 1);
    else list.splice(index, 0, list[index]);
    return list;
  }
  const object = { ...(data as Record<string, unknown>) };
  if (rest.length > 0 || random() < 0.8) object[key] = changedAt(object[key], rest, random, value);
  else if (random() < 0.7) return Object.fromEntries(Object.entries(object).filter(([name]) => name !== key));
  else object[`${key}${String.fromCharCode(pick(random, 0x300))}`] = value;
  return object;
}

/** Numbers at the edges of all that is meant, and far beyond. */
const NUMBERS = [
  0,
  -0,
  1,
  -1,
  0.5,
  2,
  3,
  16,
  17,
  64,
  126,
  127,
  128,
  255,
  256,
  400,
  401,
  1e-9,
  1e3,
  1e4,
  86_400_000,
  1e9,
  1e12,
  1e13,
  1e15,
  1e21,
  1e300,
  1.7976931348623157e308,
  5e-324,
  9007199254740993,
  -1e15,
  NaN,
];
const TEXTS = [
  '',
  ' ',
  '0',
  'null',
  'R',
  'Rlrr Lrll',
  '(r)',
  '{l}R',
  '{{l}R',
  '[RL]',
  'R'.repeat(5000),
  '-',
  '-'.repeat(64),
  '|',
  'Rlrr|',
  '\u0000',
  '\u001b[31m',
  '\n\r\t',
  '\u202e',
  '\ud800',
  '=1+1',
  '<script>',
  '__proto__',
  'constructor',
  '../../x',
  '\ufeff',
  '\uffff',
  '2026-02-30T00:00:00.000Z',
  '0000-01-01',
  '*',
  'x'.repeat(100_000),
];

function worse(value: unknown, other: unknown, random: Random): unknown {
  const kind = random();
  if (kind < 0.4 && typeof value === 'number')
    return random() < 0.5 ? oneOf(random, NUMBERS) : value * oneOf(random, [-1, 2, 10, 1000, 0.001]);
  if (kind < 0.4 && typeof value === 'string')
    return random() < 0.6 ? oneOf(random, TEXTS) : edited(value, random);
  if (kind < 0.4 && Array.isArray(value)) return lengthened(value, random);
  return oneOf<() => unknown>(random, [
    () => other,
    () => null,
    () => oneOf(random, NUMBERS),
    () => oneOf(random, TEXTS),
    () => [],
    () => ({}),
    () => true,
    () => [value],
    () => nested(value, oneOf(random, [3, 70, 2000])),
  ])();
}

function edited(text: string, random: Random): string {
  const at = pick(random, text.length + 1);
  return (
    text.slice(0, at) +
    oneOf(random, ['R', 'l', '(', ')', '{', '}', '[', ']', '|', '-', ' ', '^', '🥁']) +
    text.slice(at + pick(random, 2))
  );
}

function lengthened(list: readonly unknown[], random: Random): readonly unknown[] {
  if (list.length === 0) return list;
  const item = oneOf(random, list);
  return oneOf<() => readonly unknown[]>(random, [
    () => [...list].reverse(),
    () => list.slice(0, pick(random, list.length)),
    () => Array.from({ length: oneOf(random, [2, 150, 3000, 20_000]) }, () => item),
    () => [...list, ...list],
  ])();
}

function nested(value: unknown, deep: number): unknown {
  let inner = value;
  for (let depth = 0; depth < deep; depth += 1) inner = depth % 2 === 0 ? [inner] : { a: inner };
  return inner;
}

function damagedText(text: string, random: Random): string {
  const at = pick(random, text.length);
  return oneOf<() => string>(random, [
    () => text.slice(0, at),
    () => text.slice(0, at) + oneOf(random, TEXTS.slice(0, 24)) + text.slice(at),
    () => text + text,
    () => `\ufeff${text}`,
    () => '['.repeat(50_000),
    () =>
      text.replaceAll(/\d+/g, (number) =>
        random() < 0.02 ? oneOf(random, ['1e999', '00', '-', '.5', '1e-7']) : number,
      ),
  ])();
}

/** Bytes where a MIDI file has its lengths, deltas, tempo, status and text; then any. Source of the places: Standard MIDI Files 1.0. */
function damagedBytes(bytes: Uint8Array, random: Random, times: number): Uint8Array {
  let now = Uint8Array.from(bytes);
  for (let time = 0; time < times; time += 1) {
    const tracks = [...now.keys()].filter(
      (at) => now[at] === 0x4d && now[at + 1] === 0x54 && now[at + 2] === 0x72,
    );
    const metas = [...now.keys()].filter((at) => now[at] === 0xff && now[at + 1] < 0x60);
    const notes = [...now.keys()].filter((at) => (now[at] & 0xe0) === 0x80);
    const at = oneOf(random, [
      8 + pick(random, 6),
      (tracks.length === 0 ? 0 : oneOf(random, tracks)) + 4 + pick(random, 5),
      (metas.length === 0 ? 0 : oneOf(random, metas)) + pick(random, 7),
      (notes.length === 0 ? 0 : oneOf(random, notes)) - 1 + pick(random, 4),
      pick(random, now.length),
    ]);
    now = oneOf<() => Uint8Array<ArrayBuffer>>(random, [
      () => now.map((byte, place) => (place === at ? pick(random, 256) : byte)),
      () =>
        now.map((byte, place) => (place === at ? oneOf(random, [0, 1, 0x7f, 0x80, 0xf0, 0xf7, 0xff]) : byte)),
      () => now.slice(0, at),
      () => Uint8Array.from([...now.subarray(0, at), ...now.subarray(at + 1 + pick(random, 8))]),
      () => Uint8Array.from([...now.subarray(0, at), ...now.subarray(Math.max(0, at - pick(random, 200)))]),
    ])();
  }
  return now;
}
