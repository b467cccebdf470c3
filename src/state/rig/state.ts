import type { Answers, Asked } from '../../midi/learning/asked-strokes';
import type { ClosestPairState } from '../../midi/learning/closest-pair';
import type { DelaysFound, DelaysState } from '../../midi/learning/delays';
import type { SurfaceEdit } from '../../midi/learning/edit-surfaces';
import type { FalseNotesState } from '../../midi/learning/false-notes';
import type { HeightsShown, HeightsState } from '../../midi/learning/heights';
import type { SpotPlaces, SpotsState } from '../../midi/learning/spots';
import { noSurfaces, type SurfacesState } from '../../midi/learning/surfaces';
import type { MonitorState } from '../../midi/monitor';
import type { NamedRig } from '../../sessions/rig-file';
import type { Rig } from '../../sessions/types';
import type { RawHit } from '../../stroke';
import type { Ms } from '../../units';
import type { Strikes } from '../../take/types';

/** What can be taught to a rig, in the order in which it is asked. The first three are the two-minute path. */
export const taskNames = [
  'surfaces',
  'hands',
  'heights',
  'spots',
  'trims',
  'softest',
  'pairs',
  'false notes',
  'delays',
] as const;
export type TaskName = (typeof taskNames)[number];

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

interface KnownOutput {
  readonly ms: Ms;
  readonly from: 'audio clock' | 'by hand';
}

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

/** The Rig screen's own part of a sitting; the rig that is in use is the sitting's. */
export interface Rigging {
  /** Rigs kept in this browser, the newest first. */
  readonly rigs: readonly NamedRig[];
  /** Names of ports whose strikes are not to count. */
  readonly unheard: readonly string[];
  readonly activity: ReadonlyMap<string, PortActivity>;
  /** The surfaces as they are being found, and the rig they were found for. */
  readonly surfaces: SurfacesState;
  readonly surfacesOf: Rig | null;
  readonly task: RigTask;
  readonly taps: Taps | null;
  /** What the hands showed in this sitting, with what is wrong about it. */
  readonly heightsShown: readonly HeightsShown[];
  /** What each step has found, in words. */
  readonly told: Readonly<Partial<Record<TaskName, readonly string[]>>>;
  /** Id that each port of a rig had when a strike last said which it is, by name. */
  readonly portIds: Readonly<Record<string, string>>;
  /** Ports of the rig of which nobody knows yet which of several of one name they are. */
  readonly uncertain: readonly string[];
  readonly monitor: MonitorState | null;
}

export const firstRigging: Rigging = {
  rigs: [],
  unheard: [],
  activity: new Map(),
  surfaces: noSurfaces,
  surfacesOf: null,
  task: { kind: 'rest' },
  taps: null,
  heightsShown: [],
  told: {},
  portIds: {},
  uncertain: [],
  monitor: null,
};

/** What may happen on the Rig screen. */
export type RiggingEvent =
  /** A strike of any port; `newId` is the id of the rig it may bring about. */
  | { readonly kind: 'hit'; readonly hit: RawHit; readonly newId: string }
  | { readonly kind: 'tick'; readonly atMs: Ms }
  | { readonly kind: 'begin'; readonly task: TaskName; readonly surface?: string }
  | { readonly kind: 'again' }
  | { readonly kind: 'skip' }
  | { readonly kind: 'rest' }
  | { readonly kind: 'edit'; readonly edit: SurfaceEdit }
  | { readonly kind: 'start surface'; readonly surface: string | null }
  /** The click of a play-along has begun. */
  | { readonly kind: 'clicks'; readonly clicksMs: readonly Ms[]; readonly output: KnownOutput | null }
  | { readonly kind: 'accept delays' }
  | { readonly kind: 'output delay'; readonly ms: Ms }
  | { readonly kind: 'hear port'; readonly port: string; readonly counts: boolean }
  | { readonly kind: 'kept'; readonly rigs: readonly NamedRig[]; readonly unheard: readonly string[] }
  | { readonly kind: 'port ids'; readonly portIds: Readonly<Record<string, string>> }
  | { readonly kind: 'new rig' }
  | { readonly kind: 'choose rig'; readonly id: string }
  | { readonly kind: 'take rig'; readonly rig: NamedRig }
  | { readonly kind: 'name rig'; readonly name: string; readonly newId: string }
  | { readonly kind: 'delete rig'; readonly id: string }
  | { readonly kind: 'clumped'; readonly ports: readonly string[] }
  | { readonly kind: 'monitor'; readonly monitor: MonitorState };
