import type { Manner } from '../exercises/performance';
import type { Grid } from '../exercises/types';
import type { Report } from '../grading/types';
import type { MidiStatus } from '../midi/types';
import type { PhraseFile } from '../sessions/phrase-file';
import type { Rig, Take } from '../sessions/types';
import type { Limits } from '../settings';
import type { RawHit } from '../stroke';
import type { Bpm } from '../units';
import type { HistorySaid } from './history';
import type { HistoryView } from '../insight/history/view';
import type { Keeping } from './library';
import type { Build, PhraseChoice } from './phrase-choice';
import type { NoteSaid, Noting } from './note';
import type { DraftSaid } from './sheet-draft';
import type { Reviewing, ReviewSaid } from './reviewing';
import type { Today, TodaySaid } from './today';
import type { Rigging, RiggingEvent } from './rig/state';
import type { Pace } from './pace';
import type { FigureNow } from '../take/live/figures';
import type { LiveState, Position, Strikes } from '../take/types';
import type { FigureBy, FigureChoice, ViewOptions } from './live-view';
import type { PlanPart, PlanSaid } from './plan-state';

export type { LastTake } from './plan-state';

const screens = ['today', 'rig', 'phrase', 'play', 'review', 'history', 'library'] as const;
export type Screen = (typeof screens)[number];

/** The screen of an address like `…/#play`; undefined where it names none. */
export function screenNamed(name: string): Screen | undefined {
  return screens.find((screen) => screen === name);
}

/** A take kept in this browser, as the list shows it. */
interface KeptTake {
  readonly id: string;
  readonly recordedAt: string;
  readonly title: string;
  readonly bpm: Bpm | null;
  readonly sentence: string;
}

/** A take that comes with the app, played by the model player; `take` is null until it was asked for. */
export interface BundledTake {
  readonly name: string;
  /** What is to be seen in it, in words. */
  readonly words: string;
  readonly title: string;
  readonly bpm: Bpm;
  readonly sentence: string;
  readonly take: Take | null;
}

/** What is being played. */
interface Running {
  readonly grid: Grid;
  readonly takeId: string;
  /** Which of its bars are bare. */
  readonly bare: readonly boolean[];
}

/** The phrase on the desk and how it is to be played. */
interface PhrasePart extends PhraseChoice {
  /** Phrases the player saved, newest first. */
  readonly saved: readonly PhraseFile[];
  /** The tempo, or the one it begins with. */
  readonly bpm: Bpm;
  readonly pace: Pace;
  readonly limits: Limits;
  /** True while the phrase is sounded. */
  readonly hearing: boolean;
  /** True while the phrase is shown as a sheet to print. */
  readonly sheetOpen: boolean;
}

/** Where strokes come from and where the click goes. */
interface InputPart {
  readonly midi: MidiStatus;
  /** Name of a MIDI port, `take:NAME` for a bundled take, empty for none. */
  readonly input: string;
  /** Empty for the computer's sound, `SEEN_CLICK` for one that is only seen, else the id of a MIDI output. */
  readonly output: string;
  readonly strikes: Strikes;
  /** The rig on the stand: made from the two strikes or on the Rig screen, kept from last time where it still fits the input. */
  readonly rig: Rig | null;
  /** What the Rig screen is doing. */
  readonly rigging: Rigging;
}

/** The take that is running. */
interface RunPart {
  readonly running: Running | null;
  readonly live: LiveState | null;
  /** What was live with the last beat: numbers are of it, so that they can be read. */
  readonly liveAtBeat: LiveState | null;
  /** The one number that was chosen: renewed with each beat, so that it can be read. Null before a take. */
  readonly figureNow: FigureNow | null;
  readonly position: Position | null;
}

/** What the player and the teacher want to see of it. */
interface RoomPart {
  readonly figureChoice: FigureChoice;
  readonly view: ViewOptions;
}

/** Takes that were played. */
interface TakesPart {
  readonly reviewed: { readonly take: Take; readonly report: Report } | null;
  readonly kept: readonly KeptTake[];
  readonly bundled: readonly BundledTake[];
}

/** What is looked at of them. */
interface ReviewPart {
  readonly reviewing: Reviewing;
  /** The lesson note that is being written; null where none is. */
  readonly noting: Noting | null;
}

/** The library, and what is made of it. */
interface KeepingPart {
  readonly keeping: Keeping;
  readonly today: Today;
  readonly history: HistoryView;
}

/** All that the page shows. Streams, sound and storage live elsewhere; this is what they have said so far. */
export interface Sitting
  extends PhrasePart, InputPart, RunPart, RoomPart, TakesPart, ReviewPart, KeepingPart, PlanPart {
  readonly screen: Screen;
  readonly message: string;
  readonly problem: string;
}

export type PhraseSaid =
  | { readonly kind: 'phrase'; readonly name: string }
  | { readonly kind: 'typed'; readonly text: string }
  | { readonly kind: 'build'; readonly change: Partial<Build> }
  | {
      readonly kind: 'bars';
      readonly change: { readonly partialsPerBeat?: number; readonly beatsPerBar?: number };
    }
  | { readonly kind: 'saved'; readonly saved: readonly PhraseFile[] }
  | { readonly kind: 'open phrase'; readonly file: PhraseFile }
  | { readonly kind: 'tempo'; readonly bpm: number }
  | { readonly kind: 'pace'; readonly change: Partial<Pace> }
  | { readonly kind: 'manner'; readonly change: Partial<Manner> }
  | { readonly kind: 'cycles'; readonly cycles: number }
  | { readonly kind: 'limits'; readonly limits: Limits }
  | { readonly kind: 'hearing'; readonly hearing: boolean }
  | { readonly kind: 'sheet'; readonly open: boolean };

export type InputSaid =
  | { readonly kind: 'midi'; readonly status: MidiStatus }
  | { readonly kind: 'input'; readonly input: string }
  | { readonly kind: 'output'; readonly output: string }
  | { readonly kind: 'struck'; readonly hit: RawHit }
  | { readonly kind: 'strike anew' }
  | { readonly kind: 'rig'; readonly rig: Rig }
  | { readonly kind: 'rigging'; readonly event: RiggingEvent };

export type RunSaid =
  | { readonly kind: 'started'; readonly running: Running }
  | { readonly kind: 'live'; readonly live: LiveState }
  | { readonly kind: 'position'; readonly position: Position }
  | { readonly kind: 'ended'; readonly message: string };

export type RoomSaid =
  | { readonly kind: 'figure'; readonly figure: FigureChoice; readonly by: FigureBy }
  | { readonly kind: 'view'; readonly change: Partial<ViewOptions> };

export type TakesSaid =
  | { readonly kind: 'reviewed'; readonly take: Take; readonly report: Report }
  | { readonly kind: 'again'; readonly take: Take }
  | { readonly kind: 'kept'; readonly kept: readonly KeptTake[] }
  | { readonly kind: 'bundled'; readonly name: string; readonly take: Take };

export type ReviewPartSaid =
  | { readonly kind: 'review'; readonly said: ReviewSaid }
  | { readonly kind: 'note'; readonly said: NoteSaid }
  /** The one button of Review. */
  | { readonly kind: 'next step' };

/** What may happen in a sitting: commands of the player, and news from the streams. One union for each area. */
export type Said =
  | { readonly kind: 'go'; readonly screen: Screen }
  | { readonly kind: 'message'; readonly message: string }
  | { readonly kind: 'problem'; readonly problem: string }
  | PhraseSaid
  | InputSaid
  | RunSaid
  | RoomSaid
  | TakesSaid
  | ReviewPartSaid
  | { readonly kind: 'keeping'; readonly change: Partial<Keeping> }
  | { readonly kind: 'week draft'; readonly said: DraftSaid }
  | { readonly kind: 'today'; readonly said: TodaySaid }
  | { readonly kind: 'history'; readonly said: HistorySaid }
  | PlanSaid;
