import {
  animationFrameScheduler,
  distinctUntilChanged,
  filter,
  interval,
  map,
  merge,
  share,
  Subject,
  type Subscription,
} from 'rxjs';
import { calledClick } from '../click/called-click';
import { kitPlayer, type HearPlayer } from '../click/hear-player';
import { midiClick, type SendNote } from '../click/midi-click';
import type { Click } from '../click/types';
import type { AudioClick } from '../click/audio-click';
import { replay } from '../midi/replay';
import type { MidiDoor } from '../midi/types';
import { positionAt, samePosition } from '../practice/position';
import { runTake, type Run, type TakePlan } from '../practice/run-take';
import { planOf, portCounts, rigInUse, takeAsInput } from '../practice/sitting';
import type { TakeEvent } from '../sessions/take-events';
import type { Take } from '../sessions/types';
import type { Desk } from './desk';
import type { RoomWatcher } from './room';

/** The take that is running, if one is. */
export interface Playing {
  readonly isRunning: () => boolean;
  /** Begins a take of what is on the desk, where all that it needs is there. */
  start(): void;
  /** Writes into it what happened beside the strokes; nothing where none is running. */
  note(event: TakeEvent): void;
  /** Ends it: kept and given, or undefined where nothing was running or struck. */
  stop(): Promise<Take | undefined>;
}

const TICK_MS = 50;
const FEWEST_HITS = 2;
const nowMs = (): number => performance.now();

/** The computer's own sound: the click, and what sounds the bars to listen to. */
export interface OwnSound {
  readonly click: AudioClick;
  readonly caller: HearPlayer;
}

/** @param onOver called when a take has come to its end by itself */
export function playing(
  desk: Desk,
  door: MidiDoor,
  sound: OwnSound,
  room: RoomWatcher,
  onOver: () => void,
): Playing {
  const { sitting, say } = desk;
  let current: { readonly run: Run; readonly click: Click; readonly streams: Subscription } | null = null;

  function clickOf({ phrase, tempo }: TakePlan, output: string): Click {
    const send: SendNote = (...note) => door.send(output, ...note);
    return output === ''
      ? calledClick(sound.click, sound.caller, phrase, tempo)
      : calledClick(midiClick(send), kitPlayer(send), phrase, tempo);
  }

  function start(): void {
    const now = sitting();
    const rig = rigInUse(now);
    if (current !== null || rig === null) return;
    void sound.click.wake();
    const source = takeAsInput(now);
    const counts = portCounts(now);
    const time$ = interval(TICK_MS).pipe(map(nowMs), share());
    const plan = planOf(now, rig, { id: crypto.randomUUID(), recordedAt: new Date().toISOString() });
    const run = runTake(plan, {
      nowMs,
      hitsFor: (downbeatMs) =>
        source === undefined
          ? door.hits$.pipe(filter((hit) => counts(hit.port)))
          : replay(source, downbeatMs, { nowMs }),
      ticks$: time$,
      store: desk.store(),
      onTrouble: desk.trouble,
    });
    const click = clickOf(plan, now.output);
    current = { run, click, streams: shown(run) };
    current.streams.add(time$.pipe(filter((time) => time > run.endMs)).subscribe(onOver));
    say({ kind: 'started', running: { grid: run.grid, takeId: run.takeId } });
    current.streams.add(room.watch(run, rig, source === undefined ? now.input : '', onOver));
    window.scrollTo(0, 0);
    click.start(run.grid, run.downbeatMs);
  }

  function shown(run: Run): Subscription {
    const struck$ = new Subject<void>();
    // The first stroke of a bar shows in its bar: where we are is asked again with every stroke, not only every frame.
    const streams = run.live$.subscribe((live) => {
      struck$.next();
      say({ kind: 'live', live });
    });
    const here$ = merge(interval(0, animationFrameScheduler), struck$).pipe(
      map(() => positionAt(run.grid, nowMs())),
      distinctUntilChanged(samePosition),
    );
    streams.add(here$.subscribe((position) => say({ kind: 'position', position })));
    return streams;
  }

  async function stop(): Promise<Take | undefined> {
    if (current === null) return undefined;
    const { run, click, streams } = current;
    current = null;
    click.stop();
    streams.unsubscribe();
    const take = await run.finish();
    const isTake = take.hits.length >= FEWEST_HITS;
    const message = isTake ? '' : 'No strokes came, so there is no take. Is the right input chosen?';
    say({ kind: 'ended', message });
    return isTake ? take : undefined;
  }

  return { isRunning: () => current !== null, note: (event) => current?.run.note(event), start, stop };
}
