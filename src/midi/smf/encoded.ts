import { InputError } from '../../errors';
import type { SmfEvent } from './types';

/** The largest number a file can hold in seven bits a byte, four bytes. */
const MOST_VARIABLE = 0x0fff_ffff;
const MOST_TRACKS = 0xffff;
/** What a sender without release velocity gives. Source: MIDI 1.0. */
const RELEASE_VELOCITY = 64;
/** Clocks a metronome click, and 32nd notes a quarter: what nearly every file has. */
const CLOCKS = 24;
const THIRTY_SECONDS = 8;
/** Meta events by what they hold. Source: Standard MIDI Files 1.0 (RP-001). */
const TEXT_TYPES = { name: 0x03, port: 0x04, text: 0x01, lyric: 0x05 } as const;

/**
 * Tracks as the bytes of a Standard MIDI File, format 1. Time and space grow with the number of events and nothing else.
 * @param tracks events in order of their ticks
 * @throws InputError where two events of a track lie further apart than a file can say
 * Source: Standard MIDI Files 1.0 (RP-001).
 */
export function encodedFile(
  ticksPerQuarter: number,
  tracks: readonly (readonly SmfEvent[])[],
): Uint8Array<ArrayBuffer> {
  if (tracks.length > MOST_TRACKS) {
    throw new InputError('hits', `must come from fewer ports: a MIDI file holds ${MOST_TRACKS} tracks`);
  }
  const bytes = new Bytes();
  bytes.ascii('MThd');
  bytes.number(6, 4);
  bytes.number(1, 2);
  bytes.number(tracks.length, 2);
  bytes.number(ticksPerQuarter, 2);
  for (const events of tracks) {
    bytes.ascii('MTrk');
    const lengthAt = bytes.length;
    bytes.number(0, 4);
    let tick = 0;
    for (const event of events) {
      bytes.variable(event.tick - tick);
      tick = event.tick;
      encode(bytes, event);
    }
    bytes.variable(0);
    bytes.all([0xff, 0x2f, 0x00]);
    bytes.numberAt(lengthAt, bytes.length - lengthAt - 4, 4);
  }
  return bytes.whole();
}

function encode(bytes: Bytes, event: SmfEvent): void {
  switch (event.kind) {
    case 'name':
    case 'port':
    case 'text':
    case 'lyric': {
      const text = new TextEncoder().encode(event.text);
      bytes.all([0xff, TEXT_TYPES[event.kind]]);
      bytes.variable(text.length);
      bytes.all(text);
      return;
    }
    case 'tempo':
      bytes.all([0xff, 0x51, 0x03]);
      bytes.number(event.usPerQuarter, 3);
      return;
    case 'meter':
      bytes.all([0xff, 0x58, 0x04, event.beats, powerOfTwo(event.unit), CLOCKS, THIRTY_SECONDS]);
      return;
    case 'on':
      bytes.all([0x90 | (event.channel - 1), event.note, event.velocity]);
      return;
    case 'off':
      bytes.all([0x80 | (event.channel - 1), event.note, RELEASE_VELOCITY]);
  }
}

/** Bytes that grow by doubling. */
class Bytes {
  private buffer = new Uint8Array(4096);
  length = 0;

  all(values: ArrayLike<number>): void {
    this.ensureCapacity(values.length);
    this.buffer.set(values, this.length);
    this.length += values.length;
  }

  ascii(text: string): void {
    this.all([...text].map((letter) => letter.charCodeAt(0)));
  }

  number(value: number, bytes: number): void {
    this.ensureCapacity(bytes);
    this.length += bytes;
    this.numberAt(this.length - bytes, value, bytes);
  }

  numberAt(at: number, value: number, bytes: number): void {
    for (let index = 0; index < bytes; index += 1) {
      this.buffer[at + index] = (value >>> (8 * (bytes - 1 - index))) & 0xff;
    }
  }

  variable(value: number): void {
    if (value > MOST_VARIABLE) {
      throw new InputError(
        'hits',
        `must lie at most ${MOST_VARIABLE} ticks apart to go into a MIDI file`,
        value,
      );
    }
    const sevens = [value & 0x7f];
    for (let rest = value >>> 7; rest > 0; rest >>>= 7) sevens.unshift((rest & 0x7f) | 0x80);
    this.all(sevens);
  }

  whole(): Uint8Array<ArrayBuffer> {
    return this.buffer.slice(0, this.length);
  }

  private ensureCapacity(more: number): void {
    if (this.length + more <= this.buffer.length) return;
    const larger = new Uint8Array(Math.max(2 * this.buffer.length, this.length + more));
    larger.set(this.buffer.subarray(0, this.length));
    this.buffer = larger;
  }
}

/** A time signature's unit is written as a power of two: 4 as 2. */
const powerOfTwo = (unit: number): number => 31 - Math.clz32(unit);
