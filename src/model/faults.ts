import { InputError } from '../errors';
import type { Hand } from '../stroke';
import type { Db, Ms } from '../units';
import { courseFaultHelp, parseCourseFault, type CourseFault } from './course-faults';

interface Where {
  /** Only in this variation; everywhere where left out. */
  readonly variation?: string;
}
interface OfHand {
  readonly hand: Hand;
}

/** What a model player does wrong, by name. Levels in dB, times in ms; positive is louder and later. */
export type Fault =
  | ({ readonly kind: 'leak-before'; readonly db: Db } & OfHand & Where)
  | ({ readonly kind: 'leak-after'; readonly db: Db } & OfHand & Where)
  | ({ readonly kind: 'spill'; readonly db: Db } & OfHand & Where)
  | ({ readonly kind: 'fade'; readonly db: Db } & Partial<OfHand> & Where)
  | ({ readonly kind: 'balance'; readonly db: Db } & OfHand & Where)
  | ({ readonly kind: 'late'; readonly ms: Ms } & OfHand & Where)
  | ({ readonly kind: 'arrival'; readonly ms: Ms } & Where)
  | ({ readonly kind: 'double-gap'; readonly ms: Ms } & Where)
  | ({ readonly kind: 'accents'; readonly db: Db } & Where)
  | ({ readonly kind: 'softs'; readonly db: Db } & Where)
  | ({ readonly kind: 'scatter'; readonly ms: Ms } & Where)
  | ({ readonly kind: 'flam-gap'; readonly ms: Ms } & Where)
  | ({ readonly kind: 'flam-uneven'; readonly ms: Ms } & Where)
  | ({ readonly kind: 'graces'; readonly db: Db } & Where)
  | { readonly kind: 'seam'; readonly ms: Ms }
  | { readonly kind: 'slip'; readonly bar: number; readonly slot: number; readonly slots: number }
  | { readonly kind: 'echo'; readonly share: number; readonly ratio: number }
  | CourseFault;

/** How each fault is written on the command line, and what it means. */
export const faultHelp: Readonly<Record<Fault['kind'], string>> = {
  'leak-before': 'leak-before:L:6[:VARIATION]   the hand’s tap before its own accent, dB louder',
  'leak-after': 'leak-after:R:6[:VARIATION]    the hand’s tap after its own accent, dB louder',
  spill: 'spill:L:6[:VARIATION]         the hand’s taps beside the other hand’s accent, dB louder',
  fade: 'fade:-6[:VARIATION]           second note of a double, dB against its first',
  balance: 'balance:R:3[:VARIATION]       the hand, dB louder in everything',
  late: 'late:L:15[:VARIATION]         the hand, ms late',
  arrival: 'arrival:60[:VARIATION]        both hands, ms late',
  'double-gap': 'double-gap:-15[:VARIATION]    second note of a double, ms late',
  accents: 'accents:-6[:VARIATION]        accents, dB louder',
  softs: 'softs:6[:VARIATION]           taps and ghosts, dB louder',
  scatter: 'scatter:20[:VARIATION]        spread of the timing, ms, instead of the usual',
  'flam-gap': 'flam-gap:60[:VARIATION]       grace notes this far ahead of their strokes, ms',
  'flam-uneven': 'flam-uneven:14[:VARIATION]    spread of that, ms, instead of the usual',
  graces: 'graces:14[:VARIATION]         grace notes, dB louder',
  seam: 'seam:-20                      first stroke of a new variation, ms late',
  slip: 'slip:3:4:16                   from bar 3 slot 4 on a stroke is left out, caught up 16 slots later',
  echo: 'echo:0.3:0.2                  share of strokes the pad echoes, and the echo’s share of the velocity',
  ...courseFaultHelp,
};

/**
 * A fault as the command line writes it; `grace` is short for `graces`.
 * @throws InputError with the right way to write it
 * @example parseFault('leak-before:L:6') // => { kind: 'leak-before', hand: 'L', db: 6 }
 */
export function parseFault(text: string): Fault {
  const ofCourse = parseCourseFault(text);
  if (ofCourse !== undefined) return ofCourse;
  const [kind, ...rest] = text.split(':');
  const wrong = (): InputError => {
    const known = Object.hasOwn(faultHelp, kind) ? faultHelp[kind as Fault['kind']] : undefined;
    const rule =
      known === undefined ? `must be one of ${Object.keys(faultHelp).join(', ')}` : 'must be written so';
    return new InputError('--fault', rule, text, known?.replace(/\s{2,}.*/, ''));
  };
  const number = (index: number): number => {
    const value = Number(rest[index]);
    if (rest[index] === undefined || rest[index] === '' || !Number.isFinite(value)) throw wrong();
    return value;
  };
  const hand = (index: number): Hand => {
    const letter = rest[index];
    if (letter !== 'R' && letter !== 'L') throw wrong();
    return letter;
  };
  const where = (index: number): Where => (rest[index] === undefined ? {} : { variation: rest[index] });
  switch (kind) {
    case 'leak-before':
    case 'leak-after':
    case 'spill':
    case 'balance':
      return { kind, hand: hand(0), db: number(1), ...where(2) };
    case 'late':
      return { kind, hand: hand(0), ms: number(1), ...where(2) };
    case 'grace':
      return { kind: 'graces', db: number(0), ...where(1) };
    case 'fade':
    case 'accents':
    case 'softs':
    case 'graces':
      return { kind, db: number(0), ...where(1) };
    case 'arrival':
    case 'double-gap':
    case 'scatter':
    case 'flam-gap':
    case 'flam-uneven':
      return { kind, ms: number(0), ...where(1) };
    case 'seam':
      return { kind, ms: number(0) };
    case 'slip':
      return { kind, bar: number(0) - 1, slot: number(1), slots: number(2) };
    case 'echo':
      return { kind, share: number(0), ratio: number(1) };
    default:
      throw wrong();
  }
}
