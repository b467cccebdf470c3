import type { Rig } from '../../sessions/types';
import type { Settings } from '../../settings';
import { partialMs, type Bpm, type Ms } from '../../units';
import { windowsOf } from '../windows';

/** A window in which a stroke that was played may lie. */
interface WindowWarning {
  readonly kind: 'forerunner' | 'echo' | 'crosstalk';
  /** Ids of the surfaces: of the stroke, and where the false note would be. */
  readonly from: string;
  readonly to: string;
  readonly swallows: 'flams' | 'doubles';
  readonly words: string;
}

/**
 * Where a learned window of the rig would swallow what is played at a tempo: flams (15–55 ms, the limits of `flamGap`) where
 * forerunners reach that far or crosstalk comes that late; the second note of a double (one partial) where echoes or
 * crosstalk last as long. Defaults are left out: they swallow no stroke by themselves.
 */
export function windowWarnings(
  rig: Rig,
  settings: Settings,
  bpm: Bpm,
  partialsPerBeat: number,
): readonly WindowWarning[] {
  const gapMs = partialMs(bpm, partialsPerBeat);
  const [flamFromMs, flamToMs] = [settings['flamGap.holdsLeast'], settings['flamGap.holdsMost']];
  const nameOf = (id: string): string => rig.surfaces.find((one) => one.id === id)?.name ?? id;
  const at = `at ${Math.round(bpm)} bpm a double is ${Math.round(gapMs)} ms apart`;
  const found: WindowWarning[] = [];
  const { own } = windowsOf(rig, settings);
  for (const surface of rig.surfaces) {
    const { forerunnerMs, echoFromMs, echoToMs } = own(surface);
    const of = { from: surface.id, to: surface.id } as const;
    if (surface.forerunner !== undefined && forerunnerMs > flamFromMs) {
      const words = `${surface.name}: false notes come up to ${ms(forerunnerMs)} ahead of a stroke. Flams tighter than that are lost.`;
      found.push({ kind: 'forerunner', ...of, swallows: 'flams', words });
    }
    if (surface.echo !== undefined && within(gapMs, echoFromMs, echoToMs)) {
      const words = `${surface.name}: echoes last from ${ms(echoFromMs)} to ${ms(echoToMs)}; ${at}. A soft tap after an accent may be taken for an echo.`;
      found.push({ kind: 'echo', ...of, swallows: 'doubles', words });
    }
  }
  for (const { from, to, fromMs, toMs } of rig.crosstalk ?? []) {
    const pair = `${nameOf(from)} shakes ${nameOf(to)} from ${ms(fromMs)} to ${ms(toMs)} after a stroke`;
    if (overlaps(fromMs, toMs, flamFromMs, flamToMs) || overlaps(fromMs, toMs, -flamToMs, -flamFromMs)) {
      const words = `${pair}. Soft notes of flams between them may be lost.`;
      found.push({ kind: 'crosstalk', from, to, swallows: 'flams', words });
    }
    if (within(gapMs, fromMs, toMs)) {
      const words = `${pair}; ${at}. Soft strokes there right after it may be lost.`;
      found.push({ kind: 'crosstalk', from, to, swallows: 'doubles', words });
    }
  }
  return found;
}

const within = (x: Ms, from: Ms, to: Ms): boolean => x >= from && x <= to;
const overlaps = (from: Ms, to: Ms, otherFrom: Ms, otherTo: Ms): boolean =>
  from <= otherTo && to >= otherFrom;
const ms = (value: Ms): string => `${value < 0 ? '−' : ''}${Math.round(Math.abs(value))} ms`;
