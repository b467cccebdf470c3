import type { SoundNow } from '../click/types';
import type { ClickPlan } from '../exercises/click-plan';
import type { Performance } from '../exercises/performance';
import type { Phrase } from '../exercises/types';
import type { Choice } from '../grading/chosen';
import type { Report } from '../grading/types';
import type { TermDraft } from '../insight/history/view';
import type { NumberAsked } from '../insight/strokes-behind';
import type { Apart } from '../insight/telling-apart';
import type { Opening, TodayItem, TodayLength } from '../insight/today/types';
import type { SurfaceEdit } from '../midi/learning/edit-surfaces';
import type { MonitorState } from '../midi/monitor';
import type { MidiStatus } from '../midi/types';
import type { Begun } from '../sessions/draft';
import type { WhoInNames } from '../sessions/file-name';
import type { Given } from '../sessions/given';
import type { NoteText } from '../sessions/paper/lesson-note';
import type { PhraseFile } from '../sessions/phrase-file';
import type { Player } from '../sessions/player';
import type { NamedRig } from '../sessions/rig-file';
import type { Unreadable } from '../sessions/store-types';
import type { TakeSummary } from '../sessions/take-record';
import type { Rig, Take } from '../sessions/types';
import type { WeekSheet, WeekTarget } from '../sessions/week-sheet';
import type { Limits } from '../settings';
import type { RawHit } from '../stroke';
import type { Reviewed } from '../take/reviewed';
import type { LiveState, Position } from '../take/types';
import type { Bpm, Ms } from '../units';
import type { Build } from './phrase-choice';
import type { FigureBy, FigureChoice, ViewOptions } from './view';
import type { Guesses } from './guess-first';
import type { HearTake } from './sounded-take';
import type { LastTake, Running, TakesView } from './takes';
import type { NoteDraft } from './note-draft';
import type { KnownOutput, TaskName } from './rig/task-names';
import type { Filed, Library } from './library';
import type { Pace } from './pace';
import type { PictureName } from './reviewing';
import type { PlayingPlan } from './playing-plan';
import type { Screen } from './screens';
import type { UnkeptTake } from './unkept';

// Every action there is, one union an area: what an element of the page fires, and what an effect or a stream reports. An
// action's name is an order where a player gives it, and says what is so where the world reports it.

type PageAction =
  | { readonly kind: 'go'; readonly screen: Screen }
  | { readonly kind: 'message'; readonly message: string }
  /** It has stood long enough, unless another stands there by now. */
  | { readonly kind: 'message over'; readonly message: string }
  /** Empty: it has been read. */
  | { readonly kind: 'problem'; readonly problem: string }
  /** Files that were dropped or chosen, whatever they are. */
  | { readonly kind: 'add files'; readonly files: readonly File[] }
  /** The file that is being read, and those after it, are given up. */
  | { readonly kind: 'stop reading' }
  | { readonly kind: 'dismiss files' }
  | { readonly kind: 'save file'; readonly name: string; readonly blob: Blob }
  | { readonly kind: 'load update' };

type PhraseAction =
  | { readonly kind: 'phrase'; readonly name: string }
  | { readonly kind: 'type phrase'; readonly text: string }
  | { readonly kind: 'build'; readonly change: Partial<Build> }
  | {
      readonly kind: 'bars';
      readonly change: { readonly partialsPerBeat?: number; readonly beatsPerBar?: number };
    }
  | { readonly kind: 'performance'; readonly change: Partial<Performance> }
  | { readonly kind: 'tempo'; readonly bpm: number }
  | { readonly kind: 'pace'; readonly change: Partial<Pace> }
  | { readonly kind: 'cycles'; readonly cycles: number }
  | { readonly kind: 'limits'; readonly limits: Limits }
  | { readonly kind: 'phrase sheet'; readonly open: boolean }
  | { readonly kind: 'save phrase'; readonly name: string }
  | { readonly kind: 'delete phrase'; readonly name: string }
  | { readonly kind: 'share phrase' }
  | { readonly kind: 'export phrase'; readonly as: 'midi' | 'musicxml' }
  | { readonly kind: 'phrases saved'; readonly saved: readonly PhraseFile[] }
  | { readonly kind: 'phrase added'; readonly file: PhraseFile };

type SoundAction =
  | { readonly kind: 'hear phrase'; readonly hand: 'both' | 'R' | 'L'; readonly speed: 'full' | 'half' }
  | ({ readonly kind: 'hear bars' } & HearTake)
  | { readonly kind: 'stop sound' }
  | { readonly kind: 'sounding'; readonly on: boolean }
  /** Whether the computer can be heard. */
  | { readonly kind: 'sound'; readonly now: SoundNow };

type InputAction =
  | { readonly kind: 'connect' }
  | { readonly kind: 'input'; readonly input: string }
  | { readonly kind: 'output'; readonly output: string }
  | { readonly kind: 'clear strikes' }
  | { readonly kind: 'midi'; readonly status: MidiStatus }
  /** A strike of any port; `newId` is the id of the rig it may bring about on the Rig screen. */
  | { readonly kind: 'struck'; readonly hit: RawHit; readonly newId: string };

type RigAction =
  | { readonly kind: 'begin step'; readonly task: TaskName; readonly surface?: string }
  | { readonly kind: 'step again' }
  | { readonly kind: 'skip step' }
  | { readonly kind: 'leave steps' }
  | { readonly kind: 'edit surfaces'; readonly edit: SurfaceEdit }
  | { readonly kind: 'start surface'; readonly surface: string | null }
  | { readonly kind: 'accept delays' }
  | { readonly kind: 'output delay'; readonly ms: Ms }
  | { readonly kind: 'hear port'; readonly port: string; readonly counts: boolean }
  | { readonly kind: 'new rig' }
  | { readonly kind: 'choose rig'; readonly id: string }
  | { readonly kind: 'name rig'; readonly name: string; readonly newId: string }
  /** Asks first. */
  | { readonly kind: 'delete rig'; readonly id: string }
  | { readonly kind: 'export rig'; readonly id: string }
  /** Sounds a bar of the click on the computer (empty), or on an output. */
  | { readonly kind: 'test click'; readonly output: string }
  | { readonly kind: 'copy monitor' }
  | { readonly kind: 'rig time'; readonly atMs: Ms }
  /** The click of a play-along has begun. */
  | { readonly kind: 'clicks begun'; readonly clicksMs: readonly Ms[]; readonly output: KnownOutput | null }
  | { readonly kind: 'rig added'; readonly rig: NamedRig }
  | { readonly kind: 'rig deleted'; readonly id: string }
  | { readonly kind: 'ports clumped'; readonly ports: readonly string[] }
  | { readonly kind: 'monitored'; readonly monitor: MonitorState }
  /** The library has been read; undefined where it could not be. What was done before is done now, on top of it. */
  | { readonly kind: 'rigs opened'; readonly kept?: KeptRigs };

/** What was kept of rigs. */
export interface KeptRigs {
  readonly rigs: readonly NamedRig[];
  readonly ignoredPorts: readonly string[];
  readonly portIds: Readonly<Record<string, string>>;
  /** The rig that was in use; undefined where none was. */
  readonly rig: Rig | undefined;
}

type PlayAction =
  | { readonly kind: 'start' }
  | { readonly kind: 'stop' }
  | { readonly kind: 'plan'; readonly change: Partial<PlayingPlan> }
  | { readonly kind: 'click plan'; readonly change: Partial<ClickPlan> }
  /** A tap of the tempo, on the clock of the hits. */
  | { readonly kind: 'tap'; readonly atMs: Ms }
  | { readonly kind: 'tap on pad'; readonly on: boolean }
  /** The next take, of the phrase as it is chosen, is the teacher's. */
  | { readonly kind: 'teacher plays'; readonly on: boolean }
  | { readonly kind: 'figure'; readonly figure: FigureChoice; readonly by: FigureBy }
  | { readonly kind: 'view'; readonly change: Partial<ViewOptions> }
  /** A climb from the tempo that is chosen; `today` as a date. */
  | { readonly kind: 'begin climb'; readonly today: string }
  | { readonly kind: 'end climb' }
  /** What becomes of the take just played. */
  | { readonly kind: 'throw away' }
  | { readonly kind: 'put back' }
  | { readonly kind: 'annotate last'; readonly text: string }
  | { readonly kind: 'open last' };

type RunAction =
  | { readonly kind: 'started'; readonly running: Running }
  | { readonly kind: 'live'; readonly live: LiveState }
  | { readonly kind: 'position'; readonly position: Position }
  /** `strokes`: whether enough of them came for a take. */
  | { readonly kind: 'ended'; readonly strokes: boolean }
  | { readonly kind: 'played'; readonly last: LastTake }
  | {
      readonly kind: 'climbed';
      readonly report: Report;
      readonly take: Pick<Take, 'phrase' | 'tempo' | 'hits'>;
      readonly atMs: Ms;
    }
  | { readonly kind: 'climb time'; readonly atMs: Ms }
  /** A take has begun, or the player went elsewhere: nothing begins by itself. */
  | { readonly kind: 'climb held' }
  | { readonly kind: 'rest due'; readonly words: string }
  | { readonly kind: 'plan kept'; readonly kept: unknown }
  | { readonly kind: 'view kept'; readonly view: ViewOptions; readonly figure: FigureChoice };

type TakesAction =
  | { readonly kind: 'open take'; readonly id: string }
  | { readonly kind: 'play take'; readonly id: string }
  | { readonly kind: 'download take'; readonly id: string }
  | { readonly kind: 'delete take'; readonly id: string }
  /** A take set beside the open one; none where empty. */
  | { readonly kind: 'set beside'; readonly id: string }
  /** `stay`: the player went elsewhere to end it, and stays there. */
  | { readonly kind: 'reviewed'; readonly take: Take; readonly report: Report; readonly stay?: boolean }
  | { readonly kind: 'take at hand'; readonly take: Take }
  | { readonly kind: 'takes listed'; readonly kept: readonly TakeSummary[] }
  /** What is listed on Takes. */
  | { readonly kind: 'list takes'; readonly change: Partial<TakesView> }
  | { readonly kind: 'bundled take'; readonly name: string; readonly take: Take };

type UnkeptAction =
  /** Why the take that is running is not being kept; empty once it is again. */
  | { readonly kind: 'recording fails'; readonly why: string }
  | { readonly kind: 'take unkept'; readonly unkept: UnkeptTake }
  /** It is kept now, or thrown away. */
  | { readonly kind: 'unkept done'; readonly id: string };

type ReviewAction =
  /** The one button of Review. `then`: not the rig's step, but what comes after it. */
  | { readonly kind: 'next step'; readonly then?: boolean }
  /** The open take is graded anew, its phrase swung as it was played. */
  | { readonly kind: 'meant swing' }
  /** What is to lead, of all that is out of the open take; null: what its report leads with. */
  | { readonly kind: 'choose first'; readonly choice: Choice | null }
  | { readonly kind: 'picture'; readonly name: PictureName }
  | { readonly kind: 'picture of'; readonly variation: string }
  | { readonly kind: 'strokes'; readonly asked: NumberAsked | null }
  | { readonly kind: 'bands'; readonly on: boolean }
  | { readonly kind: 'listen blind'; readonly of: 'variations' | 'takes'; readonly seed: number }
  | { readonly kind: 'blind answer'; readonly answer: string }
  | { readonly kind: 'blind again' }
  | { readonly kind: 'stop listening' }
  | { readonly kind: 'guess first'; readonly on: boolean }
  | { readonly kind: 'guess'; readonly choice: string | null }
  | { readonly kind: 'skip guess' }
  | { readonly kind: 'guesses kept'; readonly guesses: Guesses }
  | { readonly kind: 'beside'; readonly beside: Reviewed | null }
  | { readonly kind: 'apart found'; readonly takeId: string; readonly apart: Apart };

type NoteAction =
  | { readonly kind: 'write note' }
  | { readonly kind: 'change note'; readonly change: Partial<NoteText> }
  /** What is begun stays begun. */
  | { readonly kind: 'close note' }
  | { readonly kind: 'export note'; readonly as: 'html' | 'md' | 'week' }
  /** Puts one of the teacher's phrases at the end of the words. */
  | { readonly kind: 'use saying'; readonly saying: string }
  | { readonly kind: 'keep saying'; readonly saying: string }
  | { readonly kind: 'drop saying'; readonly saying: string }
  | { readonly kind: 'note begun'; readonly note: NoteDraft }
  | { readonly kind: 'sayings kept'; readonly sayings: readonly string[] };

type WrittenAction =
  /** A paper went to the printer: it is given. */
  | { readonly kind: 'printed'; readonly what: Given['what'] }
  /** The note on a take that was begun is gone on with. */
  | { readonly kind: 'go on with note'; readonly takeId: string }
  /** Throws away what was begun. */
  | { readonly kind: 'drop draft'; readonly begun: Begun }
  /** The words for the next line of the week's list. */
  | { readonly kind: 'type list words'; readonly words: string };

type LibraryAction =
  | { readonly kind: 'choose player'; readonly id: string }
  | { readonly kind: 'new player'; readonly name: string }
  | {
      readonly kind: 'change player';
      readonly id: string;
      readonly change: Partial<Pick<Player, 'name' | 'lead' | 'limits' | 'groups'>>;
    }
  | { readonly kind: 'merge players'; readonly fromId: string; readonly intoId: string }
  /** Out of the lists of whose turn it may be, with all that is theirs kept; and back. */
  | { readonly kind: 'archive player'; readonly id: string }
  | { readonly kind: 'bring back'; readonly id: string }
  /** For how long the archive keeps players; null for ever. */
  | { readonly kind: 'archive keeps'; readonly months: number | null }
  | { readonly kind: 'forget player'; readonly id: string }
  /** Everything as a file, or all that is one player's. */
  | { readonly kind: 'backup'; readonly playerId?: string }
  /** A take or a week sheet belongs to that player from now on. */
  | { readonly kind: 'give'; readonly what: Filed['kind']; readonly id: string; readonly playerId: string }
  /** Takes and week sheets of the last files belong to that player; where somebody was asked it is remembered. */
  | { readonly kind: 'file with'; readonly ids: readonly string[]; readonly playerId: string }
  | { readonly kind: 'filed'; readonly ids: readonly string[]; readonly playerId: string }
  /** Their turn, and their take open in Review. */
  | { readonly kind: 'open theirs'; readonly id: string; readonly playerId: string }
  | { readonly kind: 'names in files'; readonly as: WhoInNames }
  /** Something that can't be read, as it lies there; and away with it, after a yes. */
  | { readonly kind: 'download unreadable'; readonly unreadable: Unreadable }
  | { readonly kind: 'remove unreadable'; readonly unreadable: Unreadable }
  | { readonly kind: 'library'; readonly change: Partial<Omit<Library, 'draft' | 'warmedUp'>> };

type SheetAction =
  /** Puts its phrase and tempo in Play; takes are played to it from then on. */
  | { readonly kind: 'play sheet'; readonly sheet: WeekSheet; readonly exercise?: number }
  /** All takes that were played to it, in one file. */
  | { readonly kind: 'send back'; readonly id: string }
  | { readonly kind: 'remove sheet'; readonly id: string }
  /** A new week sheet of the chosen phrase, to be written. */
  | { readonly kind: 'new sheet'; readonly id: string; readonly dateMs: Ms }
  /** One is changed that is somebody's, or a new one made for them. */
  | { readonly kind: 'edit sheet'; readonly sheet: WeekSheet; readonly playerId: string }
  | {
      readonly kind: 'change sheet';
      readonly change: Partial<Pick<WeekSheet, 'student' | 'bpm' | 'limits' | 'words' | 'due'>>;
    }
  /** What is said of the exercise that is written; undefined says nothing any more. */
  | { readonly kind: 'exercise minutes'; readonly minutes: number | undefined }
  | { readonly kind: 'exercise before'; readonly words: string }
  | { readonly kind: 'write exercise'; readonly index: number }
  /** One more, of the chosen phrase at its tempo. */
  | { readonly kind: 'add exercise' }
  | { readonly kind: 'remove exercise'; readonly index: number }
  /** The exercise changes places with the one before it. */
  | { readonly kind: 'exercise up'; readonly index: number }
  | { readonly kind: 'sheet phrase'; readonly phrase: Phrase }
  | { readonly kind: 'add target'; readonly target: WeekTarget['kind'] }
  | { readonly kind: 'change target'; readonly index: number; readonly target: WeekTarget }
  | { readonly kind: 'remove target'; readonly index: number }
  /** What is begun stays begun. */
  | { readonly kind: 'close sheet' }
  | { readonly kind: 'keep sheet' }
  | { readonly kind: 'export sheet' }
  | { readonly kind: 'sheet kept' };

type TodayAction =
  | { readonly kind: 'today length'; readonly length: TodayLength }
  | { readonly kind: 'start clock'; readonly plan: readonly TodayItem[]; readonly dateMs: Ms }
  | { readonly kind: 'move on'; readonly dateMs: Ms }
  | { readonly kind: 'stop clock' }
  | { readonly kind: 'play phrase'; readonly phrase: Phrase; readonly name: string | null; readonly bpm: Bpm }
  | ({ readonly kind: 'play take at' } & Omit<Extract<Opening, { kind: 'take' }>, 'kind'>)
  /** The chosen phrase goes on the week's list, with the teacher's words. */
  | { readonly kind: 'list phrase'; readonly words: string }
  | { readonly kind: 'unlist phrase'; readonly index: number }
  | { readonly kind: 'date'; readonly dateMs: Ms };

type HistoryAction =
  | { readonly kind: 'history phrase'; readonly id: string }
  | { readonly kind: 'history rig'; readonly id: string }
  /** Empty for the whole phrase. */
  | { readonly kind: 'history variation'; readonly id: string }
  | { readonly kind: 'write term' }
  | { readonly kind: 'change term'; readonly change: Partial<TermDraft> }
  | { readonly kind: 'close term' }
  | { readonly kind: 'export term' }
  /** Of that player. */
  | { readonly kind: 'term begun'; readonly term: TermDraft; readonly playerId: string };

export type Action =
  | PageAction
  | PhraseAction
  | SoundAction
  | InputAction
  | RigAction
  | PlayAction
  | RunAction
  | TakesAction
  | UnkeptAction
  | ReviewAction
  | NoteAction
  | WrittenAction
  | LibraryAction
  | SheetAction
  | TodayAction
  | HistoryAction;

export type ActionKind = Action['kind'];

/** Each action by its name. */
export type ActionNamed = { readonly [Kind in ActionKind]: Extract<Action, { readonly kind: Kind }> };
