import type { Ms } from '../../units';
import type { TempoPoint } from './types';
import { countWhile } from '../../ordered';

/** 120 bpm: what a file without a tempo has. Source: Standard MIDI Files 1.0, set tempo. */
const US_PER_QUARTER_UNSAID = 500_000;

/**
 * Tempo changes as points with their times. A later one at the same tick wins.
 * @param changes in any order
 */
export function tempoPoints(
  changes: readonly { readonly tick: number; readonly usPerQuarter: number }[],
  ticksPerQuarter: number,
): readonly TempoPoint[] {
  const points: TempoPoint[] = [{ tick: 0, atMs: 0, usPerQuarter: US_PER_QUARTER_UNSAID }];
  for (const { tick, usPerQuarter } of [...changes].sort((a, b) => a.tick - b.tick)) {
    const before = points[points.length - 1];
    if (before.tick === tick) points.pop();
    points.push({ tick, atMs: msFrom(before, tick, ticksPerQuarter), usPerQuarter });
  }
  return points;
}

/**
 * Time of a tick from the start of the file: `ms = ticks · (µs a quarter / ticks a quarter) / 1000`, over the tempo map.
 * Source: Standard MIDI Files 1.0.
 * @example msAtTick([{ tick: 0, atMs: 0, usPerQuarter: 500000 }], 96, 6144) // => 32000
 */
export function msAtTick(points: readonly TempoPoint[], ticksPerQuarter: number, tick: number): Ms {
  return msFrom(points[lastWhere(points, (point) => point.tick <= tick)], tick, ticksPerQuarter);
}

/**
 * The tick nearest to a time; inverse of {@link msAtTick} to half a tick. Times before the start have tick 0.
 * @example tickAtMs([{ tick: 0, atMs: 0, usPerQuarter: 500000 }], 960, 500.2) // => 960
 */
export function tickAtMs(points: readonly TempoPoint[], ticksPerQuarter: number, atMs: Ms): number {
  const point = points[lastWhere(points, (one) => one.atMs <= atMs)];
  const ticks = ((atMs - point.atMs) * 1000 * ticksPerQuarter) / point.usPerQuarter;
  return Math.max(0, Math.round(point.tick + ticks));
}

function msFrom(point: TempoPoint, tick: number, ticksPerQuarter: number): Ms {
  return point.atMs + ((tick - point.tick) * point.usPerQuarter) / ticksPerQuarter / 1000;
}

/** Index of the last point that passes; 0 where none does. */
function lastWhere(points: readonly TempoPoint[], passes: (point: TempoPoint) => boolean): number {
  return Math.max(0, countWhile(points.length, (index) => passes(points[index])) - 1);
}
