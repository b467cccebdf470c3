import type { Rig, Surface } from '../sessions/types';
import type { Settings } from '../settings';
import type { Ms } from '../units';

/** False notes of a surface's own: where they lie and up to what share of the stroke's velocity. */
interface OwnWindows {
  /** A softer note under this time before a louder one, and under this share of it. */
  readonly forerunnerMs: Ms;
  readonly forerunnerRatio: number;
  readonly echoFromMs: Ms;
  readonly echoToMs: Ms;
  readonly echoRatio: number;
}

/** Crosstalk of one surface in another: times after the stroke that causes it, negative before. */
export interface PairWindow {
  readonly fromMs: Ms;
  readonly toMs: Ms;
  readonly ratio: number;
}

interface Windows {
  readonly own: (surface: Surface) => OwnWindows;
  /** What a stroke on `from` may make `to` report. Surfaces by id. */
  readonly pair: (from: string, to: string) => PairWindow;
  /** How long a stroke matters to later ones. */
  readonly memoryMs: Ms;
}

/**
 * The windows in force: those the rig has learned for a surface or an ordered pair of surfaces, the settings' elsewhere.
 * A learned window takes the place of the default whole. Source: grading.md section 2.
 */
export function windowsOf(rig: Rig, settings: Settings): Windows {
  const own = new Map(rig.surfaces.map((surface) => [surface.id, ownWindows(surface, settings)]));
  const anyPair: PairWindow = {
    fromMs: -settings['crosstalk.windowMs'],
    toMs: settings['crosstalk.windowMs'],
    ratio: settings['crosstalk.ratio'],
  };
  const pairs = new Map<string, Map<string, PairWindow>>();
  for (const learned of rig.crosstalk ?? []) {
    const those = pairs.get(learned.from) ?? new Map<string, PairWindow>();
    pairs.set(learned.from, those.set(learned.to, learned));
  }
  return {
    own: (surface) => own.get(surface.id) ?? ownWindows(surface, settings),
    pair: pairs.size === 0 ? () => anyPair : (from, to) => pairs.get(from)?.get(to) ?? anyPair,
    memoryMs: Math.max(
      settings['zone.windowMs'],
      anyPair.toMs,
      ...[...own.values()].flatMap(({ forerunnerMs, echoToMs }) => [forerunnerMs, echoToMs]),
      ...(rig.crosstalk ?? []).flatMap(({ fromMs, toMs }) => [Math.abs(fromMs), Math.abs(toMs)]),
    ),
  };
}

function ownWindows({ forerunner, echo }: Surface, settings: Settings): OwnWindows {
  return {
    forerunnerMs: forerunner?.withinMs ?? settings['forerunner.windowMs'],
    forerunnerRatio: forerunner?.ratio ?? 1,
    echoFromMs: echo?.fromMs ?? 0,
    echoToMs: echo?.toMs ?? settings['echo.windowMs'],
    echoRatio: echo?.ratio ?? settings['echo.ratio'],
  };
}
