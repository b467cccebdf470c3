import { InputError } from '../errors';
import type { Hand } from '../stroke';
import type { Ms } from '../units';
import { barSticking, partialsOfBeats } from './phrase';
import { beatLengthMs } from './tempo';
import type { Grid, GridBar, Kind, Phrase, Slot, StrokeType, Tempo } from './types';
import { patternLength } from './variations';

const SAME_GAP_MS = 1e-6;
const STRAIGHT = 0.5;
/** A hand that rests this long after a stroke lets the stick stop where it likes. */
const HAND_REST_MS: Ms = 700;

/**
 * Phrase, tempo and downbeat as slots with their times.
 * @param downbeatMs time of the first partial of bar 1, cycle 1
 * @param bars how many bars, from the first, repeating the cycle; default: the phrase's cycles
 * @throws InputError for a bar that does not parse, or a phrase with nothing to play; unisons, feet and
 *   bars to listen to are refused by name: they are read and written but not graded yet
 * @example a sixteenth at 120 bpm lasts 125 ms, so the second slot of a bar of sixteenths is due 125 ms in
 */
export function gridOf(
  phrase: Phrase,
  tempo: Tempo,
  downbeatMs: Ms,
  bars = phrase.cycles * phrase.bars.length,
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
    });
    startMs = beatsMs[beatsMs.length - 1];
  }
  return assembled(due, gridBars, cycle.length, slotsPerCycle);
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
  /** Where in its beat it falls, 0 to 1. */
  readonly share: number;
}

interface BarPlan {
  readonly variation: string;
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
  refuseWhatWaits(phrase, index);
  const sticking = barSticking(phrase, index);
  const partialsPerBeat = partialsOfBeats(phrase, bar);
  const period = patternLength(sticking);
  const notes: PlannedNote[] = [];
  let partial = 0;
  partialsPerBeat.forEach((partials, beat) => {
    for (let partialInBeat = 0; partialInBeat < partials; partialInBeat += 1, partial += 1) {
      const { notes: struck, graces } = sticking[partial];
      if (struck.length > 1) throw waits(`phrase.bars[${index}].sticking`, 'unisons');
      for (const { hand, kind } of struck) {
        const share = shareOfBeat(partialInBeat, partials, phrase.swing ?? STRAIGHT);
        notes.push({
          hand,
          kind,
          slot: notes.length,
          partial,
          beat,
          partialInBeat,
          place: partial % period,
          graces,
          share,
        });
      }
    }
  });
  return { variation: bar.variation, partialsPerBeat, patternLength: period, notes };
}

/**
 * Where in its beat a partial falls, 0 to 1. With swing every second partial of a beat moves: of two, the second falls
 * at `swing` of their time.
 * @param partial of the beat, from 0
 * @param partials in the beat
 */
export function shareOfBeat(partial: number, partials: number, swing: number): number {
  const swung = partials % 2 === 0 && partial % 2 === 1;
  return (swung ? partial - 1 + 2 * swing : partial) / partials;
}

function refuseWhatWaits(phrase: Phrase, index: number): void {
  if (phrase.feet !== undefined) throw waits('phrase.feet', 'feet');
  const { role, dyn } = phrase.bars[index];
  if (role !== undefined && role !== 'play') throw waits(`phrase.bars[${index}].role`, `"${role}" bars`);
  if (dyn !== undefined) throw waits(`phrase.bars[${index}].dyn`, 'a dyn line');
}

function waits(place: string, what: string): InputError {
  return new InputError(place, `must do without ${what}: they are kept in files but not graded yet`);
}

function assembled(
  due: readonly DueNote[],
  bars: readonly GridBar[],
  barsPerCycle: number,
  slotsPerCycle: number,
): Grid {
  const next = nextOfHand(due);
  let smallest = Infinity;
  let largest = 0;
  const slots = due.map(({ note, plan, bar, atMs }, index): Slot => {
    const before = index > 0 ? atMs - due[index - 1].atMs : Infinity;
    const after = index + 1 < due.length ? due[index + 1].atMs - atMs : Infinity;
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
    };
  });
  return {
    slots,
    bars,
    barsPerCycle,
    slotsPerCycle,
    smallestGapMs: smallest,
    regular: largest - smallest <= SAME_GAP_MS,
  };
}

/**
 * For each slot the kind of the same hand's next stroke; undefined where there is none in the take, or the hand rests
 * over 700 ms.
 */
function nextOfHand(due: readonly DueNote[]): (Kind | undefined)[] {
  const next: (Kind | undefined)[] = Array.from({ length: due.length });
  const ahead: Record<Hand, DueNote | undefined> = { R: undefined, L: undefined };
  for (let index = due.length - 1; index >= 0; index -= 1) {
    const { note, atMs } = due[index];
    const following = ahead[note.hand];
    if (following !== undefined && following.atMs - atMs <= HAND_REST_MS) next[index] = following.note.kind;
    ahead[note.hand] = due[index];
  }
  return next;
}

function strokeType(kind: Kind, next: Kind | undefined): StrokeType {
  if (kind === 'accent') return next === undefined || next === 'accent' ? 'full' : 'down';
  return next === 'accent' ? 'up' : 'tap';
}
