import { describe, expect, it } from 'vitest';
import { plainClick } from '../../src/exercises/click-plan';
import { phraseNamed } from '../../src/exercises/phrase';
import { bareDriftOf } from '../../src/insight/bare-drift';
import { gradeTake } from '../../src/take/grade-take';
import { modelTake } from '../../src/model/model-player';
import { courseOf } from '../../src/insight/take-course';
import type { Take } from '../../src/sessions/types';

const PHRASE = phraseNamed('Single paradiddle, accents off');

/** Two bars with the click, two without, in which the time moves by so much a bar and is caught at the click's return. */
function drifting(msABar: number, seed: number): Take {
  const { take, truth, grid } = modelTake({ phrase: PHRASE, bpm: 84, seed, cycles: 32 });
  const hits = [...take.hits];
  for (const slot of grid.slots) {
    const hit = truth.hitOfSlot[slot.index];
    const inStretch = (slot.bar % 4) - 2 + slot.slot / 16;
    if (hit === null || inStretch < 0) continue;
    hits[hit] = { ...hits[hit], atMs: hits[hit].atMs + msABar * inStretch };
  }
  return { ...take, hits, click: 'bare', clicks: { ...plainClick, bare: { kind: 'steady', on: 2, off: 2 } } };
}
const driftOf = (take: Take) => bareDriftOf(gradeTake(take), take);

describe('the time in bare bars', () => {
  it('that runs 8 ms ahead a bar is 12 ms ahead by the middle of the second: found within 2 ms', () => {
    const found = driftOf(drifting(-8, 1));
    expect(found?.stretches).toBe(8);
    // −8 ms a bar, from the stretch's begin to the middle of its last bar: 1.5 bars.
    expect(Math.abs((found?.movedMs?.value ?? 0) + 12)).toBeLessThan(2);
    expect(found?.words).toMatch(
      /^In bare bars the time ran ahead: 1[0-3] ms by the last bar of each stretch/,
    );
  });

  it('that stays is said to stay, in most takes of a steady player', () => {
    const said = Array.from({ length: 12 }, (_, seed) => driftOf(drifting(0, seed + 1))?.words ?? '');
    expect(said.filter((words) => words.includes('the time stayed')).length).toBeGreaterThanOrEqual(10);
  });

  it('is nothing where the click was never silent', () => {
    const { take } = modelTake({ phrase: PHRASE, bpm: 84, seed: 1 });
    expect(driftOf(take)).toBeUndefined();
  });
});

describe('what a take tells over its time', () => {
  it('a minute or more at one tempo: endurance; up and down again: where measures leave and return', () => {
    const long = modelTake({ phrase: PHRASE, bpm: 84, seed: 3, cycles: 24 }).take;
    expect(courseOf({ take: long, report: gradeTake(long) })).toEqual([
      { of: 'endurance', words: 'The end is like the beginning.' },
    ]);
    const short = modelTake({ phrase: PHRASE, bpm: 84, seed: 3, cycles: 8 }).take;
    expect(courseOf({ take: short, report: gradeTake(short) })).toEqual([]);
  });
});
