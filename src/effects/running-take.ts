import {
  combineLatest,
  distinctUntilChanged,
  filter,
  interval,
  map,
  merge,
  share,
  startWith,
  Subject,
  take,
  type Observable,
  type Subscription,
} from 'rxjs';
import { calledClick } from '../click/called-click';
import { kitPlayer, type HearPlayer } from '../click/hear-player';
import { midiClick, type SendNote } from '../click/midi-click';
import { bareBars } from '../exercises/click-plan';
import type { Click } from '../click/types';
import type { AudioClick } from '../click/audio-click';
import { replay } from '../midi/replay';
import type { MidiDoor } from '../midi/types';
import { runTake, type Run, type TakePlan } from '../take/run-take';
import type { TakeEvent } from '../sessions/take-events';
import { barsBegun, positionAt, samePosition } from '../take/position';
import { silentFor } from '../take/silence';
import {
  NO_CLICK,
  planInUse,
  planOf,
  portsCounted,
  rigInUse,
  SEEN_CLICK,
  takeAsInput,
} from '../state/reducer';
import type { Take } from '../sessions/types';
import type { Ms } from '../units';
import type { Desk } from './page-effects';
import type { RoomWatcher } from './watcher';

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
/** Half a frame: the beat line is not seen later than it was. */
const POSITION_MS = 8;
const FEWEST_HITS = 2;
const STRAIGHT = 0.5;
const nowMs = (): number => performance.now();

/** The computer's own sound: the click, and what sounds the bars to listen to. */
interface OwnSound {
  readonly click: AudioClick;
  readonly caller: HearPlayer;
}

/** The world a take is played in. */
interface PlayingWorld {
  readonly door: MidiDoor;
  readonly sound: OwnSound;
  readonly room: RoomWatcher;
  /** Whether the take to come is the day's first. */
  readonly cold: () => boolean;
  /** Called when a take has come to its end by itself. */
  readonly onOver: () => void;
}

// eslint-disable-next-line max-lines-per-function -- one running take: its parts are begun and ended together
export function playing(desk: Desk, { door, sound, room, cold, onOver }: PlayingWorld): Playing {
  const { sitting, say } = desk;
  let current: {
    readonly run: Run;
    readonly click: Click;
    readonly streams: Subscription;
    readonly openEnded: boolean;
  } | null = null;

  /** A time as the running take's grid has it: without a click by what the strokes have told so far. */
  const gridTimeIn =
    (run: Run) =>
    (atMs: Ms): Ms =>
      run.gridTime(atMs, sitting().live);

  function clickOf({ phrase, tempo }: TakePlan, output: string): Click {
    const send: SendNote = (...note) => door.send(output, ...note);
    if (output === SEEN_CLICK || output === NO_CLICK)
      return calledClick(seenClick, sound.caller, phrase, tempo);
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
    const ports = portsCounted(now);
    const time$ = interval(TICK_MS).pipe(map(nowMs), share());
    const { click: clickPlan, lead, silenceBars, length } = planInUse(now);
    const plan = planOf(now, rig, {
      id: crypto.randomUUID(),
      recordedAt: new Date().toISOString(),
      cold: source === undefined && cold(),
    });
    const run = begun(plan, {
      nowMs,
      lead,
      hitsFor: (downbeatMs) =>
        source === undefined
          ? door.hits$.pipe(filter((hit) => ports.includes(hit.port)))
          : replay(source, downbeatMs, { nowMs }),
      ticks$: time$,
      store: desk.store(),
      onTrouble: desk.trouble,
    });
    if (run === undefined) return;
    const click = clickOf(plan, now.output);
    current = { run, click, streams: shown(run), openEnded: length.kind === 'open' };
    const gridTime = gridTimeIn(run);
    const gridTime$ = time$.pipe(map(gridTime));
    current.streams.add(gridTime$.pipe(filter((time) => time > run.endMs)).subscribe(onOver));
    if (silenceBars !== null && source === undefined) {
      current.streams.add(silences(run, silenceBars, gridTime$, gridTime).subscribe(onOver));
    }
    // Without a click no bar is bare: none of them sounds.
    const bare = bareBars(
      run.downbeatMs === null ? null : clickPlan.bare,
      run.grid.bars.map(({ role }) => role),
    );
    say({ kind: 'started', running: { grid: run.grid, takeId: run.takeId, bare } });
    current.streams.add(room.watch(run, rig, source === undefined ? ports : [], onOver));
    window.scrollTo(0, 0);
    if (run.downbeatMs === null) return;
    click.start(run.grid, run.downbeatMs, { plan: clickPlan, lead, swing: now.phrase.swing ?? STRAIGHT });
  }

  /** Undefined where it can't be played so; why is said. */
  function begun(...how: Parameters<typeof runTake>): Run | undefined {
    try {
      return runTake(...how);
    } catch (error) {
      desk.trouble(error);
      return undefined;
    }
  }

  function shown(run: Run): Subscription {
    const struck$ = new Subject<void>();
    // The first stroke of a bar shows in its bar: where we are is asked again with every stroke. In between a timer asks: a
    // loop of frames would have the page painted sixty times a second for a beat that comes twice.
    const streams = run.live$.subscribe((live) => {
      struck$.next();
      say({ kind: 'live', live });
    });
    const here$ = merge(interval(POSITION_MS), struck$).pipe(
      map(() => positionAt(run.grid, gridTimeIn(run)(nowMs()), run.count)),
      distinctUntilChanged(samePosition),
    );
    streams.add(here$.subscribe((position) => say({ kind: 'position', position })));
    return streams;
  }

  async function stop(): Promise<Take | undefined> {
    if (current === null) return undefined;
    const { run, click, streams, openEnded } = current;
    const reachedMs = gridTimeIn(run)(nowMs());
    current = null;
    click.stop();
    streams.unsubscribe();
    const played = await run.finish(openEnded ? barsBegun(run.grid, reachedMs) : undefined);
    const isTake = played.hits.length >= FEWEST_HITS;
    const message = isTake ? '' : 'No strokes came, so there is no take. Is the right input chosen?';
    say({ kind: 'ended', message });
    return isTake ? played : undefined;
  }

  return { isRunning: () => current !== null, note: (event) => current?.run.note(event), start, stop };
}

/** A click that is only seen: the screen shows it. */
const seenClick: Click = { start: () => undefined, stop: () => undefined };

/** Tells once when a take has been silent for a number of bars. */
function silences(
  run: Run,
  bars: number,
  gridTime$: Observable<Ms>,
  gridTime: (atMs: Ms) => Ms,
): Observable<Ms> {
  const last$ = run.hits$.pipe(
    map((hit): Ms | null => gridTime(hit.atMs)),
    startWith(null),
  );
  return combineLatest([last$, gridTime$]).pipe(
    filter(([lastMs, time]) => silentFor(run.grid, bars, lastMs, time)),
    map(([, time]) => time),
    take(1),
  );
}
