import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { calledClick } from '../../src/click/called-click';
import { kitPlayer } from '../../src/click/hear-player';
import { midiClick, type SendNote } from '../../src/click/midi-click';
import { gridOf } from '../../src/exercises/grid';
import type { Phrase } from '../../src/exercises/types';
import { voiced } from '../../src/exercises/voicings';

// At 120 bpm a beat lasts 500 ms: bars of two beats last a second.
const phrase: Phrase = {
  title: 'call and response',
  beatsPerBar: 2,
  partialsPerBeat: 2,
  cycles: 2,
  bars: [
    { variation: 'one', sticking: 'Rl rL', role: 'listen' },
    { variation: 'one', sticking: 'Rl rL' },
  ],
};
const TEMPO = { bpm: 120 };
const DOWNBEAT_MS = 2000;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'performance'], now: 0 });
});
afterEach(() => {
  vi.useRealTimers();
});

/** What is sent in eight seconds, as notes and times; the click's side stick (37) apart. */
function sent(played: Phrase): { click: number[]; calls: [number, number][] } {
  const notes: [number, number][] = [];
  const send: SendNote = (_, note, __, atMs) => notes.push([note, atMs]);
  const click = calledClick(midiClick(send), kitPlayer(send), played, TEMPO);
  click.start(gridOf(played, TEMPO, DOWNBEAT_MS), DOWNBEAT_MS);
  vi.advanceTimersByTime(8000);
  click.stop();
  return {
    click: notes.filter(([note]) => note === 37).map(([, atMs]) => atMs),
    calls: notes.filter(([note]) => note !== 37),
  };
}

describe('a click with a call', () => {
  it('sounds each bar to listen to on the grid, every cycle, and leaves the answer to the player', () => {
    const { calls, click } = sent(phrase);
    expect(calls.map(([, atMs]) => atMs)).toEqual([2000, 2250, 2500, 2750, 4000, 4250, 4500, 4750]);
    expect(click.filter((atMs) => atMs >= DOWNBEAT_MS)).toEqual([
      2000, 2500, 3000, 3500, 4000, 4500, 5000, 5500,
    ]);
  });

  // General MIDI level 1 percussion: snare 38, floor tom (high) 43, high tom 50.
  it('sounds the call on the surfaces it is voiced to', () => {
    const { calls } = sent({ ...voiced(phrase, 'accents to toms'), cycles: 1 });
    expect(calls.map(([note]) => note)).toEqual([43, 38, 38, 50]);
  });

  it('is the click alone where nothing is to be listened to, and in bars to count aloud', () => {
    const [call, answer] = phrase.bars;
    expect(sent({ ...phrase, bars: [{ ...call, role: 'say' }, answer] }).calls).toEqual([]);
    expect(sent({ ...phrase, bars: [answer] }).calls).toEqual([]);
  });

  it('is silent when stopped', () => {
    const notes: number[] = [];
    const send: SendNote = (_, note) => notes.push(note);
    const click = calledClick(midiClick(send), kitPlayer(send), phrase, TEMPO);
    click.start(gridOf(phrase, TEMPO, DOWNBEAT_MS), DOWNBEAT_MS);
    vi.advanceTimersByTime(1000);
    click.stop();
    const before = notes.length;
    vi.advanceTimersByTime(8000);
    expect(notes.length).toBe(before);
    expect(vi.getTimerCount()).toBe(0);
  });
});
