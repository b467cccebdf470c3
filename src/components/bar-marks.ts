import type { Kind, Slot } from '../exercises/types';
import type { LiveState } from '../practice/types';
import type { Settings } from '../settings';
import type { Hand } from '../stroke';
import type { Db } from '../units';
import { axisY, bandOf, outsideDb, type HeightLines } from './axis';
import type { Column } from './bar-columns';

/** Early or late by this much stands at the edge of the slot. */
const SLOT_FILL_MS = 30;

/** A stroke in the picture. Fractions: `x` 0–1 of the bar, `y` 0 at the bottom. */
export interface StrokeMark {
  readonly kind: 'stroke';
  readonly hand: Hand;
  readonly wrongHand: boolean;
  readonly x: number;
  readonly width: number;
  readonly y: number;
  /** Edge of the band it lies outside of; null where it lies inside, and for passes gone by. */
  readonly edgeY: number | null;
  /** 0 for this cycle, 1 for the one before, … */
  readonly age: number;
}

/** A stroke no slot was due for. */
export interface ExtraMark {
  readonly kind: 'extra';
  readonly x: number;
  readonly y: number;
  readonly age: number;
}

/** A slot: its band, and what became of it in this cycle where nothing was heard. */
export interface BandMark {
  readonly x: number;
  readonly width: number;
  readonly fromY: number;
  readonly toY: number;
  readonly empty: 'missed' | 'tooSoft' | null;
}

export interface BarMarks {
  readonly bands: readonly BandMark[];
  /** Oldest first, so that the newest is drawn on top. */
  readonly strokes: readonly StrokeMark[];
  readonly extras: readonly ExtraMark[];
}

/** What the marks are made from, beside the strokes. */
export interface BarScene {
  readonly columns: readonly Column[];
  readonly barInCycle: number;
  /** The cycle that is on; strokes of earlier ones are passes gone by. */
  readonly cycle: number;
  readonly lines: HeightLines;
  /** The same where they are the rig's own; left out where they are the defaults. */
  readonly learned?: HeightLines;
  readonly settings: Settings;
  readonly tapsBesideGhosts: boolean;
  /** Early and late shown left and right of the slot's middle. */
  readonly showTiming: boolean;
}

/** Share of a column that its band fills, and that a stroke is wide. */
const BAND_SHARE = 0.88;
const STROKE_SHARE = 0.5;

/** Everything the bar view draws of a bar: bands, strokes, extras. Pure; the picture only places them. */
export function barMarks(scene: BarScene, live: LiveState | null): BarMarks {
  const slots = scene.columns.flatMap((column) =>
    column.slot === null ? [] : [{ column, slot: column.slot }],
  );
  const strokes = slots.flatMap(({ column, slot }) => strokesOf(scene, column, slot, live));
  const extras = (live?.extras ?? [])
    .filter((extra) => extra.barInCycle === scene.barInCycle)
    .map(({ at, levelDb, cycle }): ExtraMark => {
      return { kind: 'extra', x: at, y: axisY(levelDb, scene.lines), age: age(scene, cycle) };
    });
  return {
    bands: slots.map(({ column, slot }) => bandMark(scene, column, slot, live)),
    strokes: strokes.sort((a, b) => b.age - a.age),
    extras,
  };
}

function bandMark(scene: BarScene, column: Column, slot: Slot, live: LiveState | null): BandMark {
  const [fromY, toY] = bandEdges(scene, slot.kind);
  const now = live?.passes[slotInCycle(slot, live)]?.find((pass) => pass.cycle === scene.cycle);
  const empty = now === undefined || now.status === 'matched' ? null : now.status;
  return {
    x: column.x + (column.width * (1 - BAND_SHARE)) / 2,
    width: column.width * BAND_SHARE,
    fromY,
    toY,
    empty,
  };
}

function bandEdges(scene: BarScene, kind: Kind): readonly [number, number] {
  const band = bandOf(kind, scene.settings, scene.tapsBesideGhosts, scene.learned);
  return [
    band.fromDb === null ? 0 : axisY(band.fromDb, scene.lines),
    band.toDb === null ? 1 : axisY(band.toDb, scene.lines),
  ];
}

function strokesOf(scene: BarScene, column: Column, slot: Slot, live: LiveState | null): StrokeMark[] {
  const passes = live?.passes[slotInCycle(slot, live)] ?? [];
  const band = bandOf(slot.kind, scene.settings, scene.tapsBesideGhosts, scene.learned);
  const width = column.width * STROKE_SHARE;
  return passes.flatMap((pass): StrokeMark[] => {
    if (pass.levelDb === null) return [];
    const isNow = age(scene, pass.cycle) === 0;
    const outside = outsideDb(pass.levelDb, band);
    return [
      {
        kind: 'stroke',
        hand: slot.hand,
        wrongHand: pass.wrongHand,
        x: column.x + (column.width - width) / 2 + shift(scene, pass.deviationMs, (column.width - width) / 2),
        width,
        y: axisY(pass.levelDb, scene.lines),
        edgeY: isNow && outside !== 0 ? axisY(edgeDb(pass.levelDb, outside), scene.lines) : null,
        age: age(scene, pass.cycle),
      },
    ];
  });
}

const edgeDb = (level: Db, outside: Db): Db => level - outside;

function shift(scene: BarScene, deviationMs: number | null, room: number): number {
  if (!scene.showTiming || deviationMs === null) return 0;
  return room * Math.min(1, Math.max(-1, deviationMs / SLOT_FILL_MS));
}

/** Passes are kept by slot of the cycle, and a grid may be of a whole take. */
function slotInCycle(slot: Slot, live: LiveState): number {
  return slot.index % live.passes.length;
}

const age = (scene: BarScene, cycle: number): number => Math.max(0, scene.cycle - cycle);
