import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import type { Phrase } from '../../src/exercises/types';
import { gradeTake } from '../../src/take/grade-take';
import type { Action } from '../../src/state/actions';
import { firstState, type State } from '../../src/state/state';
import { guessesFrom, isRight } from '../../src/state/guess-first';
import { nextStep, remedyFor } from '../../src/state/selectors/review';
import { reduce } from '../../src/state/reducer';
import { modelTake } from '../../src/model/model-player';
import type { Fault } from '../../src/model/faults';
import type { Reviewed } from '../../src/take/reviewed';

const walk = phraseNamed('Single paradiddle, accent walk');
const leak: Fault = { kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' };

function reviewed(id: string, faults: readonly Fault[], phrase: Phrase = walk, cycles = 8): Reviewed {
  const { take } = modelTake({ phrase, bpm: 84, seed: 9, cycles, id, timingSdMs: 4, levelSdDb: 0.6, faults });
  return { take, report: gradeTake(take) };
}

const leaky = reviewed('leaky', [leak]);
const steady = reviewed('steady', []);

const after = (state: State, ...said: readonly Action[]): State => said.reduce(reduce, state);
const opened = ({ take, report }: Reviewed): Action => ({ kind: 'reviewed', take, report });

describe('the remedy as one button', () => {
  it('is proposed where something is out: the bar that leaks, slower than it was played', () => {
    const remedy = remedyFor(leaky);
    expect(remedy?.evidence.variation).toBe('accent on 4');
    expect(remedy?.evidence.measure).toBe('leakBefore');
    expect(remedy?.bpm).toBeLessThan(84);
  });

  it('loads its phrase and tempo in Play, and says when to stop', () => {
    const remedy = remedyFor(leaky);
    const state = after(firstState, opened(leaky), { kind: 'next step' });
    expect(state.screen).toBe('play');
    expect(state.phrase.bars).toEqual(remedy?.phrase.bars);
    expect(state.bpm).toBe(remedy?.bpm);
    expect(state.message).toBe(remedy?.stop.words);
  });

  it('is asked for again until two takes running come to its stop rule, then leads back to the phrase', () => {
    const phrase = remedyFor(leaky)?.phrase ?? walk;
    const take = (id: string, faults: readonly Fault[]) => reviewed(id, faults, phrase, 6);
    const stepKind = (state: State) => nextStep(state.reviewing, state.reviewed ?? leaky).kind;

    const missed = after(firstState, opened(leaky), { kind: 'next step' }, opened(take('1', [leak])));
    expect(missed.reviewing.treatment?.reached).toBe(0);
    expect(stepKind(missed)).toBe('remedy again');

    const once = after(missed, { kind: 'next step' }, opened(take('2', [])));
    expect(once.reviewing.treatment?.reached).toBe(1);
    expect(stepKind(once)).toBe('remedy again');

    // Opening the same take again counts for nothing.
    expect(after(once, opened(take('2', []))).reviewing.treatment?.reached).toBe(1);

    const twice = after(once, { kind: 'next step' }, opened(take('3', [])));
    expect(stepKind(twice)).toBe('back');
    const back = after(twice, { kind: 'next step' });
    expect(back.phrase.title).toBe('Single paradiddle, accent walk');
    expect(back.bpm).toBe(84);
    expect(back.reviewing.treatment).toBeNull();
  });

  it('is the phrase once more where all holds', () => {
    const state = after(firstState, opened(steady));
    expect(nextStep(state.reviewing, steady).kind).toBe('again');
    expect(after(state, { kind: 'next step' }).phrase.title).toBe('Single paradiddle, accent walk');
  });
});

describe('the rig first', () => {
  const echo: Fault = { kind: 'echo', share: 0.08, ratio: 0.2 };
  const echoing = reviewed('echoing', [echo, leak]);
  const withRig: State = { ...firstState, rig: echoing.take.rig };

  it('its step of Rig is the one button, begun at once', () => {
    const state = after(withRig, opened(echoing));
    expect(nextStep(state.reviewing, echoing)).toMatchObject({ kind: 'rig', rig: { step: 'false notes' } });
    const stepped = after(state, { kind: 'next step' });
    expect(stepped.screen).toBe('rig');
    expect(stepped.rigging.task.kind).toBe('false notes');
  });

  it('what is to be played is there beside it', () => {
    const state = after(withRig, opened(echoing), { kind: 'next step', then: true });
    expect(state.screen).toBe('play');
    expect(state.reviewing.treatment?.remedy.evidence.variation).toBe('accent on 4');
    const alone = reviewed('echoing alone', [echo]);
    expect(nextStep(firstState.reviewing, alone)).toMatchObject({ kind: 'rig', then: null });
  });

  it('without a rig the page asks for the first strike', () => {
    const state = after(firstState, opened(echoing), { kind: 'next step' });
    expect([state.screen, state.rigging.task.kind]).toEqual(['rig', 'rest']);
  });
});

describe('guess first', () => {
  const on: Action = { kind: 'guess first', on: true };
  const guess = (choice: string | null): Action => ({ kind: 'guess', choice });

  it('is off until it is switched on', () => {
    expect(after(firstState, opened(leaky)).reviewing.guess.kind).toBe('none');
  });

  it('asks once a take, and counts what was heard', () => {
    const asked = after(firstState, on, opened(leaky));
    expect(asked.reviewing.guess.kind).toBe('asked');
    const made = after(asked, guess('accent on 4'));
    expect(made.reviewing.guess).toEqual({ kind: 'made', choice: 'accent on 4', right: true });
    expect(made.reviewing.guesses).toEqual({ on: true, heard: 1, of: 1 });
    const wrong = after(made, opened(steady), guess('accent on 2'));
    expect(wrong.reviewing.guesses).toMatchObject({ of: 2 });
    expect(after(wrong, opened(leaky)).reviewing.guess.kind).toBe('none');
  });

  it('counts nothing where it is skipped', () => {
    const skipped = after(firstState, on, opened(leaky), { kind: 'skip guess' });
    expect(skipped.reviewing.guess.kind).toBe('none');
    expect(skipped.reviewing.guesses).toEqual({ on: true, heard: 0, of: 0 });
  });

  it('is right with the weakest, and with "all hold" where all do', () => {
    expect(isRight(leaky.report, 'accent on 4')).toBe(true);
    expect(isRight(leaky.report, 'accent on 1')).toBe(false);
    expect(isRight(leaky.report, null)).toBe(false);
    expect(isRight(steady.report, null)).toBe(true);
  });

  it('reads what was kept, and nothing else', () => {
    expect(guessesFrom({ on: true, heard: 7, of: 10 })).toEqual({ on: true, heard: 7, of: 10 });
    expect(guessesFrom({ on: true, heard: 11, of: 10 })).toBeUndefined();
    expect(guessesFrom(undefined)).toBeUndefined();
  });
});
