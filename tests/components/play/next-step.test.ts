import { describe, expect, it } from 'vitest';
import { nextStep } from '../../../src/components/play/next-step';
import type { MidiStatus } from '../../../src/midi/types';
import { noStrikes } from '../../../src/state/struck-hands';
import type { RawHit } from '../../../src/stroke';

// The order in which a kit is brought up: cable, port, right hand, left hand (common practice, no source).

const PAD = { id: 'Pad', name: 'Pad', kind: 'midi' } as const;
const on: MidiStatus = { kind: 'on', inputs: [{ name: 'Pad', connected: true }] } as unknown as MidiStatus;
const hit: RawHit = { atMs: 0, note: 38, velocity: 90, channel: 10, port: 'Pad' };
const cold = {
  hasPhrase: true,
  phraseError: '',
  midi: { kind: 'off' } as MidiStatus,
  inputs: [],
  chosenInput: '',
  strikes: noStrikes,
};

describe('the next step before a take', () => {
  it('is the cable before any strike, with the button that connects', () => {
    expect(nextStep(cold)).toMatchObject({ says: 'Plug in your kit or pad.', ask: 'Connect MIDI' });
    // A port that was chosen another day hears nothing before MIDI is on.
    expect(nextStep({ ...cold, chosenInput: 'Pad', inputs: [PAD] })?.says).toBe('Plug in your kit or pad.');
    expect(nextStep({ ...cold, midi: { kind: 'failed', reason: 'refused' } })).toMatchObject({
      says: 'MIDI was not allowed on this page.',
      ask: 'Ask again',
    });
  });

  it('is the input where a port is open and none is chosen, then the right hand, then the left, then none', () => {
    const open = { ...cold, midi: on, inputs: [PAD] };
    expect(nextStep(open)?.says).toBe('Choose your input.');
    const chosen = { ...open, chosenInput: 'Pad' };
    expect(nextStep(chosen)).toMatchObject({ says: 'Strike once with your right hand.', ask: null });
    const right = { ...noStrikes, first: hit };
    expect(nextStep({ ...chosen, strikes: right })?.says).toBe('Now once with your left hand.');
    expect(nextStep({ ...chosen, strikes: { ...right, second: hit } })).toBeUndefined();
    expect(nextStep({ ...chosen, strikes: null })).toBeUndefined();
  });

  it('is none for a model player’s take, and the phrase before all else', () => {
    const take = { id: 'take:steady', name: 'A steady take', kind: 'take' } as const;
    expect(nextStep({ ...cold, inputs: [take], chosenInput: 'take:steady', strikes: null })).toBeUndefined();
    const wrong = 'line 1, column 8 must be a hand';
    expect(nextStep({ ...cold, phraseError: wrong })).toMatchObject({
      about: 'phrase',
      todo: wrong,
      ask: null,
    });
    expect(nextStep({ ...cold, hasPhrase: false })?.says).toBe('Choose a phrase.');
  });
});
