import type { Manner } from '../exercises/performance';
import type { NoteText } from '../sessions/paper/lesson-note';
import type { Player } from '../sessions/player';
import type { Limits } from '../settings';
import type { HistorySaid } from './history';
import type { Pace } from './pace';
import type { ClickPlan } from '../exercises/click-plan';
import type { Ms } from '../units';
import type { Build } from './phrase-choice';
import type { HearTake } from './sounded-take';
import type { ReviewSaid } from './reviewing';
import type { RiggingEvent } from './rig';
import type { DraftSaid } from './sheet-draft';
import type { FigureChoice, ViewOptions } from './live-view';
import type { PlayingPlan } from './playing-plan';
import type { Screen } from './state';
import type { TodayCommand } from './today';

/** What the elements of the page fire, by name, with their details: the commands of the player. */
export interface Commands {
  go: { readonly screen: Screen };
  files: { readonly files: readonly File[] };
  dismiss: undefined;
  phrase: { readonly name: string };
  sticking: { readonly text: string };
  build: { readonly change: Partial<Build> };
  bars: { readonly partialsPerBeat?: number; readonly beatsPerBar?: number };
  'save-phrase': { readonly name: string };
  'open-phrase': { readonly name: string };
  'delete-phrase': { readonly name: string };
  'share-phrase': undefined;
  'export-phrase': { readonly as: 'midi' | 'musicxml' };
  tempo: { readonly bpm: number };
  pace: { readonly change: Partial<Pace> };
  manner: { readonly change: Partial<Manner> };
  cycles: { readonly cycles: number };
  limits: { readonly limits: Limits };
  play: undefined;
  hear: { readonly hand: 'both' | 'R' | 'L'; readonly speed: 'full' | 'half' };
  'hear-stop': undefined;
  sheet: undefined;
  'sheet-close': undefined;
  rigging: { readonly event: RiggingEvent };
  'rig-export': { readonly id: string };
  /** Sounds a bar of the click on the computer (empty), or on an output. */
  'test-click': { readonly output: string };
  'copy-monitor': undefined;
  connect: undefined;
  'choose-input': { readonly id: string };
  'choose-click': { readonly id: string };
  'strike-anew': undefined;
  'choose-figure': { readonly figure: FigureChoice };
  view: { readonly change: Partial<ViewOptions> };
  /** How takes are played. */
  plan: { readonly change: Partial<PlayingPlan> };
  'click-plan': { readonly change: Partial<ClickPlan> };
  /** A tap of the tempo, on the clock of the hits. */
  tap: { readonly atMs: Ms };
  'tap-on-pad': { readonly on: boolean };
  /** What becomes of the take just played. */
  'throw-away': undefined;
  'put-back': undefined;
  'note-last': { readonly text: string };
  'open-last': undefined;
  start: undefined;
  stop: undefined;
  download: { readonly id: string };
  'play-again': { readonly id: string };
  'open-take': { readonly id: string };
  'delete-take': { readonly id: string };
  review: ReviewSaid;
  'next-step': undefined;
  /** The open take is graded anew, its phrase swung as it was played. */
  'meant-swing': undefined;
  note: undefined;
  'note-close': undefined;
  'note-change': { readonly change: Partial<NoteText> };
  'note-export': { readonly as: 'html' | 'md' | 'week' };
  saying: { readonly saying: string };
  'keep-saying': { readonly saying: string };
  'drop-saying': { readonly saying: string };
  history: HistorySaid;
  'term-report': undefined;
  'term-export': undefined;
  today: TodayCommand;
  player: { readonly id: string };
  'new-player': { readonly name: string };
  'change-player': {
    readonly id: string;
    readonly change: Partial<Pick<Player, 'name' | 'lead' | 'limits'>>;
  };
  'merge-players': { readonly fromId: string; readonly intoId: string };
  'forget-player': { readonly id: string };
  'export-player': { readonly id: string };
  'give-take': { readonly id: string; readonly playerId: string };
  backup: undefined;
  'names-in-files': { readonly on: boolean };
  'dismiss-files': undefined;
  'open-sheet': { readonly id: string };
  /** A new week sheet of the phrase on the desk, or one that is kept, to be written. */
  'new-sheet': undefined;
  'edit-sheet': { readonly id: string };
  'week-draft': DraftSaid;
  'week-keep': undefined;
  'week-export': undefined;
  'remove-sheet': { readonly id: string };
  'leave-sheet': undefined;
  update: undefined;
  'hear-bars': HearTake;
  /** A climb begun from the tempo on the stand, or ended. */
  climb: { readonly on: boolean };
  'listen-blind': { readonly of: 'variations' | 'takes' };
  /** A take set beside the open one; none where empty. */
  beside: { readonly id: string };
  'blind-answer': { readonly answer: string };
  'blind-again': undefined;
  'save-file': { readonly name: string; readonly blob: Blob };
}

/** Calls the handler whenever the command comes up from the page. */
export type On = <Name extends keyof Commands>(name: Name, handler: (detail: Commands[Name]) => void) => void;
