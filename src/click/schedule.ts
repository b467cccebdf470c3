import { bareBars, clicksAt, plainClick, voiceAt } from '../exercises/click-plan';
import { shareOfBeat } from '../exercises/share-of-beat';
import type { Grid, GridBar } from '../exercises/types';
import type { Ms } from '../units';
import type { ClickBeat, ClickOrder, Lead } from './types';
import { countWhile } from '../ordered';

/** One bar of count-in at any tempo, and nothing said first. */
export const plainLead: Lead = { countInBars: 'auto', sayFirst: false };
export const plainOrder: ClickOrder = { plan: plainClick, lead: plainLead, swing: 0.5 };

/** The beats before the downbeat, in time order, from the length of the first bar's first beat. */
export interface CountIn {
  readonly bars: number;
  readonly beats: number;
  /** Beats after the count-in and before the downbeat, to count the phrase aloud in. */
  readonly sayBeats: number;
  readonly beatMs: Ms;
  /** How long it takes: the downbeat must be at least this far away when the click starts. */
  readonly lengthMs: Ms;
}

/** The count-in of a grid: one bar like the first, or as the lead says. At 84 bpm in four that is four beats. */
export function countIn(grid: Grid, { countInBars, sayFirst }: Lead = plainLead): CountIn {
  const first = grid.bars[0];
  const beatMs = firstBeatMs(first);
  const bars = countInBars === 'auto' ? 1 : countInBars;
  const beats = bars * first.beats;
  const sayBeats = sayFirst ? first.beats : 0;
  return { bars, beats, sayBeats, beatMs, lengthMs: (beats + sayBeats) * beatMs };
}

/**
 * Every click of a take in time order: each beat of the count-in and of the bar said first, then what the plan has click
 * in each bar that is not bare.
 * @param downbeatMs when the grid's first bar begins; the grid's own times only say how far apart the beats are
 */
export function clickBeats(
  grid: Grid,
  downbeatMs: Ms,
  { plan, lead, swing }: ClickOrder = plainOrder,
): readonly ClickBeat[] {
  const count = countIn(grid, lead);
  const { beats: beatsPerBar, startMs } = grid.bars[0];
  const before = count.beats + count.sayBeats;
  const clicks: ClickBeat[] = [];
  for (let beat = 0; beat < before; beat += 1) {
    clicks.push({
      atMs: downbeatMs - (before - beat) * count.beatMs,
      voice: voiceAt(beat % beatsPerBar, 0),
    });
  }
  const bare = bareBars(
    plan.bare,
    grid.bars.map(({ role }) => role),
  );
  const partials = [...plan.partials].sort((a, b) => a - b);
  for (const bar of grid.bars) {
    if (bare[bar.index]) continue;
    bar.beatsMs.forEach((beatAtMs, beat) => {
      const lengthMs = (bar.beatsMs[beat + 1] ?? bar.endMs) - beatAtMs;
      const inBeat = bar.partialsPerBeat[beat];
      for (const partial of partials) {
        if (partial >= inBeat || !clicksAt(plan, beat, partial)) continue;
        const intoMs = partial === 0 ? 0 : shareOfBeat(partial, inBeat, swing) * lengthMs;
        clicks.push({ atMs: downbeatMs + (beatAtMs - startMs) + intoMs, voice: voiceAt(beat, partial) });
      }
    });
  }
  return clicks;
}

/** What falls in [fromMs, toMs) of things in time order: asked for piece by piece, each comes exactly once. */
export function clicksIn<Due extends Timed>(due: readonly Due[], fromMs: Ms, toMs: Ms): readonly Due[] {
  return due.slice(firstFrom(due, fromMs), firstFrom(due, toMs));
}

function firstBeatMs(bar: GridBar): Ms {
  return (bar.beatsMs.length > 1 ? bar.beatsMs[1] : bar.endMs) - bar.startMs;
}

interface Timed {
  readonly atMs: Ms;
}

/** Index of the first one at or after a time. */
function firstFrom(clicks: readonly Timed[], atMs: Ms): number {
  return countWhile(clicks.length, (index) => clicks[index].atMs < atMs);
}
