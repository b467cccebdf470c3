import type { RawHit } from '../stroke';
import type { TakeEvent } from '../sessions/take-events';
import { power } from '../exact';
import { levelDb, velocityOfLevel, type Ms } from '../units';
import type { Fault } from './faults';
import { seeded } from './random';

/** A hit with what it is for; the module keeps that beside it. */
interface Sent<Of> {
  readonly hit: RawHit;
  readonly of: Of;
}

/** What pad, module and cable make of the hits, in an order of their own: sort by time afterwards. */
export function throughModule<Of>(
  sent: readonly Sent<Of>[],
  doubled: Of,
  faults: readonly Fault[],
  seed: number,
): readonly Sent<Of>[] {
  let out = sent;
  for (const fault of faults) {
    const random = seeded(seed + MODULE_SEED);
    const changed = (change: (hit: RawHit) => RawHit): readonly Sent<Of>[] =>
      out.map(({ hit, of }) => ({ hit: change(hit), of }));
    if (fault.kind === 'twice') {
      out = out.flatMap((one) => {
        if (random() >= fault.share) return [one];
        const atMs = one.hit.atMs + fault.ms * (0.8 + 0.4 * random());
        const velocity = midi(velocityOfLevel(levelDb(one.hit.velocity) + fault.db));
        return [one, { hit: { ...one.hit, atMs, velocity }, of: doubled }];
      });
    } else if (fault.kind === 'curve') {
      out = changed((hit) => ({ ...hit, velocity: midi(127 * power(hit.velocity / 127, fault.exponent)) }));
    } else if (fault.kind === 'velocities') {
      const rung = 127 / fault.count;
      out = changed((hit) => ({
        ...hit,
        velocity: fault.count === 1 ? ONE_VELOCITY : midi(rung * (Math.ceil(hit.velocity / rung) - 0.25)),
      }));
    } else if (fault.kind === 'jitter') {
      const every = fault.of === 'usb' ? USB_MS : BLUETOOTH_MS;
      const phase = every * random();
      out = changed((hit) => ({
        ...hit,
        atMs: phase + every * Math.ceil((hit.atMs - phase) / every) + USB_MS * random(),
      }));
    }
  }
  return out;
}

const MODULE_SEED = 0x30d;
const ONE_VELOCITY = 100;
/** A full-speed USB device is asked once a frame of 1 ms (USB 2.0, chapter 5). */
const USB_MS: Ms = 1;
/** The shortest connection interval of Bluetooth LE MIDI devices in common use, 11.25 ms; 15 ms at most (BLE MIDI 1.0). */
const BLUETOOTH_MS: Ms = 11.25;

const midi = (velocity: number): number => Math.min(127, Math.max(1, Math.round(velocity)));

/** The port's absence, from the first hit lost to the next that is there. */
export function cableEvents(
  port: string,
  lostMs: readonly Ms[],
  nextMs: Ms | undefined,
): readonly TakeEvent[] {
  if (lostMs.length === 0) return [];
  const gone: TakeEvent = { kind: 'port gone', atMs: lostMs[0] - BEFORE_MS, port };
  return nextMs === undefined ? [gone] : [gone, { kind: 'port back', atMs: nextMs - BEFORE_MS, port }];
}

const BEFORE_MS: Ms = 40;
