import { bundledPhrases } from '../exercises/phrase';
import type { Report } from '../grading/types';
import type { HistoryView } from '../insight/history/view';
import type { TodayClock } from '../insight/today/clock';
import type { TodayLength } from '../insight/today/types';
import type { MidiStatus } from '../midi/types';
import type { PhraseFile } from '../sessions/phrase-file';
import type { TakeSummary } from '../sessions/take-record';
import type { Rig, Take } from '../sessions/types';
import type { Limits } from '../settings';
import type { SoundNow } from '../click/types';
import type { FigureNow } from '../take/live/figures';
import type { LiveState, Position, Strikes } from '../take/types';
import type { Bpm, Ms } from '../units';
import { firstTakesView, type BundledTake, type LastTake, type Running, type TakesView } from './takes';
import type { Climbing } from './climb';
import type { NoteDraft } from './note-draft';
import type { Screen } from './screens';
import { chosen, type PhraseChoice } from './phrase-choice';
import { emptyLibrary, type Library } from './library';
import { firstReviewing, type Reviewing } from './reviewing';
import { firstRigging, type Rigging } from './rig/state';
import { noStrikes } from './struck-hands';
import { plainPlan, type PlayingPlan } from './playing-plan';
import { type FigureChoice, plainView, type ViewOptions } from './view';
import { type Pace, steadyPace } from './pace';
import type { UnkeptTake } from './unkept';

/** The chosen phrase and how it is to be played. */
interface PhrasePart extends PhraseChoice {
  /** Phrases the player saved, newest first. */
  readonly saved: readonly PhraseFile[];
  /** The tempo, or the one it begins with. */
  readonly bpm: Bpm;
  readonly pace: Pace;
  readonly limits: Limits;
  /** True while the phrase, or a take, is sounded. */
  readonly sounding: boolean;
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
  /** Whether the computer can be heard. */
  readonly sound: SoundNow;
  readonly strikes: Strikes;
  /** The rig on the stand: made from the two strikes or on the Rig screen, kept from last time where it still fits the input. */
  readonly rig: Rig | null;
  /** What the Rig screen is doing. */
  readonly rigging: Rigging;
}

/** How takes are played. */
interface PlanPart {
  readonly plan: PlayingPlan;
  /** Taps of the tempo that count so far. */
  readonly taps: readonly Ms[];
  /** True while strikes on the pad are taps of the tempo. */
  readonly tapOnPad: boolean;
  /** The take that runs, or else the next one, is the teacher's: it counts in nobody's history. Off again after one. */
  readonly teacherPlays: boolean;
  readonly last: LastTake | null;
  /** The climb that is on; null where none is. */
  readonly climb: Climbing | null;
  /** A quiet line to rest; empty while none is due. */
  readonly rest: string;
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
  /** Why the take that is running is not being kept; empty where it is. */
  readonly recordingFails: string;
}

/** What the player and the teacher want to see of it. */
interface ViewPart {
  readonly figureChoice: FigureChoice;
  readonly view: ViewOptions;
}

/** Takes that were played, and what is looked at of them. */
interface TakesPart {
  readonly reviewed: { readonly take: Take; readonly report: Report } | null;
  /** Takes kept in this browser of whom Takes is to list, newest first. */
  readonly kept: readonly TakeSummary[];
  readonly takesView: TakesView;
  /** Counted up whenever a take is opened: then its sentence comes into view. */
  readonly opened: number;
  /** Takes that could not be kept, newest first: they are in this page's memory alone. */
  readonly unkept: readonly UnkeptTake[];
  readonly bundled: readonly BundledTake[];
  readonly reviewing: Reviewing;
  /** The lesson note that is being written; null where none is. */
  readonly note: NoteDraft | null;
}

/** What is practised today. */
interface Today {
  /** How long today's practice is to be. */
  readonly length: TodayLength;
  /** Null while none is running. */
  readonly clock: TodayClock | null;
  /** Which moment the plan is made for, on the clock of dates; it stands still while the plan is played. */
  readonly nowMs: Ms;
}

/** The library, and what is made of it. */
interface LibraryPart {
  readonly library: Library;
  readonly today: Today;
  readonly history: HistoryView;
  /** What those have open who do not have the turn, by their ids. */
  readonly openWork: ReadonlyMap<string, OpenWork>;
}

/** What is one player's of the page: the phrase with how it is played, what they look at and write. */
export type Theirs =
  | keyof PhraseChoice
  | 'bpm'
  | 'pace'
  | 'limits'
  | 'last'
  | 'climb'
  | 'rest'
  | 'reviewed'
  | 'reviewing'
  | 'note'
  | 'history';

/** What a player has open: it stays with them while another has the turn, and stands there again when theirs comes. */
export interface OpenWork {
  readonly page: Pick<State, Theirs>;
  readonly library: Pick<Library, 'draft' | 'draftAt' | 'draftOf' | 'sheetId' | 'warmedUp'>;
  readonly clock: TodayClock | null;
}

/** All that the page shows. Streams, sound and storage live elsewhere; this is what they have reported so far. */
export interface State extends PhrasePart, InputPart, PlanPart, RunPart, ViewPart, TakesPart, LibraryPart {
  readonly screen: Screen;
  readonly message: string;
  /** What went wrong: place, rule and value; empty where nothing did. */
  readonly problem: string;
}

const PRACTICE_BPM: Bpm = 84;

/** History of nothing in particular: what there is most of. */
export const firstHistory: HistoryView = { phraseKey: null, rigId: null, variation: null, term: null };

export const firstState: State = {
  ...chosen(bundledPhrases[0].phrase, bundledPhrases[0].name),
  screen: 'today',
  saved: [],
  bpm: PRACTICE_BPM,
  pace: steadyPace,
  limits: 'working',
  midi: { kind: 'off' },
  input: '',
  output: '',
  sound: 'unknown',
  strikes: noStrikes,
  rig: null,
  rigging: firstRigging,
  plan: plainPlan,
  taps: [],
  tapOnPad: false,
  teacherPlays: false,
  last: null,
  climb: null,
  rest: '',
  running: null,
  live: null,
  liveAtBeat: null,
  figureNow: null,
  figureChoice: 'report',
  view: plainView,
  position: null,
  recordingFails: '',
  reviewed: null,
  reviewing: firstReviewing,
  note: null,
  kept: [],
  takesView: firstTakesView,
  opened: 0,
  unkept: [],
  library: emptyLibrary,
  today: { length: 20, clock: null, nowMs: 0 },
  history: firstHistory,
  openWork: new Map(),
  bundled: [],
  sounding: false,
  sheetOpen: false,
  message: '',
  problem: '',
};
