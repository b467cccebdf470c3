import { interval, map } from 'rxjs';
import type { MidiGateway } from '../midi/types';
import { handsFree, handsFreeAtRest, otherBpm, type HandsFreeEvent } from '../take/hands-free';
import { startIsPlayed } from '../take/voiced-rig';
import type { Phrase } from '../exercises/types';
import type { Rig } from '../sessions/types';
import type { Effects } from '../state/dispatcher';
import { rigInUse, takeAsInput } from '../state/selectors/input';
import type { State } from '../state/state';
import type { Bpm } from '../units';
import type { Context } from './context';

const TICK_MS = 100;

/** What strikes are followed by: made anew where rig or phrase are others. */
interface Following {
  readonly rig: Rig;
  readonly phrase: Phrase;
  readonly step: ReturnType<typeof handsFree>;
}

/** Starts and stops takes from the rig's start surface, on Play and on Review after a take. */
export function handsFreeEffects({ dispatch }: Context, midi: MidiGateway) {
  let following: Following | null = null;
  let strikes = handsFreeAtRest;
  let isRunning = false;
  let screen: State['screen'] = 'today';
  let bpm: Bpm = 0;

  function follow(state: State): void {
    const rig = rigInUse(state);
    if (rig?.start === undefined || takeAsInput(state) !== undefined || state.tapOnPad) {
      following = null;
      return;
    }
    const { phrase } = state;
    if (following?.rig === rig && following.phrase === phrase) return;
    if (following === null) strikes = handsFreeAtRest;
    following = { rig, phrase, step: handsFree(rig, { alsoPlayed: startIsPlayed(rig, phrase) }) };
  }

  function next(event: HandsFreeEvent): void {
    if (following === null) return;
    const isThere = screen === 'play' || screen === 'review';
    if (event.kind === 'hit' && !isThere) return;
    strikes = following.step(strikes, event);
    if (strikes.command !== null && isThere) command(strikes.command);
  }

  const isOn = (one: State['screen']): boolean => screen === one;

  function command(asked: NonNullable<typeof strikes.command>): void {
    switch (asked) {
      case 'stop':
        dispatch({ kind: 'stop' });
        return;
      case 'slower':
      case 'faster':
        dispatch({ kind: 'tempo', bpm: otherBpm(bpm, asked) });
        break;
      case 'start':
      case 'again':
        // On Review one strike does what its one button does: the remedy, the phrase once more, or a step of Rig.
        if (screen === 'review') dispatch({ kind: 'next step' });
    }
    if (isOn('rig')) return;
    if (!isOn('play')) dispatch({ kind: 'go', screen: 'play' });
    dispatch({ kind: 'start' });
  }

  midi.hits$.subscribe((hit) => next({ kind: 'hit', hit }));
  interval(TICK_MS)
    .pipe(map((): HandsFreeEvent => ({ kind: 'tick', atMs: performance.now() })))
    .subscribe(next);

  return {
    changed(state) {
      ({ screen, bpm } = state);
      follow(state);
      const runs = following !== null && state.running !== null;
      if (runs === isRunning) return;
      isRunning = runs;
      next({ kind: runs ? 'started' : 'ended', atMs: performance.now() });
    },
  } satisfies Effects;
}
