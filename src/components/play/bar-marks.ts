import type { Slot } from '../../exercises/types';
import type { LivePass, LiveState } from '../../take/types';
import type { Hand } from '../../stroke';
import type { Db } from '../../units';
import { outsideDb, slotBand, type BandContext } from '../../grading/facts/level-bands';
import { axisY, type HeightLines } from '../../sessions/paper/strip/axis';
import type { Column } from '../../sessions/paper/strip/columns';

/** Early or late by this much stands at the edge of the slot. */
const SLOT_FILL_MS = 30;

/** A stroke in the picture. Fractions: `x` 0–1 of the bar, `y` 0 at the bottom. */
export interface StrokeMark {
  readonly kind: 'stroke';
  /** `both`: two sticks on one surface, which reports one stroke. */
  readonly hand: Hand | 'both';
  readonly wrongHand: boolean;
  readonly wrongSurface: boolean;
  readonly x: number;
  readonly width: number;
  readonly y: number;
  /** Edge of the band it lies outside of; null where it lies inside, and for passes gone by. */
  readonly edgeY: number | null;
  /** 0 for this cycle, 1 for the one before, … */
  readonly age: number;
}

/** A grace note that was heard before its stroke. */
export interface GraceMark {
  readonly kind: 'grace';
  readonly hand: Hand;
  readonly x: number;
  readonly width: number;
  readonly y: number;
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
  readonly graces: readonly GraceMark[];
  readonly extras: readonly ExtraMark[];
}

/** What the marks are made from, beside the strokes. */
export interface BarScene {
  readonly columns: readonly Column[];
  readonly barInCycle: number;
  /** The cycle that is on; strokes of earlier ones are passes gone by. */
  readonly cycle: number;
  readonly lines: HeightLines;
  /** What the bands depend on. */
  readonly bands: BandContext;
  /** Early and late shown left and right of the slot's middle. */
  readonly showTiming: boolean;
}

/** Share of a column that its band fills, and that a stroke and a grace are wide. */
const BAND_SHARE = 0.88;
const STROKE_SHARE = 0.5;
const GRACE_SHARE = 0.22;

/** A band under the foot of the picture (a soft stroke under `p`) still shows. */
const LEAST_Y = 0.06;

/** A slot and its box in the picture: its column, or half of it where two strokes are due at once (R left). */
interface Place {
  readonly x: number;
  readonly width: number;
  readonly slot: Slot;
  readonly column: Column;
}

/** Everything the bar view draws of a bar: bands, strokes, graces, extras. Pure; the picture only places them. */
export function barMarks(scene: BarScene, live: LiveState | null): BarMarks {
  const places = scene.columns.flatMap((column): Place[] => {
    const width = column.width / column.slots.length;
    return column.slots.map((slot, at) => ({ x: column.x + at * width, width, slot, column }));
  });
  const strokes = places.flatMap((place) => strokesOf(scene, place, passesOf(place.slot, live)));
  const extras = (live?.extras ?? [])
    .filter((extra) => extra.barInCycle === scene.barInCycle)
    .map(({ at, levelDb, cycle }): ExtraMark => {
      return { kind: 'extra', x: at, y: axisY(levelDb, scene.lines), age: age(scene, cycle) };
    });
  return {
    bands: places.map((place) => bandMark(scene, place, live)),
    strokes: strokes.sort((a, b) => b.age - a.age),
    graces: places.flatMap((place) => gracesOf(scene, place, passesOf(place.slot, live))),
    extras,
  };
}

function bandMark(scene: BarScene, { x, width, slot, column }: Place, live: LiveState | null): BandMark {
  const { fromDb, toDb } = slotBand(slot, scene.bands);
  const now = column.slots.map((one) => passesOf(one, live).find((pass) => pass.cycle === scene.cycle));
  // On one surface a unison is one stroke, told at its first slot: nothing heard is nothing for both.
  const own = now[column.slots.indexOf(slot)] ?? now.find((pass) => pass?.status === 'missed');
  return {
    x: x + (width * (1 - BAND_SHARE)) / 2,
    width: width * BAND_SHARE,
    fromY: fromDb === null ? 0 : axisY(fromDb, scene.lines),
    toY: toDb === null ? 1 : Math.max(LEAST_Y, axisY(toDb, scene.lines)),
    empty: own?.status === 'missed' || own?.status === 'tooSoft' ? own.status : null,
  };
}

function strokesOf(scene: BarScene, place: Place, passes: readonly LivePass[]): StrokeMark[] {
  const band = slotBand(place.slot, scene.bands);
  return passes.flatMap((pass): StrokeMark[] => {
    const together = pass.status === 'notMeasured';
    const levelDb = together ? (pass.struckDb ?? null) : pass.levelDb;
    if (levelDb === null) return [];
    const box = together ? place.column : place;
    const width = box.width * STROKE_SHARE;
    const inset = (box.width - width) / 2;
    const isNow = age(scene, pass.cycle) === 0;
    const outside = together || pass.wrongSurface === true ? 0 : outsideDb(levelDb, band);
    return [
      {
        kind: 'stroke',
        hand: together ? 'both' : place.slot.hand,
        wrongHand: pass.wrongHand,
        wrongSurface: pass.wrongSurface === true,
        x: box.x + inset + shift(scene, pass.deviationMs, inset),
        width,
        y: axisY(levelDb, scene.lines),
        edgeY: isNow && outside !== 0 ? axisY(edgeDb(levelDb, outside), scene.lines) : null,
        age: age(scene, pass.cycle),
      },
    ];
  });
}

/** Graces on the scale of early and late, as much ahead of their stroke as they came; without it at the left edge. */
function gracesOf(scene: BarScene, { x, width, slot }: Place, passes: readonly LivePass[]): GraceMark[] {
  const wide = width * GRACE_SHARE;
  const inset = (width - wide) / 2;
  return passes.flatMap(({ cycle, deviationMs, graces = [] }) =>
    graces.map(({ levelDb, aheadMs }, at): GraceMark => {
      const lateMs = scene.showTiming && deviationMs !== null ? deviationMs - aheadMs : -SLOT_FILL_MS;
      return {
        kind: 'grace',
        hand: slot.graces[slot.graces.length - graces.length + at],
        x: x + inset + inset * clamped(lateMs / SLOT_FILL_MS),
        width: wide,
        y: axisY(levelDb, scene.lines),
        age: age(scene, cycle),
      };
    }),
  );
}

const edgeDb = (level: Db, outside: Db): Db => level - outside;

const clamped = (share: number): number => Math.min(1, Math.max(-1, share));

function shift(scene: BarScene, deviationMs: number | null, most: number): number {
  if (!scene.showTiming || deviationMs === null) return 0;
  return most * clamped(deviationMs / SLOT_FILL_MS);
}

/** Passes are kept by slot of the cycle, and a grid may be of a whole take. */
function passesOf({ index }: Slot, live: LiveState | null): readonly LivePass[] {
  return live?.passes[index % live.passes.length] ?? [];
}

const age = (scene: BarScene, cycle: number): number => Math.max(0, scene.cycle - cycle);
