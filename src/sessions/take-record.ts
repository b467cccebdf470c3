import type { Phrase } from '../exercises/types';
import type { JudgedKey } from '../grading/types';
import type { Limits } from '../settings';
import type { Bpm } from '../units';
import type { barsHeld, figure, gradedSchema } from './graded-schema';
import type { Stored } from './stored';
import { saysItIs } from './teacher';
import type { Rig, Take } from './types';

export { GRADED_VERSION } from './graded-schema';
export type KeptFigure = Stored<typeof figure>;
export type BarsHeld = Stored<typeof barsHeld>;
export type Graded = Stored<typeof gradedSchema>;

/** What lists and History show of a take without reading it: small, so that ten thousand open at once. */
export interface TakeSummary {
  readonly id: string;
  readonly title: string;
  /** The name that stands in the take. */
  readonly player: string;
  /** Whose take it is. */
  readonly playerId: string;
  readonly recordedAt: string;
  readonly source: Take['source'];
  /** The tempo, or the first of a ramp. */
  readonly bpm: Bpm;
  readonly hits: number;
  readonly phraseKey: string;
  readonly rigId: string;
  readonly rigName: string;
  readonly limits: Limits;
  /** From the first stroke to the last. */
  readonly minutes: number;
  /** Null where nobody wrote it down: History then tells it from the takes before. */
  readonly cold: boolean | null;
  /** The week sheet, and the remedy, that this take was played to; empty for none. */
  readonly sheetId: string;
  readonly remedy: string;
  /** The sentence of its report, '' until the store's `describe` says it. */
  readonly sentence: string;
  /** Null where it was never graded, or cannot be. */
  readonly graded: Graded | null;
}

/** Measures that are followed over weeks: the others of a record are for backups and for what may be followed one day. */
const FOLLOWED: readonly JudgedKey[] = ['contrast', 'balanceSoft', 'lag'];

/** A record as lists have it: of its measures those that are followed. Ten thousand are read at once. */
export function asListed(record: TakeSummary): TakeSummary {
  const { graded } = record;
  if (graded === null) return record;
  const measures: Partial<Record<JudgedKey, KeptFigure>> = {};
  for (const key of FOLLOWED) if (graded.measures[key] !== undefined) measures[key] = graded.measures[key];
  return { ...record, graded: { ...graded, measures } };
}

/** A take that nobody has graded yet, as lists show it. */
export function summaryOf(take: Take): TakeSummary {
  const { id, player, recordedAt, source, phrase, tempo, hits, rig, limits } = take;
  return {
    id,
    title: phrase.title,
    player,
    playerId: saysItIs(take) ?? '',
    recordedAt,
    source,
    bpm: 'bpm' in tempo ? tempo.bpm : tempo.ramp[0].bpm,
    hits: hits.length,
    phraseKey: phraseKeyOf(phrase),
    rigId: rigIdOf(rig),
    rigName: rigNameOf(rig),
    limits,
    minutes: minutesOf(take),
    cold: take.cold ?? null,
    sheetId: take.sheetId ?? '',
    remedy: take.remedy ?? '',
    sentence: '',
    graded: null,
  };
}

/**
 * What makes a phrase the same phrase: its title and all that is played, whatever its tempo and number of cycles.
 */
export function phraseKeyOf({
  title,
  beatsPerBar,
  partialsPerBeat,
  bars,
  swing,
  feet,
  voicing,
}: Phrase): string {
  const played = bars.map((bar) => [bar.sticking, bar.beatsPerBar, bar.partialsPerBeat, bar.role, bar.dyn]);
  return `${title} #${hashOf([beatsPerBar, partialsPerBeat, played, swing, feet, voicing])}`;
}

/**
 * What a take of a remedy says of it: which phrase it is for, and what is played.
 * @example remedyFor('Single paradiddle', 'accent on 4, alone') // => 'Single paradiddle: accent on 4, alone'
 */
export function remedyFor(title: string, remedy: string): string {
  return `${title}: ${remedy}`;
}

/**
 * The title of the phrase that a remedy is for; undefined where it doesn't say.
 * @example remedyIsFor('Single paradiddle: accent on 4, alone') // => 'Single paradiddle'
 */
export function remedyIsFor(remedy: string): string | undefined {
  const end = remedy.lastIndexOf(': ');
  return end > 0 ? remedy.slice(0, end) : undefined;
}

/** A rig's own id, or one made from the notes it listens to. */
export function rigIdOf({ id, surfaces }: Rig): string {
  return id ?? `rig-${hashOf(surfaces.map(({ port, channel, notes }) => [port, channel, notes]))}`;
}

/** A rig's own name, or the ports it is on. */
function rigNameOf({ name, surfaces }: Rig): string {
  if (name !== undefined && name !== '') return name;
  const ports = [...new Set(surfaces.map(({ port, name: own }) => (port === '*' ? own : port)))];
  return ports.join(', ');
}

function minutesOf({ hits }: Take): number {
  const lastingMs = hits.length < 2 ? 0 : hits[hits.length - 1].atMs - hits[0].atMs;
  return Math.round(lastingMs / 600) / 100;
}

/** FNV-1a, 32 bits, of its JSON: Fowler, Noll and Vo's public-domain hash. */
function hashOf(value: unknown): string {
  const text = JSON.stringify(value);
  let hash = 0x811c9dc5;
  for (let index = 0; index < text.length; index += 1) {
    hash = Math.imul(hash ^ text.charCodeAt(index), 0x01000193);
  }
  return (hash >>> 0).toString(36);
}
