import { interval, map, merge } from 'rxjs';
import type { MidiDoor } from '../midi/types';
import { handsFree, handsFreeAtRest, otherBpm, type HandsFreeEvent } from '../take/hands-free';
import { rigInUse, takeAsInput } from '../state/reducer';
import { startIsPlayed } from '../take/voiced-rig';
import type { Phrase } from '../exercises/types';
import type { Rig } from '../sessions/types';
import type { Desk } from './page-effects';

const TICK_MS = 100;

/** What a strike on the start surface may do. */
interface HandsFreeActions {
  start(): void;
  stop(): void;
}

/**
 * Starts and stops takes from the rig's start surface, on Play and on Review after a take.
 */
export function handsFreeDesk({ sitting, say }: Desk, door: MidiDoor, actions: HandsFreeActions): void {
  let machine: {
    readonly rig: Rig;
    readonly phrase: Phrase;
    readonly step: ReturnType<typeof handsFree>;
  } | null = null;
  let state = handsFreeAtRest;
  let wasRunning = false;

  function hear(event: HandsFreeEvent): void {
    const now = sitting();
    const rig = rigInUse(now);
    if (rig?.start === undefined || takeAsInput(now) !== undefined || now.tapOnPad) {
      machine = null;
      return;
    }
    if (machine?.rig !== rig || machine.phrase !== now.phrase) {
      const step = handsFree(rig, { alsoPlayed: startIsPlayed(rig, now.phrase) });
      if (machine === null) state = handsFreeAtRest;
      machine = { rig, phrase: now.phrase, step };
    }
    const isRunning = now.running !== null;
    const atMs = event.kind === 'hit' ? event.hit.atMs : event.atMs;
    if (isRunning !== wasRunning) {
      wasRunning = isRunning;
      state = machine.step(state, { kind: isRunning ? 'started' : 'ended', atMs });
    }
    const isThere = now.screen === 'play' || now.screen === 'review';
    if (event.kind === 'hit' && !isThere) return;
    state = machine.step(state, event);
    if (state.command === null || !isThere) return;
    switch (state.command) {
      case 'stop':
        actions.stop();
        break;
      case 'slower':
      case 'faster':
        say({ kind: 'tempo', bpm: otherBpm(now.bpm, state.command) });
        actions.start();
        break;
      case 'start':
      case 'again':
        // On Review one strike does what its one button does: the remedy, or the phrase once more.
        if (now.screen === 'review') say({ kind: 'next step' });
        actions.start();
    }
  }

  merge(
    door.hits$.pipe(map((hit): HandsFreeEvent => ({ kind: 'hit', hit }))),
    interval(TICK_MS).pipe(map((): HandsFreeEvent => ({ kind: 'tick', atMs: performance.now() }))),
  ).subscribe(hear);
}
