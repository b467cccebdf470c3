import type { AudioClick } from '../click/audio-click';
import type { HearPlayer } from '../click/hear-player';
import type { AudioOut } from '../click/web-audio';
import type { MidiGateway } from '../midi/types';
import { handlingAll } from '../state/dispatcher';
import { addressEffects } from './address';
import { apartEffects } from './apart';
import { backupEffects } from './backup';
import { climbEffects } from './climb';
import type { Context } from './context';
import { farFeedEffects } from './far-feed';
import { fileEffects } from './files';
import { filingEffects } from './filing';
import { gradeLater } from './grading-later';
import { handsFreeEffects } from './hands-free';
import { historyEffects } from './history';
import { libraryEffects, otherTabs } from './library';
import { midiEffects } from './midi';
import { monitorEffects } from './monitoring';
import { noteEffects } from './notes';
import { offlineEffects } from './offline';
import { otherWindowsEffects, type LibraryNews } from './other-windows';
import { phraseEffects } from './phrases';
import { dayOfPlay, playEffects } from './play';
import { reviewEffects } from './review';
import { rigEffects } from './rigs';
import { runningTake } from './running-take';
import { sheetEffects } from './sheets';
import { soundEffects } from './sound';
import { takeWatcher } from './take-watcher';
import { takeEffects } from './takes';
import { todayEffects } from './today';
import { unkeptEffects } from './unkept';
import { viewEffects } from './view';
import { writtenEffects } from './written';

/** What the effects of a page act on. */
interface World {
  readonly midi: MidiGateway;
  /** Between this window and others over the same library. */
  readonly news: LibraryNews;
  readonly out: AudioOut;
  /** The computer's own sound: the click, and what sounds bars to listen to. */
  readonly sound: { readonly click: AudioClick; readonly caller: HearPlayer };
}

/** Opens the browser's store. @param deleted told when it was deleted under the page and a new one is in its place */
type OpenStore = (deleted: () => void) => Promise<void>;

/** All that actions set off in the world, one part an area, and the opening of what was kept. */
export function pageEffects(context: Context, { midi, news, out, sound }: World) {
  const { attempt } = context;
  let opened: Promise<void> = Promise.resolve();

  const library = libraryEffects(context, () => sheets);
  const { refresh } = library;
  const sheets = sheetEffects(context, refresh);
  const takes = takeEffects(context, refresh);
  const phrases = phraseEffects(context);
  const rigs = rigEffects(context, midi, sound.click, out);
  const backup = backupEffects(context);
  const today = todayEffects(context, library.change);
  const review = reviewEffects(context);
  const view = viewEffects(context);
  const day = dayOfPlay(context);
  const midiIn = midiEffects(context, midi);
  const running = runningTake(context, {
    midi,
    sound,
    watcher: takeWatcher(context, midi, out),
    cold: () => day.cold(),
  });
  const unkept = unkeptEffects(context, takes.settle, running.isRunning);
  const play = playEffects(context, { running, takes, unkept, day, list: refresh });

  return {
    /** Those that follow the state first: what is sent to a far view is what the page shows. */
    all: handlingAll([
      farFeedEffects(context, (event) => running.note(event)),
      addressEffects(context),
      apartEffects(context),
      monitorEffects(context, midi),
      handsFreeEffects(context, midi),
      climbEffects(context),
      soundEffects(context, midi, out),
      midiIn,
      rigs,
      takes,
      unkept,
      phrases,
      play,
      view,
      review,
      noteEffects(context),
      library,
      sheets,
      today,
      historyEffects(context),
      writtenEffects(context, refresh, takes.show),
      backup,
      otherWindowsEffects(context, news, running.isRunning, () => Promise.all([refresh(), phrases.open()])),
      filingEffects(context, { refresh, turnTo: library.turnTo, show: takes.show }),
      fileEffects(context, { refresh, takes, unkept, phrases, rigs, sheets, backup }, () => opened),
      offlineEffects(context, running.isRunning),
    ]),
    /** @param openStore the browser's store, or what went wrong: then the page works without */
    open(openStore: OpenStore): void {
      opened = openKept(openStore);
      attempt(() => opened);
      today.open();
      midiIn.open();
      otherTabs(context, running.isRunning, refresh);
    },
  };

  async function openKept(openStore: OpenStore): Promise<void> {
    // Where there is none the page works over one that lasts as long as itself, and that is opened as any other.
    await openStore(() => attempt(library.deleted)).catch(context.trouble);
    await rigs.open();
    // Each by itself: one that can't be read hides none of the others.
    const parts = [view.open, takes.recover, library.open, play.open, phrases.open, review.open];
    for (const part of parts) {
      try {
        await part();
      } catch (error) {
        attempt(() => Promise.reject(error as Error));
      }
    }
    attempt(async () => {
      await library.showUnreadable();
      await gradeLater(context, context.state().library.takes, running.isRunning, refresh);
      await library.showUnreadable();
    });
  }
}
