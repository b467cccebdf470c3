import { countIn } from '../click/schedule';
import { gridOf } from '../exercises/grid';
import type { Grid, Phrase } from '../exercises/types';
import { PLAY_ALONG_CLICKS } from '../midi/learning/delays';
import type { Bpm, Ms } from '../units';

/** What a click sounds that leads no take. */
interface LoneClick {
  readonly grid: Grid;
  readonly downbeatMs: Ms;
  /** When its last beat is over. */
  readonly endMs: Ms;
  /** Its clicks after the count-in, evenly spaced. */
  readonly clicksMs: readonly Ms[];
}

/** Between the wish and the first click: long enough to hand it over. */
export const CLICK_LEAD_MS: Ms = 400;
/** A tempo at which every stroke can be placed with care; common practice. */
const PLAY_ALONG_BPM: Bpm = 100;
const BEATS = 4;

const quarters = (bars: number): Phrase => ({
  title: 'A stroke a click',
  beatsPerBar: BEATS,
  partialsPerBeat: 1,
  cycles: bars,
  bars: [{ variation: 'a stroke a click', sticking: 'r l r l' }],
});

/** The click of the play-along that tells the delays. @param fromMs when its count-in may begin */
export function playAlong(fromMs: Ms): LoneClick {
  return lone(quarters(PLAY_ALONG_CLICKS / BEATS), fromMs);
}

/** One bar after its count-in, to hear whether a click arrives where it is wanted. */
export function testClick(fromMs: Ms): LoneClick {
  return lone(quarters(1), fromMs);
}

function lone(phrase: Phrase, fromMs: Ms): LoneClick {
  const tempo = { bpm: PLAY_ALONG_BPM };
  const downbeatMs = fromMs + countIn(gridOf(phrase, tempo, 0, 1)).lengthMs;
  const grid = gridOf(phrase, tempo, downbeatMs);
  return {
    grid,
    downbeatMs,
    endMs: grid.bars[grid.bars.length - 1].endMs,
    clicksMs: grid.bars.flatMap(({ beatsMs }) => beatsMs),
  };
}
