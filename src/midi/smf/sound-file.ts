import { InputError } from '../../errors';

/** More than a day of strokes; a longer file is no take. */
const MOST_BYTES = 4_194_304;
/** The longest text, in bytes: thousands of bars. */
export const MOST_TEXT_BYTES = 60_000;
const MOST_VARIABLE_BYTES = 4;
const HEADER_BYTES = 6;

/**
 * Walks a Standard MIDI File byte by byte and hands on only what is sound, so that what reads it next can neither read
 * past an end nor build something huge. Chunks of other kinds and what follows the last track are left out.
 * @returns the header and the tracks, each to its end of track
 * @throws InputError at `byte N` (from 0), in a track at `track N, byte N`: no MIDI file, cut off, format 2, SMPTE
 *   time, running status where none may be, a data byte of 80h and more, a number of over four bytes, a track without end
 * Source: Standard MIDI Files 1.0 (RP-001).
 */
export function soundFile(bytes: Uint8Array): Uint8Array {
  if (bytes.length > MOST_BYTES) {
    throw new InputError('file', `must have at most ${MOST_BYTES} bytes to be read as MIDI`, bytes.length);
  }
  const walk = new Walk(bytes, 0, bytes.length, '');
  const tracks = checkedHeader(walk);
  const parts = [bytes.subarray(0, 8), bytes.subarray(8, 8 + HEADER_BYTES)];
  for (let track = 1; track <= tracks;) {
    if (walk.at === bytes.length) {
      const rule = `must have its ${tracks} tracks, got ${track - 1}`;
      throw new InputError(`byte ${walk.at}`, rule, undefined, 'the file seems cut off');
    }
    const { id, length } = chunkHead(walk);
    const start = walk.at;
    walk.skip(length, `must hold the ${length} bytes its chunk is said to have`);
    if (id !== 'MTrk') continue;
    const end = checkTrack(new Walk(bytes, start, start + length, `track ${track}, `));
    parts.push(chunk('MTrk', bytes.subarray(start, end)));
    track += 1;
  }
  parts[0] = Uint8Array.from([...ascii('MThd'), 0, 0, 0, HEADER_BYTES]);
  return joined(parts);
}

/** A place in some bytes that never leaves them. */
class Walk {
  constructor(
    private readonly bytes: Uint8Array,
    public at: number,
    readonly end: number,
    private readonly where: string,
  ) {}

  byte(): number {
    if (this.at >= this.end) throw this.error('must go on', undefined, 'the file seems cut off');
    const value = this.bytes[this.at];
    this.at += 1;
    return value;
  }

  word(bytes: number): number {
    let value = 0;
    for (let index = 0; index < bytes; index += 1) value = value * 256 + this.byte();
    return value;
  }

  /** A number of seven bits a byte, at most four of them. */
  variable(): number {
    const start = this.at;
    let value = 0;
    for (let index = 0; index < MOST_VARIABLE_BYTES; index += 1) {
      const byte = this.byte();
      value = value * 128 + (byte & 0x7f);
      if (byte < 0x80) return value;
    }
    this.at = start;
    throw this.error('must be a number of at most four bytes');
  }

  data(): void {
    const value = this.byte();
    if (value < 0x80) return;
    this.at -= 1;
    throw this.error('must be a data byte, 00h to 7Fh', value);
  }

  skip(length: number, rule: string): void {
    if (length > this.end - this.at) throw this.error(rule, undefined, 'the file seems cut off');
    this.at += length;
  }

  error(rule: string, value?: number, hint?: string): InputError {
    const shown = value === undefined ? undefined : `${value.toString(16).toUpperCase().padStart(2, '0')}h`;
    return new InputError(`${this.where}byte ${this.at}`, rule, shown, hint);
  }
}

/** Checks the header chunk. @returns how many tracks it announces */
function checkedHeader(walk: Walk): number {
  if (walk.end < 8 + HEADER_BYTES)
    throw new InputError('byte 0', 'must be a MIDI file: it is too short for one');
  const { id, length } = chunkHead(walk);
  if (id !== 'MThd') throw new InputError('byte 0', 'must begin with "MThd" to be a MIDI file', id);
  if (length < HEADER_BYTES) throw new InputError('byte 4', 'must be a header of 6 bytes', length);
  const format = walk.word(2);
  const tracks = walk.word(2);
  const division = walk.word(2);
  if (format > 1) {
    const hint = format === 2 ? 'format 2 holds patterns, not a take' : undefined;
    throw new InputError('byte 8', 'must be MIDI file format 0 or 1', format, hint);
  }
  if (tracks === 0) throw new InputError('byte 10', 'must have a track', 0);
  if (format === 0 && tracks !== 1) throw new InputError('byte 10', 'must be 1 track in format 0', tracks);
  if (division >= 0x8000) {
    const rule = 'must be in ticks a quarter: time in SMPTE frames has no beats to grade against';
    throw new InputError('byte 12', rule);
  }
  if (division === 0) throw new InputError('byte 12', 'must be at least 1 tick a quarter', 0);
  walk.skip(length - HEADER_BYTES, `must hold the ${length} bytes its header is said to have`);
  return tracks;
}

function chunkHead(walk: Walk): { id: string; length: number } {
  let id = '';
  for (let index = 0; index < 4; index += 1) id += String.fromCharCode(walk.byte());
  return { id, length: walk.word(4) };
}

/** Walks one track. @returns where it ends: after its end of track */
function checkTrack(walk: Walk): number {
  let running: number | undefined;
  for (;;) {
    if (walk.at === walk.end) throw walk.error('must be an end of track (FF 2F 00)');
    walk.variable();
    const status = walk.byte();
    if (status === 0xff) {
      running = undefined;
      if (checkMeta(walk) === 0x2f) return walk.at;
    } else if (status === 0xf0 || status === 0xf7) {
      running = undefined;
      walk.skip(walk.variable(), 'must hold the whole system exclusive message');
    } else if (status > 0xf0) {
      walk.at -= 1;
      throw walk.error('must be an event a file may hold', status);
    } else {
      const isData = status < 0x80;
      if (isData && running === undefined) {
        walk.at -= 1;
        throw walk.error('must be a status byte: there is none to run on with', status);
      }
      if (!isData) {
        running = status;
        walk.data();
      }
      if (!isOneByteMessage(running ?? status)) walk.data();
    }
  }
}

const isOneByteMessage = (status: number): boolean => (status & 0xe0) === 0xc0;

/** Lengths the standard fixes, by meta event. */
const FIXED: ReadonlyMap<number, number> = new Map([
  [0x00, 2],
  [0x20, 1],
  [0x21, 1],
  [0x2f, 0],
  [0x51, 3],
  [0x54, 5],
  [0x58, 4],
  [0x59, 2],
]);

/** Checks a meta event after its FF. @returns its type */
function checkMeta(walk: Walk): number {
  const type = walk.byte();
  const start = walk.at;
  const length = walk.variable();
  const fixed = FIXED.get(type);
  if (fixed !== undefined && length !== fixed) {
    walk.at = start;
    throw walk.error(`must be ${fixed}, the length of this meta event`, length);
  }
  if (type >= 0x01 && type <= 0x0f && length > MOST_TEXT_BYTES) {
    walk.at = start;
    throw walk.error(`must be a text of at most ${MOST_TEXT_BYTES} bytes`, length);
  }
  const at = walk.at;
  walk.skip(length, `must hold the ${length} bytes of its meta event`);
  const after = walk.at;
  walk.at = at;
  if (type === 0x51 && walk.word(3) === 0) {
    walk.at = at;
    throw walk.error('must be a tempo of at least 1 µs a quarter', 0);
  }
  if (type === 0x58 && walk.byte() === 0) {
    walk.at = at;
    throw walk.error('must be a bar of at least 1 beat', 0);
  }
  walk.at = after;
  return type;
}

const ascii = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));

function chunk(id: string, data: Uint8Array): Uint8Array {
  const { length } = data;
  const head = [...ascii(id), length >>> 24, (length >>> 16) & 0xff, (length >>> 8) & 0xff, length & 0xff];
  return joined([Uint8Array.from(head), data]);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
