import { InputError } from '../../errors';
import { parseFeet, type FootStroke } from '../../exercises/feet';
import { barSticking, partialsOfBeats } from '../../exercises/phrase';
import type { Note, PartialNotes, Phrase } from '../../exercises/types';
import type { Hand } from '../../stroke';
import { countOf } from '../../sessions/paper/strip/columns';
import { writtenSpan, type NoteValue, type WrittenTuplet } from '../../exercises/rhythm';

/** A note or rest of the hands: no note is a rest, two a unison. */
export interface PlannedNote {
  /** Partial of its beat, from 0. */
  readonly partial: number;
  readonly value: NoteValue;
  readonly dotted: boolean;
  readonly notes: readonly Note[];
  readonly graces: readonly Hand[];
  /** What is counted on it: `1`, `e`, `&`, `a`; empty where nothing is said. */
  readonly count: string;
}

/** A note or rest of the feet, under the staff. */
export interface PlannedFeet {
  readonly partial: number;
  readonly value: NoteValue;
  readonly dotted: boolean;
  readonly feet: readonly FootStroke[];
}

/** One beat: its notes go under one beam. */
export interface PlannedBeat<Planned> {
  readonly notes: readonly Planned[];
  readonly tuplets: readonly WrittenTuplet[];
  readonly partials: number;
}

export interface PlannedMeasure {
  /** Bar of the cycle, from 0. */
  readonly index: number;
  /** The variation, where it differs from the bar before and isn't just its sticking; what the bar is for; its dynamics. */
  readonly label: string;
  /** Quarters in the bar: a beat is written as a quarter. */
  readonly beats: number;
  /** True where the number of beats differs from the bar before. */
  readonly newBeats: boolean;
  readonly hands: readonly PlannedBeat<PlannedNote>[];
  /** Empty where the phrase has no feet. */
  readonly feet: readonly PlannedBeat<PlannedFeet>[];
}

/**
 * One cycle of a phrase as it is written, without any place on a page: note values, tuplets, beats, graces, counts.
 * Swing is not written out: eighths stay eighths.
 * @throws InputError naming the bar, for sticking that doesn't parse and for what no note value can write
 */
export function notationPlan(phrase: Phrase): readonly PlannedMeasure[] {
  const feet = feetOf(phrase);
  let partialsBefore = 0;
  return phrase.bars.map((bar, index) => {
    const beats = partialsOfBeats(phrase, bar);
    const before = index === 0 ? undefined : phrase.bars[index - 1];
    const cells = inBeats(barSticking(phrase, index), beats);
    const barFeet = cells.flat().map((_, partial) => feet[(partialsBefore + partial) % feet.length] ?? []);
    partialsBefore += barFeet.length;
    return {
      index,
      label: labelOf(bar, before),
      beats: beats.length,
      newBeats: before === undefined || partialsOfBeats(phrase, before).length !== beats.length,
      hands: cells.map((partials, beat) => handsBeat(partials, beat, index)),
      feet:
        feet.length === 0
          ? []
          : inBeats(barFeet, beats).map((partials, beat) => feetBeat(partials, beat, index)),
    };
  });
}

function feetOf({ feet }: Phrase): ReturnType<typeof parseFeet> {
  if (feet === undefined) return [];
  try {
    return parseFeet(feet);
  } catch (error) {
    throw error instanceof InputError ? error.within('feet') : error;
  }
}

function labelOf(bar: Phrase['bars'][number], before: Phrase['bars'][number] | undefined): string {
  const role = bar.role === undefined || bar.role === 'play' ? '' : bar.role;
  const known = bar.variation === before?.variation && bar.role === before.role;
  const name = known || unspaced(bar.sticking).startsWith(unspaced(bar.variation)) ? '' : bar.variation;
  const dyn = bar.dyn === undefined || bar.dyn === before?.dyn ? '' : `dynamics ${bar.dyn}`;
  return [[role, name].filter(Boolean).join(': '), dyn].filter(Boolean).join(' · ');
}

const unspaced = (sticking: string): string => sticking.replaceAll(/\s/g, '');

function inBeats<Cell>(cells: readonly Cell[], beats: readonly number[]): Cell[][] {
  let start = 0;
  return beats.map((partials) => cells.slice(start, (start += partials)));
}

function handsBeat(partials: readonly PartialNotes[], beat: number, bar: number): PlannedBeat<PlannedNote> {
  const { notes, tuplets } = written(
    partials.map((partial) => partial.notes.length > 0),
    beat,
    bar,
  );
  const tuplet = tuplets.some((one) => one.notes === notes.length);
  return {
    partials: partials.length,
    tuplets,
    notes: notes.map(({ partial, value, dotted, rest }) => ({
      partial,
      value,
      dotted,
      notes: rest ? [] : partials[partial].notes,
      graces: rest ? [] : partials[partial].graces,
      count: tuplet
        ? countOf(beat, partial, partials.length)
        : straightCount(beat, partial / partials.length),
    })),
  };
}

/** The count of a beat that isn't one tuplet: `1 e & a` on its quarters, wherever its partials fall. */
function straightCount(beat: number, share: number): string {
  return Number.isInteger(share * 4) ? countOf(beat, share * 4, 4) : '';
}

function feetBeat(
  partials: readonly (readonly FootStroke[])[],
  beat: number,
  bar: number,
): PlannedBeat<PlannedFeet> {
  const { notes, tuplets } = written(
    partials.map((feet) => feet.length > 0),
    beat,
    bar,
  );
  return {
    partials: partials.length,
    tuplets,
    notes: notes.map(({ partial, value, dotted, rest }) => ({
      partial,
      value,
      dotted,
      feet: rest ? [] : partials[partial],
    })),
  };
}

function written(struck: readonly boolean[], beat: number, bar: number) {
  const span = writtenSpan(struck);
  if (span !== undefined) return span;
  throw new InputError(
    `bars[${bar}].sticking`,
    `can’t be engraved: beat ${beat + 1} of ${struck.length} partials needs notes shorter than a sixty-fourth`,
  );
}
