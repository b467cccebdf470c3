import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import type { MidiStatus } from '../../src/midi/types';
import { modelTake } from '../../src/model/model-player';
import type { Action } from '../../src/state/actions';
import { figureShown } from '../../src/state/selectors/view';
import { firstState, type State } from '../../src/state/state';
import { planOf } from '../../src/state/selectors/run';
import { reduce } from '../../src/state/reducer';
import { rigInUse, strikesAsked } from '../../src/state/selectors/input';
import type { RawHit } from '../../src/stroke';

const after = (said: readonly Action[], from: State = firstState): State => said.reduce(reduce, from);
const on = (...names: readonly string[]): MidiStatus => ({
  kind: 'on',
  inputs: names.map((name) => ({ id: name, name, connected: true })),
  outputs: [],
});
const struck = (atMs: number, note = 38, port = 'Pad'): Action => {
  const hit: RawHit = { atMs, port, channel: 10, note, velocity: 90 };
  return { kind: 'struck', hit, newId: 'one' };
};

describe('the state', () => {
  it('begins with a phrase that can be played', () => {
    expect(firstState.phrase.bars).toHaveLength(4);
    expect(firstState.typedError).toBe('');
  });

  it('takes a typed phrase, and keeps the last good one while the text is wrong', () => {
    const good = after([{ kind: 'type phrase', text: 'Rlrr Lrll Rlrr Lrll' }]);
    expect(good.phrase.bars).toHaveLength(1);
    const wrong = reduce(good, { kind: 'type phrase', text: 'Rlrr Lrxl Rlrr Lrll' });
    expect(wrong.typedError).toMatch(/^line 1, column 8 must be/);
    expect(wrong.typed).toBe('Rlrr Lrxl Rlrr Lrll');
    expect(wrong.phrase).toBe(good.phrase);
  });

  it('refuses a tempo with its rule and keeps the one it had', () => {
    const wrong = after([{ kind: 'tempo', bpm: 0 }]);
    expect(wrong.problem).toBe('Tempo must be a tempo from 20 to 400 bpm, got 0');
    expect(wrong.bpm).toBe(firstState.bpm);
    expect(after([{ kind: 'tempo', bpm: 90 }], wrong).problem).toBe('');
  });

  it('takes a message away when it has stood its time, unless another stands there by now', () => {
    const shown = after([{ kind: 'message', message: 'Saved.' }]);
    expect(reduce(shown, { kind: 'message over', message: 'Saved.' }).message).toBe('');
    expect(reduce(shown, { kind: 'message over', message: 'Copied.' }).message).toBe('Saved.');
  });

  it('chooses the first port that is there', () => {
    expect(after([{ kind: 'midi', status: on('Pad', 'Keys') }]).input).toBe('Pad');
  });

  it('makes one surface of two strikes on one note, two of two notes', () => {
    const ready: Action[] = [
      { kind: 'midi', status: on('Pad') },
      { kind: 'go', screen: 'play' },
    ];
    const one = after([...ready, struck(0), struck(500)]);
    expect(one.rig?.surfaces.map(({ notes, hand }) => [notes, hand])).toEqual([[[38], null]]);
    const two = after([...ready, struck(0, 38), struck(500, 48)]);
    expect(two.rig?.surfaces.map(({ notes, hand }) => [notes, hand])).toEqual([
      [[38], 'R'],
      [[48], 'L'],
    ]);
  });

  it('counts a bounce of the first strike, or one on another port, as no second strike', () => {
    const one = after([
      { kind: 'midi', status: on('Pad') },
      { kind: 'go', screen: 'play' },
      struck(0),
      struck(60),
      struck(400, 38, 'Keys'),
    ]);
    expect(one.strikes.second).toBeNull();
    expect(one.rig).toBeNull();
  });

  it('strikes anew', () => {
    const both = after([
      { kind: 'midi', status: on('Pad') },
      { kind: 'go', screen: 'play' },
      struck(0),
      struck(500),
    ]);
    const anew = reduce(both, { kind: 'clear strikes' });
    expect(rigInUse(anew)).toBeNull();
    expect(strikesAsked(anew)).toEqual({ first: null, second: null, firstHand: 'R' });
  });

  it('asks for strikes again where the rig is of another port', () => {
    const both = after([
      { kind: 'midi', status: on('Pad') },
      { kind: 'go', screen: 'play' },
      struck(0),
      struck(500),
    ]);
    expect(rigInUse(both)).not.toBeNull();
    expect(rigInUse(reduce(both, { kind: 'input', input: 'Keys' }))).toBeNull();
  });

  it('says when the port goes in mid-take, and no more when it is back', () => {
    const { grid } = modelTake({ phrase: phraseNamed('Single paradiddle, accent walk'), bpm: 84, seed: 1 });
    const running = after([
      { kind: 'midi', status: on('Pad') },
      { kind: 'started', running: { grid, takeId: 'x', bare: [] } },
    ]);
    const gone = reduce(running, { kind: 'midi', status: on() });
    expect(gone.message).toBe('Pad is not connected. The take goes on; strokes count again when it is back.');
    expect(gone.running).not.toBeNull();
    expect(reduce(gone, { kind: 'midi', status: on('Pad') }).message).toBe('');
  });

  it('plays a bundled take as it is: its phrase, tempo and rig, and as a model player’s', () => {
    const { take } = modelTake({
      phrase: phraseNamed('Single paradiddle, rotations'),
      bpm: 70,
      seed: 2,
      surfaces: 2,
    });
    const bundled = { name: 'one', words: 'One', title: 'x', bpm: 70, sentence: '', take: null };
    const playing = after(
      [
        { kind: 'bundled take', name: 'one', take },
        { kind: 'input', input: 'take:one' },
      ],
      { ...firstState, bundled: [bundled] },
    );
    expect([playing.bpm, playing.phrase.title]).toEqual([70, 'Single paradiddle, rotations']);
    expect(strikesAsked(playing)).toBeNull();
    const rig = rigInUse(playing);
    expect(rig).toEqual(take.rig);
    const plan = planOf(playing, take.rig, { id: 'a', recordedAt: '2026-03-02T17:00:00.000Z' });
    expect([plan.source, plan.player]).toEqual(['model', 'Model player']);
    // Another tempo is not what it plays: the input goes back to the kit.
    expect(reduce(playing, { kind: 'tempo', bpm: 90 }).input).toBe('');
  });
});

describe('the one number', () => {
  const phrase = phraseNamed('Single paradiddle, accent walk');
  const { grid } = modelTake({ phrase, bpm: 84, seed: 1 });
  const pass = { cycle: 0, status: 'matched', levelDb: -12, deviationMs: 3, wrongHand: false } as const;
  const passes = grid.slots.map(() => [pass]);
  const live = {
    strokes: 16,
    offsetMs: 0,
    lateMs: 0,
    told: 'all' as const,
    passes,
    extras: [],
    contrastDb: 14,
    unmapped: 0,
  };
  const position = {
    phase: 'playing',
    bar: 0,
    barInCycle: 0,
    cycle: 0,
    beat: 0,
    beats: 4,
    bars: 4,
    cycles: 1,
  } as never;
  const played = after([
    { kind: 'started', running: { grid, takeId: 'x', bare: [] } },
    { kind: 'figure', figure: 'early or late', by: 'player' },
    { kind: 'live', live },
    { kind: 'position', position },
    { kind: 'ended', strokes: true },
  ]);

  it('stays as it was when the take ends', () => {
    expect(figureShown(played)?.value).toBe(3);
    expect(played.liveAtBeat?.contrastDb).toBe(14);
  });

  it('is no other figure’s: chosen after the take, another has no value until it is played', () => {
    expect(figureShown(reduce(played, { kind: 'figure', figure: 'scatter', by: 'player' }))).toBeNull();
  });

  it('is no other phrase’s', () => {
    const typed = reduce(played, { kind: 'type phrase', text: 'Rlrr Lrll Rlrr Lrll' });
    expect(figureShown(typed)).toBeNull();
    expect(typed.liveAtBeat).toBeNull();
  });
});
