import { InputError } from '../errors';
import { settingTable } from '../settings';
import type { Hand } from '../stroke';
import type { Db, Ms } from '../units';
import { dynamicsOf } from './dynamics';
import { feetSlots } from './feet-grid';
import { barSticking, partialsOfBeats } from './phrase';
import { shareOfBeat } from './share-of-beat';
import { beatLengthMs } from './tempo';
import type { Grid, GridBar, Kind, Phrase, Slot, StrokeType, Tempo } from './types';
import { patternLength } from './variations';
import { surfaceOfNote } from './voicings';

export { shareOfBeat } from './share-of-beat';

const SAME_GAP_MS = 1e-6;
const STRAIGHT = 0.5;
/** A hand that rests this long after a stroke lets the stick stop where it likes. */
const HAND_REST_MS: Ms = settingTable['hand.restMs'].working;

/**
 * Phrase, tempo and downbeat as slots with their times.
 * @param downbeatMs time of the first partial of bar 1, cycle 1
 * @param bars how many bars, from the first, repeating the cycle; default: the phrase's cycles
 * @param handRestMs a hand that rests longer after a stroke has no next one: it is *full* or *tap*
 * Bars to listen to and to count aloud have no slots. Both notes of a unison have one, at the same time.
 * @throws InputError for a bar, a dyn line or a feet line that does not parse, or a phrase with nothing to play
 * @example a sixteenth at 120 bpm lasts 125 ms, so the second slot of a bar of sixteenths is due 125 ms in
 */
export function gridOf(
  phrase: Phrase,
  tempo: Tempo,
  downbeatMs: Ms,
  bars = phrase.cycles * phrase.bars.length,
  handRestMs: Ms = HAND_REST_MS,
): Grid {
  const cycle = phrase.bars.map((_, index) => barPlan(phrase, index));
  const slotsPerCycle = cycle.reduce((sum, bar) => sum + bar.notes.length, 0);
  if (slotsPerCycle === 0) throw new InputError('phrase.bars', 'must have at least one stroke');

  const gridBars: GridBar[] = [];
  const due: DueNote[] = [];
  let startMs = downbeatMs;
  for (let index = 0; index < bars; index += 1) {
    const barInCycle = index % cycle.length;
    const plan = cycle[barInCycle];
    const beatsMs: Ms[] = [startMs];
    for (let beat = 0; beat < plan.partialsPerBeat.length; beat += 1) {
      beatsMs.push(beatsMs[beat] + beatLengthMs(tempo, index + beat / plan.partialsPerBeat.length));
    }
    const firstSlot = due.length;
    for (const note of plan.notes) {
      const { beat, share } = note;
      due.push({ note, plan, bar: index, atMs: beatsMs[beat] + share * (beatsMs[beat + 1] - beatsMs[beat]) });
    }
    gridBars.push({
      index,
      barInCycle,
      cycle: Math.floor(index / cycle.length),
      variation: plan.variation,
      startMs,
      endMs: beatsMs[beatsMs.length - 1],
      beats: plan.partialsPerBeat.length,
      beatsMs: beatsMs.slice(0, -1),
      firstSlot,
      slots: plan.notes.length,
      partialsPerBeat: plan.partialsPerBeat,
      role: plan.role,
      ...(plan.dyn === undefined ? {} : { dyn: plan.dyn }),
    });
    startMs = beatsMs[beatsMs.length - 1];
  }
  return assembled(phrase, due, gridBars, slotsPerCycle, handRestMs);
}

interface PlannedNote {
  readonly hand: Hand;
  readonly kind: Kind;
  readonly slot: number;
  readonly partial: number;
  readonly beat: number;
  readonly partialInBeat: number;
  readonly place: number;
  readonly graces: readonly Hand[];
  readonly together: 1 | 2;
  readonly surface: string | null;
  readonly shiftDb: Db;
  /** Where in its beat it falls, 0 to 1. */
  readonly share: number;
}

interface BarPlan {
  readonly variation: string;
  readonly role: GridBar['role'];
  readonly dyn: string | undefined;
  readonly partialsPerBeat: readonly number[];
  readonly patternLength: number;
  readonly notes: readonly PlannedNote[];
}

interface DueNote {
  readonly note: PlannedNote;
  readonly plan: BarPlan;
  readonly bar: number;
  readonly atMs: Ms;
}

function barPlan(phrase: Phrase, index: number): BarPlan {
  const bar = phrase.bars[index];
  const role = bar.role ?? 'play';
  const sticking = barSticking(phrase, index);
  const partialsPerBeat = partialsOfBeats(phrase, bar);
  const period = patternLength(sticking);
  const shiftAt = dynamicsOf(phrase, index);
  const notes: PlannedNote[] = [];
  let partial = 0;
  partialsPerBeat.forEach((partials, beat) => {
    for (let partialInBeat = 0; partialInBeat < partials; partialInBeat += 1, partial += 1) {
      if (role !== 'play') continue;
      const { notes: struck, graces } = sticking[partial];
      const share = shareOfBeat(partialInBeat, partials, phrase.swing ?? STRAIGHT);
      for (const note of struck) {
        notes.push({
          hand: note.hand,
          kind: note.kind,
          slot: notes.length,
          partial,
          beat,
          partialInBeat,
          place: partial % period,
          graces,
          together: struck.length > 1 ? 2 : 1,
          surface: surfaceOfNote(phrase.voicing ?? {}, note) ?? null,
          shiftDb: shiftAt(beat + share),
          share,
        });
      }
    }
  });
  return { variation: bar.variation, role, dyn: bar.dyn, partialsPerBeat, patternLength: period, notes };
}

function assembled(
  phrase: Phrase,
  due: readonly DueNote[],
  bars: readonly GridBar[],
  slotsPerCycle: number,
  handRestMs: Ms,
): Grid {
  const next = nextOfHand(due, handRestMs);
  let smallest = Infinity;
  let largest = 0;
  const slots = due.map(({ note, plan, bar, atMs }, index): Slot => {
    const other = note.together - 1;
    const isSecond = other > 0 && due[index - 1]?.atMs === atMs;
    const ahead = due[index - 1 - (isSecond ? other : 0)];
    const behind = due[index + 1 + (isSecond ? 0 : other)];
    const before = ahead === undefined ? Infinity : atMs - ahead.atMs;
    const after = behind === undefined ? Infinity : behind.atMs - atMs;
    const gapMs = Math.min(before, after, bars[bar].endMs - bars[bar].startMs);
    smallest = Math.min(smallest, gapMs);
    if (after < Infinity) largest = Math.max(largest, after);
    return {
      index,
      bar,
      barInCycle: bars[bar].barInCycle,
      cycle: bars[bar].cycle,
      variation: plan.variation,
      slot: note.slot,
      partial: note.partial,
      beat: note.beat,
      partialInBeat: note.partialInBeat,
      place: note.place,
      patternLength: plan.patternLength,
      atMs,
      gapMs,
      hand: note.hand,
      kind: note.kind,
      type: strokeType(note.kind, next[index]),
      graces: note.graces,
      together: note.together,
      surface: note.surface,
      shiftDb: note.shiftDb,
    };
  });
  return {
    slots,
    bars,
    barsPerCycle: phrase.bars.length,
    slotsPerCycle,
    feet: feetSlots(phrase, bars),
    swing: phrase.swing ?? STRAIGHT,
    smallestGapMs: smallest,
    regular: largest - smallest <= SAME_GAP_MS,
  };
}

/**
 * For each slot the kind of the same hand's next stroke; undefined where there is none in the take, or the hand rests
 * longer.
 */
function nextOfHand(due: readonly DueNote[], handRestMs: Ms): (Kind | undefined)[] {
  const next: (Kind | undefined)[] = Array.from({ length: due.length });
  const ahead: Record<Hand, DueNote | undefined> = { R: undefined, L: undefined };
  for (let index = due.length - 1; index >= 0; index -= 1) {
    const { note, atMs } = due[index];
    const following = ahead[note.hand];
    if (following !== undefined && following.atMs - atMs <= handRestMs) next[index] = following.note.kind;
    ahead[note.hand] = due[index];
  }
  return next;
}

function strokeType(kind: Kind, next: Kind | undefined): StrokeType {
  if (kind === 'accent') return next === undefined || next === 'accent' ? 'full' : 'down';
  return next === 'accent' ? 'up' : 'tap';
}
