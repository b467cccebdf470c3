import type { Grid } from '../exercises/types';
import type { AfterAccentNote, ClosestPairNote } from '../grading/types';
import type { Rig, Surface, Take } from '../sessions/types';
import type { Db, Ms } from '../units';
import { closestPairNotes } from './merged-pairs';

/** What a rig that has learned itself cannot tell, of a take, and whether it knows its false notes. Nothing, for one that has not. */
interface RigDoubts {
  readonly balanceLeftDb?: Db;
  readonly afterAccent?: readonly AfterAccentNote[];
  readonly closestPairs?: readonly ClosestPairNote[];
  readonly clumped?: boolean;
  readonly falseNotesKnown?: boolean;
}

/** A pad that adds less than this to a tap after an accent is not worth a word. Common practice. */
const WORTH_DB: Db = 1;

export function rigDoubts(rig: Rig, grid: Grid, hits: Take['hits']): RigDoubts {
  const ofHands = rig.surfaces.filter(({ foot }) => foot === undefined);
  const left = ofHands.flatMap(({ spots, trimLeftDb }) => spots?.leftDb ?? trimLeftDb ?? []);
  const gapMs = soonestAfterAccentMs(grid);
  const notes = ofHands.flatMap((surface) => afterAccentNote(surface, gapMs));
  const pairs = closestPairNotes(rig, grid);
  const isClumped = rig.clumpedPorts?.some((name) => hits.some(({ port }) => port === name)) === true;
  return {
    ...(left.length === 0 ? {} : { balanceLeftDb: Math.max(...left) }),
    ...(notes.length === 0 ? {} : { afterAccent: notes }),
    ...(pairs.length === 0 ? {} : { closestPairs: pairs }),
    ...(isClumped ? { clumped: true } : {}),
    ...(knowsFalseNotes(rig, ofHands) ? { falseNotesKnown: true } : {}),
  };
}

const knowsFalseNotes = ({ crosstalk = [] }: Rig, ofHands: readonly Surface[]): boolean =>
  crosstalk.length > 0 ||
  ofHands.some(({ forerunner, echo }) => forerunner !== undefined || echo !== undefined);

function afterAccentNote({ name, afterAccent }: Surface, gapMs: Ms): readonly AfterAccentNote[] {
  if (afterAccent === undefined || gapMs > afterAccent.withinMs) return [];
  const { db, withinMs } = afterAccent;
  return Math.abs(db) < WORTH_DB ? [] : [{ surface: name, withinMs, db }];
}

/** The shortest time from an accent to the same hand's next stroke, where that is a soft one; infinite without any. */
function soonestAfterAccentMs({ slots }: Grid): Ms {
  let soonest = Infinity;
  const accentAt = new Map<string, Ms>();
  for (const { hand, kind, atMs } of slots) {
    const accent = accentAt.get(hand);
    if (kind === 'accent') accentAt.set(hand, atMs);
    else {
      if (accent !== undefined) soonest = Math.min(soonest, atMs - accent);
      accentAt.delete(hand);
    }
  }
  return soonest;
}
