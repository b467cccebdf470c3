import type { FollowChange, FollowState } from '../../alignment/follow';
import { laidMs } from '../../alignment/follow-laid';
import type { Onsets } from '../../alignment/onsets';
import type { SlotOutcome } from '../../alignment/types';
import { unisonOutcomes } from '../../alignment/unisons';
import type { Grid, Slot } from '../../exercises/types';
import type { Hand, Stroke } from '../../stroke';
import type { Db, Ms } from '../../units';
import { enter, leave, type RollingContrast } from './rolling-contrast';
import type { LiveExtra, LiveGrace, LivePass } from '../types';

/** Passes of a slot that are shown, and cycles whose extras are. */
const SHOWN_CYCLES = 8;
/** Passes of a slot that the contrast is of. */
const CONTRAST_CYCLES = 2;

/** What a running take remembers of its strokes. It is written to. */
export interface LiveMemory {
  /** By raw hit: the number of its stroke in `follow`, or −1. */
  readonly numberOfHit: number[];
  /** By number; those of cycles that are shown no more are forgotten: an hour's play needs no space for them. */
  readonly struck: Stroke[];
  forgotten: number;
  /** The newest cycle of which anything is known. */
  cycle: number;
  /** Strokes that take no slot: graces of the one after them, and other strokes of a unison. */
  readonly reserved: Set<number>;
  /** Other stroke of a unison, by the one that was paired. */
  readonly others: Map<number, number>;
  readonly contrast: RollingContrast;
  /** Trim of a hand's landing spot on a surface. */
  readonly spotTrimDb: (surface: string, hand: Hand) => Db;
}

/** What is due, as slots and as the onsets that are paired. */
export interface Due {
  readonly grid: Grid;
  readonly onsets: Onsets;
  readonly apart: (first: Slot, second: Slot) => boolean;
  /** Id of the surface a slot's stroke should fall on; undefined where the player chooses, or the rig has none of that name. */
  readonly surfaceDue: (slot: Slot) => string | undefined;
}

/** How strokes lie against the click just now. */
type TimeNow = Pick<FollowState, 'offsetMs' | 'reading'>;

/** Early or late as it is shown; null where nothing of the kind can be told. */
const lateMs = (deviationMs: Ms, { offsetMs, reading }: TimeNow): Ms | null =>
  reading.told === 'nothing' ? null : deviationMs - offsetMs;

/** Writes down what became of an onset: of its slot, or of both slots of a unison. */
export function setOnset(
  due: Due,
  memory: LiveMemory,
  passes: (readonly LivePass[])[],
  { slot: onset, outcome }: SlotChange,
  time: TimeNow,
): void {
  const { grid, onsets, apart } = due;
  const first = grid.slots[onsets.firstSlot[onset]];
  memory.cycle = Math.max(memory.cycle, first.cycle);
  if (first.cycle < memory.cycle - SHOWN_CYCLES) return;
  if (first.together === 1) {
    const pass = outcome === null ? undefined : passOf(due, memory, first, outcome, time);
    setPass(grid, memory, passes, first.index, pass);
    return;
  }
  const second = grid.slots[first.index + 1];
  const other = outcome?.status === 'matched' ? (memory.others.get(outcome.stroke) ?? -1) : -1;
  const outcomes =
    outcome === null
      ? [null, null]
      : unisonOutcomes(outcome, [first, second], other, memory.struck, apart(first, second));
  if (outcome?.status === 'matched' && outcomes[0]?.status === 'notMeasured') {
    const { stroke, deviationMs } = outcome;
    setPass(grid, memory, passes, first.index, {
      cycle: first.cycle,
      status: 'notMeasured',
      levelDb: null,
      deviationMs: lateMs(deviationMs, time),
      wrongHand: false,
      struckDb: memory.struck[stroke].levelDb,
    });
    setPass(grid, memory, passes, second.index, undefined);
    return;
  }
  outcomes.forEach((one, note) => {
    const slot = grid.slots[first.index + note];
    const pass = one === null ? undefined : passOf(due, memory, slot, one, time);
    setPass(grid, memory, passes, slot.index, pass);
  });
}

/** Lets go of strokes that nothing shown can be told from any more. */
export function forgetOld({ grid }: Due, memory: LiveMemory): void {
  const oldest = grid.bars[(memory.cycle - SHOWN_CYCLES - 1) * grid.barsPerCycle];
  if (oldest === undefined) return;
  const { struck } = memory;
  while (memory.forgotten < struck.length && struck[memory.forgotten].atMs < oldest.startMs) {
    struck[memory.forgotten] = FORGOTTEN;
    memory.forgotten += 1;
  }
}

const FORGOTTEN: Stroke = {
  hit: -1,
  atMs: -Infinity,
  levelDb: NaN,
  velocity: 0,
  surface: '',
  hand: null,
  echoLike: false,
};

/** What a slot's (or an onset's) outcome is now; null: open again. */
interface SlotChange {
  readonly slot: number;
  readonly outcome: SlotOutcome | null;
}

/** Puts what became of a slot in its place among the passes, or takes it out where the slot is open again. */
function setPass(
  grid: Grid,
  memory: LiveMemory,
  passes: (readonly LivePass[])[],
  slot: number,
  now: LivePass | undefined,
): void {
  const place = slot % grid.slotsPerCycle;
  const { cycle, kind, shiftDb } = grid.slots[slot];
  const before = passes[place];
  const others = before.filter((pass) => pass.cycle !== cycle);
  if (now !== undefined) {
    const after = others.findIndex((pass) => pass.cycle > cycle);
    others.splice(after < 0 ? others.length : after, 0, now);
  }
  const next = others.slice(-SHOWN_CYCLES);
  passes[place] = next;
  const levels = kind === 'accent' ? memory.contrast.accents : memory.contrast.softs;
  for (const levelDb of comparedOf(before)) leave(levels, levelDb - shiftDb);
  for (const levelDb of comparedOf(next)) enter(levels, levelDb - shiftDb);
}

/** Levels of the newest passes that compare with others. */
function comparedOf(passes: readonly LivePass[]): readonly Db[] {
  return passes
    .slice(-CONTRAST_CYCLES)
    .flatMap(({ levelDb, wrongSurface }) => (levelDb === null || wrongSurface === true ? [] : [levelDb]));
}

function passOf(
  { surfaceDue }: Due,
  memory: LiveMemory,
  slot: Slot,
  outcome: SlotOutcome,
  time: TimeNow,
): LivePass | undefined {
  const { cycle, hand, graces } = slot;
  switch (outcome.status) {
    case 'matched': {
      const { stroke, deviationMs, wrongHand } = outcome;
      const { surface, levelDb: struckDb } = memory.struck[stroke];
      const due = surfaceDue(slot);
      const pass: LivePass = {
        cycle,
        status: 'matched',
        levelDb: struckDb + memory.spotTrimDb(surface, hand),
        deviationMs: lateMs(deviationMs, time),
        wrongHand,
        // A wrong hand goes before: one fault is told once.
        ...(due !== undefined && due !== surface && !wrongHand ? { wrongSurface: true as const } : {}),
      };
      return graces.length === 0 ? pass : { ...pass, graces: gracesBefore(memory, stroke, graces.length) };
    }
    case 'missed':
    case 'tooSoft':
      return { cycle, status: outcome.status, levelDb: null, deviationMs: null, wrongHand: false };
    case 'slipped':
    case 'otherBar':
    case 'notPlayed':
    case 'notMeasured':
      // Slips are told by the whole take; while it runs nothing is known to have slipped.
      return undefined;
  }
}

/** The strokes reserved as graces of a stroke, as many as are due at most. */
function gracesBefore({ struck, reserved }: LiveMemory, stroke: number, due: number): readonly LiveGrace[] {
  const graces: LiveGrace[] = [];
  for (let before = stroke - 1; graces.length < due && reserved.has(before); before -= 1) {
    const { levelDb, atMs } = struck[before];
    graces.unshift({ levelDb, aheadMs: struck[stroke].atMs - atMs });
  }
  return graces;
}

/** An extra that knows its stroke, so that it can be taken back. */
interface KnownExtra extends LiveExtra {
  readonly stroke: number;
}

export function withExtra(
  grid: Grid,
  memory: LiveMemory,
  extras: readonly LiveExtra[],
  change: Exclude<FollowChange, { readonly kind: 'slot' }>,
  { reading, offsetMs }: TimeNow,
): readonly LiveExtra[] {
  const others = (extras as readonly KnownExtra[]).filter((extra) => extra.stroke !== change.stroke);
  if (change.kind === 'notExtra') return others;
  const { cycle, barInCycle, startMs, endMs } = grid.bars[change.bar];
  memory.cycle = Math.max(memory.cycle, cycle);
  if (cycle < memory.cycle - SHOWN_CYCLES) return others;
  const share = (laidMs(reading, memory.struck[change.stroke].atMs) - offsetMs - startMs) / (endMs - startMs);
  const at = Math.min(1, Math.max(0, share));
  const now: KnownExtra = {
    stroke: change.stroke,
    cycle,
    barInCycle,
    at,
    levelDb: memory.struck[change.stroke].levelDb,
  };
  return [...others.filter((extra) => extra.cycle > cycle - SHOWN_CYCLES), now];
}
