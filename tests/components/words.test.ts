import { describe, expect, it } from 'vitest';
import { marginX } from '../../src/components/review/margin-scale';
import { midiWords, strikeWords } from '../../src/components/shared/midi-words';
import { signed } from '../../src/components/shared/numbers';
import { lengthWords } from '../../src/components/phrase/phrase-words';
import { positionWords, shownAt } from '../../src/components/shared/position-words';
import { gridOf } from '../../src/exercises/grid';
import { phraseNamed } from '../../src/exercises/phrase';
import type { MidiStatus } from '../../src/midi/types';
import type { RawHit } from '../../src/stroke';

const phrase = phraseNamed('Single paradiddle, accent walk');
const { bars } = gridOf(phrase, { bpm: 84 }, 0, phrase.bars.length);

describe('the length of a phrase', () => {
  it('four bars of four, eight times at 84 bpm, last a minute and a half', () => {
    // 128 beats of 60/84 s are 91.4 s.
    expect(lengthWords(bars, 8, 84)).toBe('4 bars, 8 times round: 1 min 31 s at 84 bpm');
  });

  it('once at 120 bpm lasts 8 s', () => {
    expect(lengthWords(bars, 1, 120)).toBe('4 bars, once round: 8 s at 120 bpm');
  });
});

describe('where the player is', () => {
  it('names bar, cycle and what comes next', () => {
    const shown = shownAt({ phase: 'playing', bar: 23, barInCycle: 3, cycle: 5, beat: 2 }, 5);
    expect(positionWords(shown, bars, 8)).toBe('bar 4 of 4, cycle 6 of 8 · next: accent on 1');
  });

  it('drops the total where the player goes on past it', () => {
    expect(positionWords({ barInCycle: 0, cycle: 8, beat: 0 }, bars, 8)).toBe(
      'bar 1 of 4, cycle 9 · next: accent on 2',
    );
  });

  it('shows the first bar in the count-in, with the beat that is on', () => {
    expect(shownAt({ phase: 'count-in', beat: 2, beats: 4 }, 0)).toEqual({
      barInCycle: 0,
      cycle: 0,
      beat: 2,
    });
  });
});

describe('what the page says of MIDI', () => {
  const failed = (['unsupported', 'insecure', 'refused', 'busy'] as const).map((reason): MidiStatus => ({
    kind: 'failed',
    reason,
  }));
  const noPort: MidiStatus = { kind: 'on', inputs: [], outputs: [] };

  it('each failure says something of its own, what to do, and that the bundled takes still work', () => {
    const all = [...failed, noPort].map(midiWords);
    expect(new Set(all.map((words) => words.says)).size).toBe(5);
    for (const words of all)
      expect(words.todo).toMatch(/^(Open|Allow|Close|Plug).*The bundled takes work without it/);
  });

  it('asking again is offered only where it can help', () => {
    expect([...failed, noPort].map((status) => midiWords(status).ask !== null)).toEqual([
      false,
      false,
      true,
      true,
      true,
    ]);
  });

  it('names the kit that is there', () => {
    const inputs = [
      { id: '1', name: 'Pad', connected: true },
      { id: '2', name: 'Gone', connected: false },
    ];
    expect(midiWords({ kind: 'on', inputs, outputs: [] }).says).toBe('MIDI is on: Pad.');
  });
});

describe('the two strikes', () => {
  const hit = (note: number): RawHit => ({ atMs: 0, port: 'Pad', channel: 10, note, velocity: 90 });

  it('are asked for hand by hand', () => {
    expect(strikeWords({ first: null, second: null, firstHand: 'R' }).says).toBe(
      'Strike once with your right hand.',
    );
    expect(strikeWords({ first: hit(38), second: null, firstHand: 'R' }).says).toBe(
      'Now once with your left hand.',
    );
  });

  it('on one note make one surface, on two a surface a hand', () => {
    expect(strikeWords({ first: hit(38), second: hit(38), firstHand: 'R' })).toEqual({
      says: 'One surface (note 38): hands are taken from the sticking.',
      done: true,
    });
    expect(strikeWords({ first: hit(38), second: hit(48), firstHand: 'R' }).says).toBe(
      'A surface a hand: right note 38, left note 48.',
    );
    expect(strikeWords({ first: hit(38), second: hit(48), firstHand: 'L' }).says).toBe(
      'A surface a hand: right note 48, left note 38.',
    );
  });
});

describe('numbers and margins on the page', () => {
  it('a sign is a real minus or plus, and nought has none', () => {
    expect([signed(-2.34, 1), signed(2.34, 1), signed(-0.04, 1)]).toEqual(['−2.3', '+2.3', '0.0']);
  });

  it('a margin of 0 stands in the middle, not yet and ideal as far to either side, worse ones at the edge', () => {
    expect([marginX(-1), marginX(0), marginX(1)].map((x) => Number(x.toFixed(3)))).toEqual([0.15, 0.5, 0.85]);
    expect(marginX(-9)).toBe(marginX(-1.4));
  });
});
