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
import type { MidiGateway } from '../midi/types';
import type { EndedTake, RunningTakes } from '../take/recorder';
import { runTake, type Run, type TakePlan } from '../take/run-take';
import type { TakeEvent } from '../sessions/take-events';
import type { LiveState } from '../take/types';
import { barsBegun, positionAt, samePosition } from '../take/position';
import { silentFor } from '../take/silence';
import { NO_CLICK, SEEN_CLICK } from '../state/outputs';
import { planInUse, planOf } from '../state/selectors/run';
import { portsCounted, rigInUse, takeAsInput } from '../state/selectors/input';
import type { Ms } from '../units';
import { choiceError } from '../state/phrase-choice';
import type { Context } from './context';
import type { TakeWatcher } from './take-watcher';

/** The take that is running, if one is. */
export interface RunningTake {
  readonly isRunning: () => boolean;
  /** Begins a take of what is chosen, where all that it needs is there. */
  start(): void;
  /** Writes into it what happened beside the strokes; nothing where none is running. */
  note(event: TakeEvent): void;
  /** Ends it: given, and kept where that can be; undefined where nothing was running or struck. */
  stop(): Promise<EndedTake | undefined>;
}

/** A time as the running take's grid has it: without a click by what the strokes have told so far. */
type GridTime = (atMs: Ms) => Ms;

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
  readonly midi: MidiGateway;
  readonly sound: OwnSound;
  readonly watcher: TakeWatcher;
  /** Whether the take to come is the day's first. */
  readonly cold: () => boolean;
}

// eslint-disable-next-line max-lines-per-function -- one running take: its parts are begun and ended together
export function runningTake(context: Context, { midi, sound, watcher, cold }: PlayingWorld): RunningTake {
  const { state, dispatch } = context;
  /** A take that has come to its end by itself ends as by the player's wish. */
  const end = (): void => dispatch({ kind: 'stop' });
  let current: {
    readonly run: Run;
    readonly click: Click;
    readonly streams: Subscription;
    readonly gridTime: GridTime;
    readonly openEnded: boolean;
  } | null = null;

  function clickOf({ phrase, tempo }: TakePlan, output: string): Click {
    const send: SendNote = (...note) => midi.send(output, ...note);
    if (output === SEEN_CLICK || output === NO_CLICK)
      return calledClick(seenClick, sound.caller, phrase, tempo);
    return output === ''
      ? calledClick(sound.click, sound.caller, phrase, tempo)
      : calledClick(midiClick(send), kitPlayer(send), phrase, tempo);
  }

  /** A take that is begun before the library is open goes into it all the same. */
  const storeInUse: RunningTakes = {
    begin: (opening) => context.store().begin(opening),
    append: (...hits) => context.store().append(...hits),
    finish: (played) => context.store().finish(played),
    discard: (takeId) => context.store().discard(takeId),
  };

  function start(): void {
    const now = state();
    const rig = rigInUse(now);
    if (current !== null || rig === null || choiceError(now) !== '') return;
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
          ? midi.hits$.pipe(filter((hit) => ports.includes(hit.port)))
          : replay(source, downbeatMs, { nowMs }),
      ticks$: time$,
      store: storeInUse,
      onTrouble: context.trouble,
      onFailing: (failing) => dispatch({ kind: 'recording fails', why: failing?.message ?? '' }),
    });
    if (run === undefined) return;
    const click = clickOf(plan, now.output);
    const { streams, gridTime } = shown(run);
    current = { run, click, streams, gridTime, openEnded: length.kind === 'open' };
    const gridTime$ = time$.pipe(map(gridTime));
    streams.add(gridTime$.pipe(filter((time) => time > run.endMs)).subscribe(end));
    if (silenceBars !== null && source === undefined) {
      streams.add(silences(run, silenceBars, gridTime$, gridTime).subscribe(end));
    }
    // Without a click no bar is bare: none of them sounds.
    const bare = bareBars(
      run.downbeatMs === null ? null : clickPlan.bare,
      run.grid.bars.map(({ role }) => role),
    );
    dispatch({ kind: 'started', running: { grid: run.grid, takeId: run.takeId, bare } });
    streams.add(watcher.watch(run, rig, source === undefined ? ports : [], end));
    window.scrollTo(0, 0);
    if (run.downbeatMs === null) return;
    click.start(run.grid, run.downbeatMs, { plan: clickPlan, lead, swing: now.phrase.swing ?? STRAIGHT });
  }

  /** Undefined where it can't be played so; why is said. */
  function begun(...how: Parameters<typeof runTake>): Run | undefined {
    try {
      return runTake(...how);
    } catch (error) {
      context.trouble(error);
      return undefined;
    }
  }

  /** Shows it from now on, and tells what the strokes have told so far of the player's own time. */
  function shown(run: Run): { readonly streams: Subscription; readonly gridTime: GridTime } {
    const struck$ = new Subject<void>();
    let newest: LiveState | null = null;
    const gridTime: GridTime = (atMs) => run.gridTime(atMs, newest);
    // The first stroke of a bar shows in its bar: where we are is asked again with every stroke. In between a timer asks: a
    // loop of frames would have the page painted sixty times a second for a beat that comes twice.
    const streams = run.live$.subscribe((live) => {
      newest = live;
      struck$.next();
      dispatch({ kind: 'live', live });
    });
    const here$ = merge(interval(POSITION_MS), struck$).pipe(
      map(() => positionAt(run.grid, run.playedTime(nowMs(), newest), run.count)),
      distinctUntilChanged(samePosition),
    );
    streams.add(here$.subscribe((position) => dispatch({ kind: 'position', position })));
    return { streams, gridTime };
  }

  async function stop(): Promise<EndedTake | undefined> {
    if (current === null) return undefined;
    const { run, click, streams, gridTime, openEnded } = current;
    const reachedMs = gridTime(nowMs());
    current = null;
    click.stop();
    streams.unsubscribe();
    const ended = await run.finish(openEnded ? barsBegun(run.grid, reachedMs) : undefined);
    const isTake = ended.take.hits.length >= FEWEST_HITS;
    dispatch({ kind: 'ended', strokes: isTake });
    return isTake ? ended : undefined;
  }

  return { isRunning: () => current !== null, note: (event) => current?.run.note(event), start, stop };
}

/** A click that is only seen: the screen shows it. */
const seenClick: Click = { start: () => undefined, stop: () => undefined };

/** Tells once when a take has been silent for a number of bars. */
function silences(run: Run, bars: number, gridTime$: Observable<Ms>, gridTime: GridTime): Observable<Ms> {
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
