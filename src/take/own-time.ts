import { beatGridOf, timeWindows } from '../alignment/free-time';
import { timeKept } from '../alignment/free-time-whole';
import { graceReachMs } from '../alignment/graces';
import { onsetsOf } from '../alignment/onsets';
import { unisonReachMs } from '../alignment/unisons';
import { InputError } from '../errors';
import { gridOf } from '../exercises/grid';
import type { TimePlayed } from '../exercises/tempo';
import type { Grid, GridBar, Phrase } from '../exercises/types';
import { condition } from '../midi/conditioning';
import type { Take } from '../sessions/types';
import { settingsOf, type Settings } from '../settings';
import { bpmOfBeat, type Bpm, type Ms } from '../units';
import { rigAsVoiced } from './voiced-rig';

/** A beat as the grid of a free take counts them: one a second, so that ms and beats read alike. */
const BEAT_GRID_BPM: Bpm = 60;
const BEAT_GRID_BEAT_MS: Ms = 1000;
/** Bars beyond what the strokes would fill if none were left out: as much again, and some. */
const MORE = 2;
const FEWEST_STROKES = 4;

/**
 * Tempo and phase of a take without a click, from its strokes.
 * @throws InputError of fewer than four strokes, or strokes that tell no time
 */
export function ownTimeOf(take: Take): TimePlayed {
  const settings = settingsOf(take.limits, take.settings);
  const { phrase } = take;
  const cycle = gridOf(phrase, take.tempo, 0, phrase.bars.length);
  const rig = rigAsVoiced(take.rig, phrase, cycle);
  const { strokes } = condition(rig, settings, take.hits, {});
  const ofFeet = new Set(rig.surfaces.flatMap(({ id, foot }) => (foot === undefined ? [] : [id])));
  const ofHands = strokes.filter(({ surface }) => !ofFeet.has(surface));
  const cycles = Math.ceil((MORE * ofHands.length) / cycle.slotsPerCycle) + MORE;
  const { grid } = onsetsOf(gridOf(phrase, { bpm: BEAT_GRID_BPM }, 0, cycles * phrase.bars.length));
  const windows = timeWindows(settings, 'ramp' in take.tempo);
  const beatGrid = beatGridOf(grid, BEAT_GRID_BEAT_MS, leadMsOf(cycle, settings), windows);
  const kept = timeKept(beatGrid, ofHands, grid.bars[grid.bars.length - 1].endMs / BEAT_GRID_BEAT_MS);
  if (kept === undefined) {
    throw new InputError(
      'hits',
      `must have at least ${FEWEST_STROKES} strokes that keep a time where there was no click; of these ${ofHands.length} fewer do`,
    );
  }
  return { downbeatMs: kept.beatsMs[0], tempo: { ramp: pointsOf(grid.bars, kept.beatsMs) } };
}

/** How soon after another stroke one is still of the same slot: graces lead to it, a unison's two come together. */
export function leadMsOf(cycle: Grid, settings: Settings): Ms {
  const graced = cycle.slots.some(({ graces }) => graces.length > 0);
  const together = cycle.slots.some(({ together: notes }) => notes === 2);
  return Math.max(graced ? graceReachMs(cycle, settings) : 0, together ? unisonReachMs(cycle, settings) : 0);
}

/** A point a beat, as long as that beat was. */
function pointsOf(bars: readonly GridBar[], beatsMs: readonly Ms[]): { bar: number; bpm: Bpm }[] {
  const points: { bar: number; bpm: Bpm }[] = [];
  for (const { index, beats } of bars) {
    for (let beat = 0; beat < beats; beat += 1) {
      const at = points.length;
      if (at + 1 >= beatsMs.length) return points;
      points.push({ bar: index + beat / beats, bpm: bpmOfBeat(beatsMs[at + 1] - beatsMs[at]) });
    }
  }
  return points;
}

/** The tempo of a take in free time as one number, to a tenth: its beats over the time they took. */
export function meanBpm({ tempo }: TimePlayed): Bpm {
  const beats = 'bpm' in tempo ? [tempo] : tempo.ramp;
  const msOfAll = beats.reduce((sum, { bpm }) => sum + 60_000 / bpm, 0);
  return Math.round((10 * beats.length * 60_000) / msOfAll) / 10;
}

/**
 * Why a phrase can't be played in free time, or null where it can.
 * Bars to listen to need somebody who counts on; bars to count aloud are the player's own.
 */
export function whyNotFree({ bars }: Phrase): string | null {
  return bars.some(({ role }) => role === 'listen')
    ? 'has bars to listen to: they need a click to come in time'
    : null;
}
