import type { Answers, Asked } from '../../midi/learning/asked-strokes';
import type { ClosestPairState } from '../../midi/learning/closest-pair';
import type { DelaysFound, DelaysState } from '../../midi/learning/delays';
import type { FalseNotesState } from '../../midi/learning/false-notes';
import type { HeightsShown, HeightsState } from '../../midi/learning/heights';
import type { SpotPlaces, SpotsState } from '../../midi/learning/spots';
import { noSurfaces, type SurfacesState } from '../../midi/learning/surfaces';
import type { MonitorState } from '../../midi/monitor';
import type { NamedRig } from '../../sessions/rig-file';
import type { Rig } from '../../sessions/types';
import type { Ms } from '../../units';
import type { Action } from '../actions';
import type { KnownOutput, TaskName } from './task-names';
import type { Strikes } from '../../take/types';

/** What the strikes of the Rig screen are taken for just now. */
export type RigTask =
  /** Nothing is asked; strikes only show, and two or three of them in a row are commands. */
  | { readonly kind: 'rest' }
  | { readonly kind: 'surfaces' }
  | { readonly kind: 'hands'; readonly strikes: Strikes }
  | { readonly kind: 'heights'; readonly state: HeightsState }
  | { readonly kind: 'spots'; readonly places: SpotPlaces; readonly state: SpotsState }
  | { readonly kind: 'trims'; readonly state: Answers<Asked> }
  | { readonly kind: 'softest'; readonly state: Answers<Asked> }
  | { readonly kind: 'pairs'; readonly state: ClosestPairState }
  | { readonly kind: 'false notes'; readonly state: FalseNotesState; readonly sinceMs: Ms | null }
  /** `state` is null until the click has begun. */
  | { readonly kind: 'delays'; readonly state: DelaysState | null; readonly output: KnownOutput | null }
  /** Found and not yet taken into the rig. */
  | { readonly kind: 'delays found'; readonly found: DelaysFound }
  /** A step is done; a strike after a silence begins the next. `quietFromMs`: the last strike that still belonged to it. */
  | {
      readonly kind: 'between';
      readonly done: TaskName;
      readonly next: TaskName | null;
      readonly quietFromMs: Ms;
    };

/** The last strike that came from a port. */
export interface PortActivity {
  readonly velocity: number;
  readonly atMs: Ms;
  /** Strikes so far. */
  readonly strikes: number;
}

/** Strikes in a row that may be a command. */
export interface Taps {
  readonly count: number;
  readonly lastAtMs: Ms;
  /** Id of the surface they fell on; null where they fell on several. */
  readonly surface: string | null;
}

/** The Rig screen's own part of the state; the rig that is in use is the page's. */
export interface Rigging {
  /** Rigs kept in this browser, the newest first. */
  readonly rigs: readonly NamedRig[];
  /** Names of ports whose strikes are not to count. */
  readonly ignoredPorts: readonly string[];
  readonly activity: ReadonlyMap<string, PortActivity>;
  /** The surfaces as they are being found, and the rig they were found for. */
  readonly surfaces: SurfacesState;
  readonly surfacesOf: Rig | null;
  readonly task: RigTask;
  readonly taps: Taps | null;
  /** What the hands showed since the page was opened, with what is wrong about it. */
  readonly heightsShown: readonly HeightsShown[];
  /** What each step has found, in words. */
  readonly results: Readonly<Partial<Record<TaskName, readonly string[]>>>;
  /** Id that each port of a rig had when a strike last said which it is, by name. */
  readonly portIds: Readonly<Record<string, string>>;
  /** Ports of the rig of which nobody knows yet which of several of one name they are. */
  readonly uncertain: readonly string[];
  readonly monitor: MonitorState | null;
  /** What was done before the library was open, to be done when it is; null once it is. */
  readonly waiting: readonly Action[] | null;
}

export const firstRigging: Rigging = {
  rigs: [],
  ignoredPorts: [],
  activity: new Map(),
  surfaces: noSurfaces,
  surfacesOf: null,
  task: { kind: 'rest' },
  taps: null,
  heightsShown: [],
  results: {},
  portIds: {},
  uncertain: [],
  monitor: null,
  waiting: null,
};
