import type { CrosstalkWindow, EchoWindow, ForerunnerWindow } from '../../sessions/learned';
import type { Rig, Surface } from '../../sessions/types';
import type { RawHit } from '../../stroke';
import type { Ms } from '../../units';
import { surfaceFinder } from '../rig';
import { burstsOf } from './bursts';

/** Half a minute of single strokes, on every surface in turn, never two at once and half a second apart. */
export interface FalseNotesState {
  readonly hits: readonly RawHit[];
  /** Strokes begun, by surface. */
  readonly strokes: ReadonlyMap<string, number>;
}

export const noFalseNotes: FalseNotesState = { hits: [], strokes: new Map() };

/** Strokes are parted by at least this much silence; late crosstalk from a floor comes within it. */
const SILENCE_MS: Ms = 200;
/** The second loudest note of a stroke reaching this share of the loudest may be a stroke of the player's. */
const UNCLEAR_RATIO = 0.7;
/** Fewer false notes than this may be chance. */
const FEWEST = 2;
/** What is added to the times and shares seen: the next may lie a little farther out. */
const SLACK_MS: Ms = 2;
/** Echoes vary more, and a note wrongly called echo-like may still be a stroke. */
const ECHO_SLACK_MS: Ms = 12;
const SLACK_RATIO = 1.25;
const ZONE_MS: Ms = 10;

/** One hit further; what belongs to no surface is left out. */
export function nextSingle(rig: Rig): (state: FalseNotesState, hit: RawHit) => FalseNotesState {
  const surfaceOf = surfaceFinder(rig);
  return ({ hits, strokes }, hit) => {
    const surface = surfaceOf(hit);
    if (surface === undefined) return { hits, strokes };
    const last = hits[hits.length - 1] as RawHit | undefined;
    const isNew = last === undefined || hit.atMs - last.atMs >= SILENCE_MS;
    const counted = isNew ? new Map(strokes).set(surface.id, (strokes.get(surface.id) ?? 0) + 1) : strokes;
    return { hits: [...hits, hit], strokes: counted };
  };
}

/** What was learned of false notes. A window is there where at least two false notes were seen. */
export interface FalseNotes {
  readonly surfaces: readonly OwnFalseNotes[];
  readonly crosstalk: readonly CrosstalkWindow[];
  /** Strokes beside which something nearly as loud sounded: left out, for it may have been played. */
  readonly unclear: number;
}

interface OwnFalseNotes {
  readonly surface: string;
  /** Single strokes on it. */
  readonly strokes: number;
  readonly forerunner: ForerunnerWindow | undefined;
  readonly echo: EchoWindow | undefined;
}

interface FalseNote {
  readonly afterMs: Ms;
  readonly ratio: number;
}

/**
 * Forerunners, echoes and crosstalk with their windows. The loudest note of a burst is the stroke; on its own surface
 * what came before is a forerunner and what came after an echo (another note within 10 ms: a zone), elsewhere it is
 * crosstalk of that ordered pair, early or late.
 */
export function falseNotesFound(rig: Rig, { hits }: FalseNotesState): FalseNotes {
  const surfaceOf = surfaceFinder(rig);
  const strokes = new Map<string, number>();
  const seen = new Map<string, FalseNote[]>();
  let unclear = 0;
  for (const burst of burstsOf(hits, SILENCE_MS)) {
    const main = burst.reduce((loudest, hit) => (hit.velocity > loudest.velocity ? hit : loudest));
    const struck = surfaceOf(main)?.id ?? '';
    const others = burst.filter((hit) => {
      const isZone = surfaceOf(hit)?.id === struck && hit.note !== main.note;
      return hit !== main && !(isZone && Math.abs(hit.atMs - main.atMs) <= ZONE_MS);
    });
    if (others.some(({ velocity }) => velocity > UNCLEAR_RATIO * main.velocity)) {
      unclear += 1;
      continue;
    }
    strokes.set(struck, (strokes.get(struck) ?? 0) + 1);
    for (const hit of others) {
      const afterMs = hit.atMs - main.atMs;
      const on = surfaceOf(hit)?.id ?? '';
      const key = keyOf(on === struck ? (afterMs < 0 ? 'forerunner' : 'echo') : 'crosstalk', struck, on);
      seen.set(key, [...(seen.get(key) ?? []), { afterMs, ratio: hit.velocity / main.velocity }]);
    }
  }
  const rangeOf = (kind: Kind, from: string, to: string): Range | undefined =>
    rangeOfNotes(seen.get(keyOf(kind, from, to)) ?? []);
  return {
    surfaces: rig.surfaces.map(({ id }) => ({
      surface: id,
      strokes: strokes.get(id) ?? 0,
      forerunner: forerunnerOf(rangeOf('forerunner', id, id)),
      echo: echoOf(rangeOf('echo', id, id)),
    })),
    crosstalk: rig.surfaces.flatMap((from) =>
      rig.surfaces.flatMap((to) => {
        const range = from === to ? undefined : rangeOf('crosstalk', from.id, to.id);
        return range === undefined ? [] : [crosstalkOf(from, to, range)];
      }),
    ),
    unclear,
  };
}

/** The rig with the windows found; what was not struck keeps what it had. */
export function rigWithWindows(rig: Rig, { surfaces, crosstalk }: FalseNotes): Rig {
  const kept = (rig.crosstalk ?? []).filter(
    ({ from, to }) => !crosstalk.some((one) => one.from === from && one.to === to),
  );
  const pairs = [...kept, ...crosstalk];
  return {
    ...rig,
    surfaces: rig.surfaces.map((surface): Surface => {
      const own = surfaces.find((one) => one.surface === surface.id);
      return {
        ...surface,
        ...(own?.forerunner === undefined ? {} : { forerunner: own.forerunner }),
        ...(own?.echo === undefined ? {} : { echo: own.echo }),
      };
    }),
    ...(pairs.length === 0 ? {} : { crosstalk: pairs }),
  };
}

type Kind = 'forerunner' | 'echo' | 'crosstalk';
const keyOf = (kind: Kind, from: string, to: string): string => JSON.stringify([kind, from, to]);

interface Range {
  readonly leastMs: Ms;
  readonly mostMs: Ms;
  readonly ratio: number;
  readonly n: number;
}

function rangeOfNotes(notes: readonly FalseNote[]): Range | undefined {
  if (notes.length < FEWEST) return undefined;
  const times = notes.map(({ afterMs }) => afterMs);
  const ratio = Math.min(1, SLACK_RATIO * Math.max(...notes.map((note) => note.ratio)));
  return { leastMs: Math.min(...times), mostMs: Math.max(...times), ratio, n: notes.length };
}

const forerunnerOf = (range: Range | undefined): ForerunnerWindow | undefined =>
  range && { withinMs: SLACK_MS - range.leastMs, ratio: range.ratio, n: range.n };

const echoOf = (range: Range | undefined): EchoWindow | undefined =>
  range && {
    fromMs: Math.max(0, range.leastMs - ECHO_SLACK_MS),
    toMs: range.mostMs + ECHO_SLACK_MS,
    ratio: range.ratio,
    n: range.n,
  };

const crosstalkOf = (from: Surface, to: Surface, { leastMs, mostMs, ratio, n }: Range): CrosstalkWindow => ({
  from: from.id,
  to: to.id,
  fromMs: leastMs - SLACK_MS,
  toMs: mostMs + SLACK_MS,
  ratio,
  n,
});
