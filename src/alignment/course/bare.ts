import { square } from '../../exact';
import type { Grid } from '../../exercises/types';
import type { Settings } from '../../settings';
import { leaning } from './autocorrelation';
import type { Block } from './blocks';
import type { Bend } from './laid-grid';

/**
 * Where the time ran while the click was silent: the slope of each stretch of bare bars, if one slope for all of them is
 * four standard errors long and moves by 25 ms and 0.15 of the gap in a stretch. Empty where it stayed.
 */
export function bendsOf(
  blocksIn: (isIn: (bar: number) => boolean) => readonly Block[],
  { bars, smallestGapMs }: Grid,
  bare: readonly boolean[],
  settings: Settings,
): readonly Bend[] {
  const runs: { readonly fromMs: number; readonly toMs: number; readonly of: readonly Block[] }[] = [];
  for (let bar = 0; bar < bars.length; bar += 1) {
    if (bare[bar] !== true) continue;
    const first = bar;
    while (bar + 1 < bars.length && bare[bar + 1] === true) bar += 1;
    const last = bar;
    const of = blocksIn((one) => one >= first && one <= last);
    if (of.length >= 2) runs.push({ fromMs: bars[first].startMs, toMs: bars[bar].endMs, of });
  }
  const fits = runs.map(({ of }) => lineIn(of));
  const [spread, together] = fits.reduce(([s, t], one) => [s + one.spread, t + one.together], [0, 0]);
  const left = Float64Array.from(
    fits.flatMap((fit) => fit.parts.map(({ ms, phase }) => phase - (together / spread) * ms)),
  );
  const free = left.length - runs.length - 1;
  if (free < 2) return [];
  const slope = together / spread;
  const squares = left.reduce((sum, value) => sum + square(value), 0);
  const error = Math.sqrt(squares / free / spread) * leaning(left);
  const lengthMs = runs.reduce((sum, { fromMs, toMs }) => sum + toMs - fromMs, 0) / runs.length;
  const leastMs = Math.max(settings['course.lineMs'], settings['course.lineGaps'] * smallestGapMs);
  if (Math.abs(slope) * lengthMs < leastMs || Math.abs(slope) < settings['course.lineErrors'] * error)
    return [];
  return runs.map(({ fromMs, toMs }, i) => ({ fromMs, toMs, slope: fits[i].together / fits[i].spread }));
}

function lineIn(of: readonly Block[]): {
  readonly spread: number;
  readonly together: number;
  readonly parts: readonly { readonly ms: number; readonly phase: number }[];
} {
  const meanMs = of.reduce((sum, { atMs }) => sum + atMs, 0) / of.length;
  const mean = of.reduce((sum, { phaseMs }) => sum + phaseMs, 0) / of.length;
  const parts = of.map(({ atMs, phaseMs }) => ({ ms: atMs - meanMs, phase: phaseMs - mean }));
  return {
    spread: parts.reduce((sum, { ms }) => sum + square(ms), 0),
    together: parts.reduce((sum, { ms, phase }) => sum + ms * phase, 0),
    parts,
  };
}
