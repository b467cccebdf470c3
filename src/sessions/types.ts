import type { ClickPlan } from '../exercises/click-plan';
import type { Phrase, Tempo } from '../exercises/types';
import type { Limits } from '../settings';
import type { Hand, RawHit } from '../stroke';
import type { Db, Ms } from '../units';
import type {
  AfterAccent,
  CrosstalkWindow,
  EchoWindow,
  ForerunnerWindow,
  HandHeights,
  LearnedDelays,
  SpotTrims,
  StartSurface,
} from './learned';
import type { TakeEvent } from './take-events';

/** One playable thing, owning a set of notes on one port and channel. `port` "*" is any port. */
export interface Surface {
  readonly id: string;
  readonly name: string;
  readonly port: string;
  /** 1–16. */
  readonly channel: number;
  readonly notes: readonly number[];
  /** The hand that plays it, or null where either may. */
  readonly hand: Hand | null;
  readonly trimDb: Db;
  /** Lowest velocity that arrives, where the rig has learned it. */
  readonly thresholdVelocity?: number;
  /** The foot that plays it: `K` the bass drum's, `H` the hi-hat's. Its strokes never enter the hands' measures. */
  readonly foot?: 'K' | 'H';
  /** True where its trim was set against the player's other trimmed surfaces: then levels compare across them. */
  readonly trimmed?: boolean;
  /** How far that trim may still be off: half its 90 % interval. */
  readonly trimLeftDb?: Db;
  /** Where each hand's low, half and full strokes lie. */
  readonly heights?: HandHeights;
  /** Trims of each hand's landing spot, where two hands share the surface. They come on top of `trimDb`. */
  readonly spots?: SpotTrims;
  /** Two strokes nearer than this may arrive as one. */
  readonly closestPairMs?: Ms;
  readonly afterAccent?: AfterAccent;
  readonly forerunner?: ForerunnerWindow;
  readonly echo?: EchoWindow;
}

/** A player's set-up. */
export interface Rig {
  readonly levelLaw: 'gm2';
  readonly inputDelayMs: Ms;
  readonly outputDelayMs: Ms;
  readonly surfaces: readonly Surface[];
  readonly id?: string;
  readonly name?: string;
  /** By ordered pair of surfaces; the settings' window elsewhere. */
  readonly crosstalk?: readonly CrosstalkWindow[];
  /** How the two delays were learned. */
  readonly delays?: LearnedDelays;
  readonly start?: StartSurface;
  /** Ports whose time stamps come in clumps (wireless MIDI): levels are graded there, timing is not. */
  readonly clumpedPorts?: readonly string[];
}

/** `evenhand-take`, version 1: take-format.md. Unknown keys survive a round trip. */
export interface Take {
  readonly format: 'evenhand-take';
  readonly version: 1;
  readonly id: string;
  readonly player: string;
  /** ISO 8601. */
  readonly recordedAt: string;
  readonly source: 'played' | 'model' | 'imported';
  readonly phrase: Phrase;
  readonly tempo: Tempo;
  readonly click: 'on' | 'bare' | 'none';
  /** Which partials clicked, how, and which bars were bare. Absent for a click on every beat. */
  readonly clicks?: ClickPlan;
  readonly limits: Limits;
  /** Only what differs from the defaults. */
  readonly settings: Readonly<Record<string, number>>;
  readonly rig: Rig;
  /** Time of the first slot of bar 1, cycle 1, on the clock of `hits`; null for a free take. */
  readonly downbeatMs: Ms | null;
  /** Raw, in time order. */
  readonly hits: readonly RawHit[];
  readonly notes: string;
  /** Whose take it is in the library it comes from; `player` is only what they are called. */
  readonly playerId?: string;
  /** True for the first take of a sitting without a warm-up, false after one. Absent where nobody knows. */
  readonly cold?: boolean;
  /** The week sheet it was played to. */
  readonly sheetId?: string;
  /** The remedy it was played to, in words. */
  readonly remedy?: string;
  /** What happened beside the strokes, in time order; absent where nothing did. */
  readonly events?: readonly TakeEvent[];
}
