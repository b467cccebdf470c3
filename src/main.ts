import { render } from 'lit';
import { audioClick } from './click/audio-click';
import { audioPlayer } from './click/hear-audio';
import { audioOut } from './click/web-audio';
import { page } from './components/page';
import { addressDesk, type Address } from './effects/address';
import { apartDesk } from './effects/apart';
import { backupDesk } from './effects/backup';
import { bundledTakes } from './effects/bundled';
import { climbDesk } from './effects/climbs';
import type { Desk } from './effects/page-effects';
import { farFeed, type FarFeed } from './effects/far-feed';
import { toldOf } from './effects/graded-once';
import { gradeLater } from './effects/grading-later';
import { handsFreeDesk } from './effects/hands-free';
import { fileIntake } from './effects/files';
import { hearing } from './effects/hearing';
import { historyWires } from './effects/history';
import { keepingDesk, keepingWires, otherTabs } from './effects/library';
import { noteWires } from './effects/notes';
import { offlineWires } from './effects/offline';
import { phraseExportWires } from './effects/phrase-exports';
import { phraseDesk, phraseWires } from './effects/phrases';
import { dayOfPlay, openPlan, playWires } from './effects/play';
import { playing } from './effects/running-take';
import { reviewDesk, reviewWires } from './effects/reviews';
import { rigDesk, rigWires } from './effects/rigs';
import { keptChoices, roomWatcher, roomWires } from './effects/watcher';
import { sheetDesk, sheetWires } from './effects/sheets';
import { takeDesk, takeWires } from './effects/takes';
import { todayWires } from './effects/today';
import { InputError } from './errors';
import { midiAllowed, midiDoor } from './midi/web-midi';
import type { Commands, On } from './state/commands';
import {
  bundledNameOf,
  firstSitting,
  next,
  planInUse,
  screenNamed,
  type Said,
  type Screen,
  type Sitting,
} from './state/reducer';
import { openStore, type BrowserStore } from './sessions/browser-store';
import { memoryStore } from './sessions/memory-store';

/** The composition root: it makes the parts that touch the world, and tells them what the page's elements say. */
const root = document.body;
let store: BrowserStore = memoryStore();
const named = screenNamed(location.hash.slice(1));
let far: FarFeed | null = null;
let address: Address | null = null;
let sitting: Sitting = { ...firstSitting, bundled: bundledTakes, screen: named ?? firstSitting.screen };

const desk: Desk = {
  sitting: () => sitting,
  store: () => store,
  say(said: Said) {
    const { reviewed } = sitting;
    sitting = next(sitting, said);
    render(page(sitting), root);
    far?.changed();
    address?.changed();
    if (sitting.reviewed !== reviewed) apart.ask();
  },
  trouble(error) {
    desk.say({ kind: 'problem', problem: error instanceof Error ? error.message : String(error) });
    if (!(error instanceof InputError)) throw error;
  },
  attempt(work) {
    work().catch(desk.trouble);
  },
};
const { say, attempt } = desk;
const apart = apartDesk(desk);

const door = midiDoor();
const sheets = sheetDesk(desk);
const keeping = keepingDesk(desk, sheets.shown);
const takes = takeDesk(desk, keeping.refresh);
const phrases = phraseDesk(desk);
const backup = backupDesk(desk);
const out = audioOut();
const hear = hearing(desk, door, out);
const sound = audioClick(out);
const rigs = rigDesk(desk, door, sound, out);
const takeFiles = fileIntake(desk, { keeping, takes, phrases, rigs, sheets, backup });
const room = roomWatcher(desk, door, out);
const day = dayOfPlay(desk);
const play = playing(desk, {
  door,
  sound: { click: sound, caller: audioPlayer(out) },
  room,
  cold: () => day.cold(),
  onOver: () => attempt(stopped),
});

far = farFeed(desk, play);

async function stopped(): Promise<void> {
  const take = await play.stop();
  if (take === undefined) return;
  // What is said of it comes first; the store has every hit of it already.
  say({ kind: 'last', last: { take, sentence: toldOf(take).sentence, kept: true } });
  if (planInUse(sitting).then === 'review') takes.show(take);
  climbs.took(take);
  await takes.settle(take);
  await day.open();
}

// Commands of the page.

const on: On = (name, handler) => {
  root.addEventListener(name, (event) => handler((event as CustomEvent<Commands[typeof name]>).detail));
};

const go = (screen: Screen): void =>
  attempt(async () => {
    hear.stop();
    rigs.leave();
    if (play.isRunning()) await stopped();
    say({ kind: 'go', screen });
  });
on('go', ({ screen }) => go(screen));
address = addressDesk(desk, go);
on('files', ({ files }) =>
  attempt(async () => {
    // What is dropped before the library is open would be kept nowhere. Why it did not open has been said.
    await opened.catch(() => undefined);
    await takeFiles(files);
  }),
);
on('dismiss', () => say({ kind: 'problem', problem: '' }));

const climbs = climbDesk(on, desk, () => play);
phraseWires(on, desk, phrases);
phraseExportWires(on, desk);
on('hear', (choice) => hear.start(choice));
on('hear-stop', () => hear.stop());
on('play', () => {
  hear.stop();
  say({ kind: 'go', screen: 'play' });
});

on('connect', () => attempt(() => door.connect()));
on('choose-click', ({ id }) => say({ kind: 'output', output: id }));
on('choose-input', ({ id }) =>
  attempt(async () => {
    const name = bundledNameOf(id);
    if (name !== undefined) await takes.bundled(name);
    say({ kind: 'input', input: id });
    if (name !== undefined) say({ kind: 'go', screen: 'play' });
  }),
);
on('strike-anew', () => say({ kind: 'strike anew' }));
playWires(on, desk, { play, takes, stopped });

roomWires(on, desk, play);
takeWires(on, desk, takes);
reviewWires(on, desk, hear);
noteWires(on, desk);
keepingWires(on, desk, keeping);
historyWires(on, desk);
todayWires(on, desk, keeping, takes);
rigWires(on, desk, rigs, door, out, sound);
handsFreeDesk(desk, door, {
  start() {
    if (sitting.screen !== 'play') say({ kind: 'go', screen: 'play' });
    play.start();
  },
  stop: () => attempt(stopped),
});
sheetWires(on, desk, sheets, keeping.refresh);
offlineWires(on, desk);
on('backup', () => attempt(() => backup.download()));
on('export-player', ({ id }) => attempt(() => backup.download(id)));

// News of the world.

door.status$.subscribe((status) => say({ kind: 'midi', status }));
door.hits$.subscribe((hit) => {
  say({ kind: 'struck', hit });
  rigs.keep();
});

async function openKept(): Promise<void> {
  try {
    store = await openStore();
  } finally {
    // Also where there is none: the Rig screen waits for it.
    await rigs.open();
  }
  await keptChoices(desk);
  await takes.recover();
  await keeping.open();
  await day.open();
  await openPlan(desk);
  await phrases.open();
  await reviewDesk(desk).open();
  attempt(() => gradeLater(desk, keeping.refresh));
}

render(page(sitting), root);
const opened = openKept();
attempt(() => opened);
otherTabs(desk, keeping);
// A page that may use MIDI already has no question to ask.
attempt(async () => {
  if (await midiAllowed()) await door.connect();
});
