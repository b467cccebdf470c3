import { InputError } from '../errors';
import type { Ms } from '../units';

/** What may happen to a model player's take as a whole. Bars and slots from 0; positive is later and faster. */
export type CourseFault =
  | { readonly kind: 'latency'; readonly ms: Ms }
  /** Partials; with `inBars` so many bars. Negative: early. What comes after the click's end is not played. */
  | { readonly kind: 'late-start'; readonly partials: number; readonly inBars: boolean }
  /** Silence over so many slots, then on in its place, or from the first bar again. `cable`: what is played isn't heard. */
  | {
      readonly kind: 'pause' | 'restart' | 'cable';
      readonly bar: number;
      readonly slot: number;
      readonly slots: number;
    }
  /** A bar of the phrase is played as another, in one cycle or in all. */
  | { readonly kind: 'played-as'; readonly bar: number; readonly as: number; readonly cycle?: number }
  | { readonly kind: 'swap'; readonly bar: number; readonly as: number }
  | { readonly kind: 'mirror' }
  | { readonly kind: 'tempo'; readonly percent: number }
  | { readonly kind: 'bare-rush'; readonly percent: number }
  | { readonly kind: 'step'; readonly bar: number; readonly ms: Ms }
  | { readonly kind: 'rate'; readonly rate: number }
  /** `db` against the stroke it doubles. */
  | { readonly kind: 'twice'; readonly share: number; readonly ms: Ms; readonly db: number }
  | { readonly kind: 'velocities'; readonly count: number }
  | { readonly kind: 'swing'; readonly percent: number }
  /** Slow 1/f drift about the grid, its standard deviation. */
  | { readonly kind: 'wander'; readonly ms: Ms }
  /** The player keeps a time of their own and mends this share of each error at the next stroke. */
  | { readonly kind: 'correction'; readonly share: number }
  | { readonly kind: 'missed'; readonly share: number }
  | { readonly kind: 'added'; readonly share: number }
  | { readonly kind: 'wrong-hand'; readonly share: number }
  /** Exponent of the module's velocity curve: under 1 everything comes louder. */
  | { readonly kind: 'curve'; readonly exponent: number }
  | { readonly kind: 'jitter'; readonly of: 'usb' | 'bluetooth' };

/** How each is written on the command line, and what it means. */
export const courseFaultHelp: Readonly<Record<CourseFault['kind'], string>> = {
  latency: 'latency:150                  everything this much later, ms',
  'late-start':
    'late-start:4                 begun so many partials late (4bars: bars), ended with the click',
  pause: 'pause:3:4:40                 from bar 3 slot 4 on nothing for 40 slots, then on in its place',
  restart: 'restart:3:4:40               the same, then from bar 1 again',
  cable: 'cable:3:4:40                 the same, but what was played did not arrive: the port was gone',
  'played-as': 'played-as:2:3[:CYCLE]        bar 2 of the phrase is played as its bar 3',
  swap: 'swap:2:3                     those two bars of the phrase are swapped',
  mirror: 'mirror                       all of it with the other hand',
  tempo: 'tempo:0.4                    faster than the click, %',
  'bare-rush': 'bare-rush:2                  faster while the click is silent, %',
  step: 'step:9:-60                   from bar 9 on everything this much later, ms',
  rate: 'rate:2                       so many times as fast as the click asks (0.5, 3/2, 2/3)',
  twice: 'twice:0.08:25[:DB]           share of strokes that come twice, and how long after, ms',
  velocities: 'velocities:1                 so many velocities is all the pad reports',
  swing: 'swing:62                     every second partial late, as if swung, %',
  wander: 'wander:8                     slow 1/f drift about the grid, its standard deviation in ms',
  correction:
    'correction:0.25              time of one’s own, this share of each error mended at the next stroke',
  missed: 'missed:0.1                   share of strokes left out',
  added: 'added:0.02                   share of strokes added',
  'wrong-hand':
    'wrong-hand:0.05              share of strokes with the other hand: on two pads the other one',
  curve: 'curve:0.6                    exponent of the module’s velocity curve',
  jitter: 'jitter:usb                   time stamps as they come over usb or bluetooth',
};

const isCourseKind = (kind: string): kind is CourseFault['kind'] => Object.hasOwn(courseFaultHelp, kind);

/**
 * A fault of the whole take as the command line writes it.
 * @returns undefined where its name is none of these
 * @throws InputError with the right way to write it
 * @example parseCourseFault('latency:150') // => { kind: 'latency', ms: 150 }
 */
export function parseCourseFault(text: string): CourseFault | undefined {
  const [kind, ...rest] = text.split(':');
  if (!isCourseKind(kind)) return undefined;
  const wrong = (): InputError =>
    new InputError('--fault', 'must be written so', text, courseFaultHelp[kind].replace(/\s{2,}.*/, ''));
  const number = (index: number): number => {
    const [over, under = '1', ...more] = (rest[index] ?? '').split('/');
    const value = Number(over) / Number(under);
    if (over === '' || more.length > 0 || !Number.isFinite(value)) throw wrong();
    return value;
  };
  const from = (index: number, least: number): number => {
    const value = number(index);
    if (!Number.isInteger(value) || value < least) throw wrong();
    return value;
  };
  const share = (index: number): number => {
    const value = number(index);
    if (value < 0 || value > 1) throw wrong();
    return value;
  };
  const above0 = (value: number): number => {
    if (!(value > 0)) throw wrong();
    return value;
  };
  switch (kind) {
    case 'latency':
    case 'wander':
      return { kind, ms: number(0) };
    case 'late-start': {
      const inBars = /bars?$/.test(rest[0] ?? '');
      const partials = Number((rest[0] ?? '').replace(/bars?$/, '') || NaN);
      if (!Number.isInteger(partials)) throw wrong();
      return { kind, partials, inBars };
    }
    case 'pause':
    case 'restart':
    case 'cable':
      return { kind, bar: from(0, 1) - 1, slot: from(1, 0), slots: from(2, 1) };
    case 'played-as':
      return {
        kind,
        bar: from(0, 1) - 1,
        as: from(1, 1) - 1,
        ...(rest[2] === undefined ? {} : { cycle: from(2, 1) - 1 }),
      };
    case 'swap':
      return { kind, bar: from(0, 1) - 1, as: from(1, 1) - 1 };
    case 'mirror':
      return { kind };
    case 'tempo':
    case 'bare-rush':
    case 'swing':
      return { kind, percent: number(0) };
    case 'step':
      return { kind, bar: from(0, 1) - 1, ms: number(1) };
    case 'rate':
      return { kind, rate: above0(number(0)) };
    case 'twice':
      return { kind, share: share(0), ms: above0(number(1)), db: rest[2] === undefined ? 0 : number(2) };
    case 'velocities':
      return { kind, count: from(0, 1) };
    case 'correction':
    case 'missed':
    case 'added':
    case 'wrong-hand':
      return { kind, share: share(0) };
    case 'curve':
      return { kind, exponent: above0(number(0)) };
    case 'jitter':
      if (rest[0] !== 'usb' && rest[0] !== 'bluetooth') throw wrong();
      return { kind, of: rest[0] };
  }
}
