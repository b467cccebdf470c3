import type { Label } from '../src/midi/types';
import type { Rig, Surface } from '../src/sessions/types';
import type { Hand, RawHit } from '../src/stroke';
import { velocityOfLevel, type Db, type Ms } from '../src/units';
import { normal, seeded, type Random } from '../src/model/random';

/** A false note that a stroke may bring: how often, when after it (negative: before), at what share of its velocity. */
interface FalseNote {
  readonly share: number;
  readonly afterMs: Ms;
  readonly spreadMs: Ms;
  readonly ratio: number;
}

/** A pad with known faults, which the learning is to find. */
interface ModelPad {
  readonly id: string;
  readonly note: number;
  readonly hand?: Hand;
  /** How much louder than the stroke it reads. */
  readonly gainDb?: Db;
  /** The right hand's landing spot minus the left's. */
  readonly hotSpotDb?: Db;
  readonly forerunner?: FalseNote;
  readonly echo?: FalseNote;
  /** Two strokes nearer than this arrive as the first. */
  readonly mergesMs?: Ms;
  /** A stroke of a lower velocity does not arrive. */
  readonly thresholdVelocity?: number;
}

export interface ModelKit {
  readonly pads: readonly ModelPad[];
  readonly crosstalk?: readonly (FalseNote & { readonly from: string; readonly to: string })[];
  /** Between stroke and time stamp. */
  readonly inputDelayMs?: Ms;
}

/** A stroke as it was struck, before the kit makes something of it. */
export interface Struck {
  readonly atMs: Ms;
  readonly pad: string;
  readonly levelDb: Db;
  /** Whose landing spot; the pad's middle where left out. */
  readonly spot?: Hand;
}

/** What a kit reported, in time order, with what each hit really is. */
interface Reported {
  readonly hits: readonly RawHit[];
  readonly truth: readonly (Exclude<Label, 'unmapped' | 'zone'> | 'echo')[];
}

const PORT = 'Model kit';
const CHANNEL = 10;

/** A rig that knows the surfaces of a model kit and nothing more. */
export function plainRigOf({ pads }: ModelKit): Rig {
  return {
    levelLaw: 'gm2',
    inputDelayMs: 0,
    outputDelayMs: 0,
    surfaces: pads.map(({ id, note, hand }): Surface => ({
      id,
      name: id,
      port: PORT,
      channel: CHANNEL,
      notes: [note],
      hand: hand ?? null,
      trimDb: 0,
    })),
  };
}

/** Strokes as a kit reports them. The same kit, strokes and seed give the same. @param strokes in time order */
export function reportedBy(kit: ModelKit, strokes: readonly Struck[], seed: number): Reported {
  const random = seeded(seed);
  const made: { readonly hit: RawHit; readonly is: Reported['truth'][number] }[] = [];
  const lastOf = new Map<string, Ms>();
  for (const stroke of strokes) {
    const pad = kit.pads.find(({ id }) => id === stroke.pad);
    if (pad === undefined || stroke.atMs - (lastOf.get(pad.id) ?? -Infinity) < (pad.mergesMs ?? 0)) continue;
    const main = hitOn(kit, pad, stroke);
    if (main.velocity < (pad.thresholdVelocity ?? 1)) continue;
    lastOf.set(pad.id, stroke.atMs);
    made.push({ hit: main, is: 'stroke' });
    const bring = (of: FalseNote | undefined, note: number, is: Reported['truth'][number]): void => {
      const hit = of && falseHit(of, main, note, random);
      if (hit !== undefined) made.push({ hit, is });
    };
    bring(pad.forerunner, pad.note, 'forerunner');
    bring(pad.echo, pad.note, 'echo');
    for (const bleed of kit.crosstalk ?? []) {
      const shaken = kit.pads.find(({ id }) => id === bleed.to);
      if (bleed.from === pad.id && shaken !== undefined) bring(bleed, shaken.note, 'crosstalk');
    }
  }
  made.sort((a, b) => a.hit.atMs - b.hit.atMs);
  return { hits: made.map(({ hit }) => hit), truth: made.map(({ is }) => is) };
}

function hitOn({ inputDelayMs = 0 }: ModelKit, pad: ModelPad, { atMs, levelDb, spot }: Struck): RawHit {
  const half = (pad.hotSpotDb ?? 0) / 2;
  const extra = spot === undefined ? 0 : spot === 'R' ? half : -half;
  const velocity = velocityOfLevel(levelDb + (pad.gainDb ?? 0) + extra);
  return {
    atMs: atMs + inputDelayMs,
    port: PORT,
    channel: CHANNEL,
    note: pad.note,
    velocity: midi(velocity),
  };
}

function falseHit(of: FalseNote, main: RawHit, note: number, random: Random): RawHit | undefined {
  if (random() >= of.share) return undefined;
  const velocity = Math.round(main.velocity * of.ratio * (0.7 + 0.3 * random()));
  const atMs = main.atMs + of.afterMs + of.spreadMs * Math.max(-2, Math.min(2, normal(random)));
  return velocity < 1 ? undefined : { ...main, atMs, note, velocity: midi(velocity) };
}

const midi = (velocity: number): number => Math.min(127, Math.max(1, Math.round(velocity)));
