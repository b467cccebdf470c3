import { render } from 'lit';
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
import { bundledTakes, fetchBundled } from './bundled';
import { midiClick } from './click/midi-click';
import type { Click } from './click/types';
import { audioClick } from './click/audio-click';
import { page } from './components/page';
import type { EvenhandEvents } from './components/events';
import { InputError } from './errors';
import { replay } from './midi/replay';
import { midiAllowed, midiDoor } from './midi/web-midi';
import { gradeTake } from './practice/grade-take';
import { positionAt, samePosition } from './practice/position';
import { runTake, type Run } from './practice/run-take';
import {
  bundledNameOf,
  firstSitting,
  next,
  planOf,
  rigInUse,
  takeAsInput,
  type Said,
  type Sitting,
} from './practice/sitting';
import { openStore, type BrowserStore } from './sessions/browser-store';
import { memoryStore } from './sessions/memory-store';
import { phraseFileFrom, readPhraseFile, writePhraseFile, type PhraseFile } from './sessions/phrase-file';
import { readTake, rigFrom, writeTake } from './sessions/take';
import type { Take } from './sessions/types';

/** The composition root: it owns the streams, the sound and the store, and tells the sitting what they say. */
const root = document.body;
const door = midiDoor();
const sound = audioClick();
/** Until the browser's store is open, and where there is none: then takes last as long as the page. */
let store: BrowserStore = memoryStore();
let sitting: Sitting = { ...firstSitting, bundled: bundledTakes };

function say(said: Said): void {
  sitting = next(sitting, said);
  render(page(sitting), root);
}

/** Bad input becomes the problem line; anything else is a fault of ours and stays an error. */
function trouble(error: unknown): void {
  say({ kind: 'problem', problem: error instanceof Error ? error.message : String(error) });
  if (!(error instanceof InputError)) throw error;
}

/** Work that may fail, begun from a command. */
function attempt(work: () => Promise<void>): void {
  work().catch(trouble);
}

// A running take.

const TICK_MS = 50;
const nowMs = (): number => performance.now();
let run: { readonly run: Run; readonly click: Click; readonly streams: Subscription } | null = null;

function clickOf({ output }: Sitting): Click {
  return output === '' ? sound : midiClick((...note) => door.send(output, ...note));
}

function start(): void {
  const rig = rigInUse(sitting);
  if (run !== null || rig === null) return;
  void sound.wake();
  const source = takeAsInput(sitting);
  const plan = planOf(sitting, rig, { id: crypto.randomUUID(), recordedAt: new Date().toISOString() });
  const ended$ = new Subject<number>();
  const time$ = interval(TICK_MS).pipe(map(nowMs), share());
  const { input } = sitting;
  const begun = runTake(plan, {
    nowMs,
    hitsFor: (downbeatMs) =>
      source === undefined
        ? door.hits$.pipe(filter((hit) => hit.port === input))
        : replay(source, downbeatMs, { nowMs }),
    ticks$: merge(time$, ended$),
    store,
    onTrouble: trouble,
  });
  const click = clickOf(sitting);
  const here$ = new Subject<void>();
  // The first stroke of a bar shows in its bar: where we are is asked again with every stroke, not only every frame.
  const streams = begun.live$.subscribe((live) => {
    here$.next();
    say({ kind: 'live', live });
  });
  streams.add(
    interval(0, animationFrameScheduler)
      .pipe(
        map(() => positionAt(begun.grid, nowMs())),
        distinctUntilChanged(samePosition),
      )
      .subscribe((position) => say({ kind: 'position', position })),
  );
  streams.add(time$.pipe(filter((time) => time > begun.endMs)).subscribe(() => attempt(stop)));
  run = { run: begun, click, streams };
  say({ kind: 'started', running: { grid: begun.grid, takeId: begun.takeId } });
  window.scrollTo(0, 0);
  click.start(begun.grid, begun.downbeatMs);
}

/** Ends the running take, keeps it, grades it and opens it in Review. */
async function stop(): Promise<void> {
  if (run === null) return;
  const { run: ending, click, streams } = run;
  run = null;
  click.stop();
  streams.unsubscribe();
  const take = await ending.finish();
  if (take.hits.length < 2) {
    say({ kind: 'ended', message: 'No strokes came, so there is no take. Is the right input chosen?' });
    return;
  }
  say({ kind: 'ended', message: '' });
  await review(take);
}

/** Grades a take that is kept and opens it. */
async function review(take: Take): Promise<void> {
  await store.describe(take.id, sentenceFor(take));
  await listTakes();
  say({ kind: 'reviewed', take, report: gradeTake(take) });
}

async function listTakes(): Promise<void> {
  say({ kind: 'kept', kept: await store.list() });
}

// Takes from elsewhere.

async function bundled(name: string): Promise<Take> {
  const take = sitting.bundled.find((one) => one.name === name)?.take ?? (await fetchBundled(name));
  say({ kind: 'bundled', name, take });
  return take;
}

async function opened(id: string): Promise<Take | undefined> {
  const name = bundledNameOf(id);
  return name === undefined ? store.get(id) : bundled(name);
}

/** Files dropped or chosen: each is read, kept and, the last of them, opened. One bad file stops none of the others. */
async function takeFiles(files: readonly File[]): Promise<void> {
  const refused: string[] = [];
  for (const file of files) {
    try {
      await (file.name.endsWith('.phrase.json') ? takePhraseFile(file) : takeTakeFile(file));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      refused.push(`${file.name}: ${error.message}`);
    }
  }
  await listTakes();
  if (refused.length > 0) say({ kind: 'problem', problem: refused.join(' · ') });
}

async function takeTakeFile(file: File): Promise<void> {
  const take = readTake(await file.text());
  const report = gradeTake(take);
  await store.put(take);
  await store.describe(take.id, report.sentence);
  say({ kind: 'reviewed', take, report });
}

async function takePhraseFile(file: File): Promise<void> {
  const phrase = readPhraseFile(await file.text());
  await keepPhrases([phrase, ...otherPhrases(phrase.name)]);
  say({ kind: 'open phrase', file: phrase });
}

function download(take: Take): void {
  const stamp = take.recordedAt.slice(0, 16).replace(/[T:]/g, '-');
  saveFile(`${stamp}-${take.id.slice(0, 8)}.take.json`, writeTake(take));
}

function saveFile(name: string, json: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([json], { type: 'application/json' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

// Phrases of the player's own.

function phraseFile(name: string): PhraseFile {
  return {
    format: 'evenhand-phrase',
    version: 1,
    name,
    phrase: { ...sitting.phrase, title: name },
    bpm: sitting.bpm,
  };
}

const otherPhrases = (name: string): PhraseFile[] => sitting.saved.filter((file) => file.name !== name);

async function keepPhrases(saved: readonly PhraseFile[]): Promise<void> {
  await store.keep('phrases', saved);
  say({ kind: 'saved', saved });
}

/** Those that were kept; one that no longer reads is left where it is, and said. */
async function openPhrases(): Promise<void> {
  const kept = await store.kept('phrases');
  say({ kind: 'saved', saved: Array.isArray(kept) ? kept.map(phraseFileFrom) : [] });
}

/** A name as a file's: letters and figures stay, all else is a hyphen. */
const fileNameOf = (name: string): string =>
  name.replaceAll(/[^\p{L}\p{N}]+/gu, '-').replaceAll(/^-|-$/g, '') || 'phrase';

/** The open take, or the one of the list. */
async function takeOf(id: string): Promise<Take | undefined> {
  return sitting.reviewed?.take.id === id ? sitting.reviewed.take : opened(id);
}

// Commands of the page.

type Handler<Name extends keyof EvenhandEvents> = (detail: EvenhandEvents[Name]) => void;

function on<Name extends keyof EvenhandEvents>(name: Name, handler: Handler<Name>): void {
  root.addEventListener(name, (event) => handler((event as CustomEvent<EvenhandEvents[Name]>).detail));
}

on('go', ({ screen }) =>
  attempt(async () => {
    if (run !== null) await stop();
    say({ kind: 'go', screen });
  }),
);
on('files', ({ files }) => attempt(() => takeFiles(files)));
on('dismiss', () => say({ kind: 'problem', problem: '' }));
on('phrase', ({ name }) => say({ kind: 'phrase', name }));
on('sticking', ({ text }) => say({ kind: 'typed', text }));
on('build', ({ change }) => say({ kind: 'build', change }));
on('bars', (change) => say({ kind: 'bars', change }));
on('save-phrase', ({ name }) => attempt(() => keepPhrases([phraseFile(name), ...otherPhrases(name)])));
on('delete-phrase', ({ name }) => attempt(() => keepPhrases(otherPhrases(name))));
on('open-phrase', ({ name }) => say({ kind: 'phrase', name }));
on('share-phrase', () => {
  const file = phraseFile(sitting.phrase.title);
  saveFile(`${fileNameOf(file.name)}.phrase.json`, writePhraseFile(file));
});
on('tempo', ({ bpm }) => say({ kind: 'tempo', bpm }));
on('cycles', ({ cycles }) => say({ kind: 'cycles', cycles }));
on('limits', ({ limits }) => say({ kind: 'limits', limits }));
on('play', () => say({ kind: 'go', screen: 'play' }));
on('connect', () => attempt(() => door.connect()));
on('choose-click', ({ id }) => say({ kind: 'output', output: id }));
on('choose-input', ({ id }) =>
  attempt(async () => {
    const name = bundledNameOf(id);
    if (name !== undefined) await bundled(name);
    say({ kind: 'input', input: id });
    if (name !== undefined) say({ kind: 'go', screen: 'play' });
  }),
);
on('strike-anew', () => say({ kind: 'strike anew' }));
on('start', start);
on('stop', () => attempt(stop));
on('download', ({ id }) =>
  attempt(async () => {
    const take = await takeOf(id);
    if (take !== undefined) download(take);
  }),
);
on('play-again', ({ id }) =>
  attempt(async () => {
    const take = await takeOf(id);
    if (take !== undefined) say({ kind: 'again', take });
  }),
);
on('open-take', ({ id }) =>
  attempt(async () => {
    const take = await opened(id);
    if (take !== undefined) say({ kind: 'reviewed', take, report: gradeTake(take) });
  }),
);
on('delete-take', ({ id }) =>
  attempt(async () => {
    if (!window.confirm('Delete this take for good? A downloaded file is not touched.')) return;
    await store.delete(id);
    await listTakes();
  }),
);

// News of the world.

door.status$.subscribe((status) => say({ kind: 'midi', status }));
door.hits$.subscribe((hit) => {
  const before = sitting.rig;
  say({ kind: 'struck', hit });
  if (sitting.rig !== before && sitting.rig !== null) store.keep('rig', sitting.rig).catch(trouble);
});

/** A take that cannot be graded is kept all the same, and the list says why. */
function sentenceFor(take: Take): string {
  try {
    return gradeTake(take).sentence;
  } catch (error) {
    if (error instanceof InputError) return `Not graded: ${error.message}`;
    throw error;
  }
}

async function openTakes(): Promise<void> {
  store = await openStore();
  const rig = rigFrom(await store.kept('rig'));
  if (rig !== undefined) say({ kind: 'rig', rig });
  for (const take of await store.recover()) await store.describe(take.id, sentenceFor(take));
  await listTakes();
  await openPhrases();
}

render(page(sitting), root);
attempt(openTakes);
// A page that may use MIDI already has no question to ask.
attempt(async () => {
  if (await midiAllowed()) await door.connect();
});
