import { otherHand, type Hand } from '../stroke';
import type { Kind, Note, PartialNotes, Sticking } from './types';

/**
 * The same hands with the accent on one partial of every beat, the rest taps.
 * @param partial partial of the beat, from 0
 * @param partialsPerBeat partials in a beat
 */
export function accentOn(pattern: Sticking, partial: number, partialsPerBeat: number): Sticking {
  return pattern.map((notes, index) =>
    withKind(notes, index % partialsPerBeat === partial ? 'accent' : 'tap'),
  );
}

/** *Accent walk*: the accent moved to each partial of the beat in turn. */
export function accentWalk(pattern: Sticking, partialsPerBeat: number): Sticking[] {
  return Array.from({ length: partialsPerBeat }, (_, partial) => accentOn(pattern, partial, partialsPerBeat));
}

/**
 * *Rotation*: the hands started from another note of the pattern, mirrored where needed so that the bar keeps its
 * lead hand, the accents held where they were.
 * @param steps how many notes later it starts
 * @example rotation 1 of RLRR LRLL is LRRL RLLR, mirrored: RLLR LRRL
 */
function rotation(pattern: Sticking, steps: number): Sticking {
  const hands = pattern.map((_, index) => pattern[(index + steps) % pattern.length]);
  const turned = leadOf(hands) === leadOf(pattern) ? hands : mirror(hands);
  return turned.map((notes, index) => withKindsOf(notes, pattern[index]));
}

/**
 * *Rotations*: started from each note up to the one where the mirror of the first would come again. Two that differ
 * only in where their grace notes stand are two.
 */
export function rotations(pattern: Sticking): Sticking[] {
  const seen = new Set<string>();
  const found: Sticking[] = [];
  for (let steps = 0; steps < pattern.length; steps += 1) {
    const turned = rotation(pattern, steps);
    const shape = turned.map(
      ({ notes, graces }) => `${notes.map(({ hand }) => hand).join('+')}${graces.length}`,
    );
    if (!seen.has(shape.join(','))) found.push(turned);
    seen.add(shape.join(','));
  }
  return found;
}

/** *Displacement*: the whole figure, accent and all, so many partials later; what falls off the end comes round. */
export function displacement(pattern: Sticking, partials: number): Sticking {
  const length = pattern.length;
  return pattern.map((_, index) => pattern[(((index - partials) % length) + length) % length]);
}

/** *Displacements*: the figure started on each partial until it would stand where it stood. */
export function displacements(pattern: Sticking): Sticking[] {
  return Array.from({ length: patternLength(pattern) }, (_, partials) => displacement(pattern, partials));
}

/**
 * *One hand's line alone*: the other hand's strokes become rests. Grace notes are the other hand's and go.
 * A bar in which this hand has nothing is rests only.
 */
export function oneHand(sticking: Sticking, hand: Hand): Sticking {
  return sticking.map(({ notes }) => ({ notes: notes.filter((note) => note.hand === hand), graces: [] }));
}

/** Partials of the beat, from 0, on which something is struck in at least one beat: where an accent can go. */
export function struckPartials(sticking: Sticking, partialsPerBeat: number): number[] {
  const partials = Array.from({ length: partialsPerBeat }, (_, partial) => partial);
  return partials.filter((partial) =>
    sticking.some(({ notes }, index) => index % partialsPerBeat === partial && notes.length > 0),
  );
}

/**
 * The pattern running on over beats and bar lines until it comes round with a bar line: how a pattern is squeezed into
 * another subdivision. A pattern of 8 in bars of four quintuplets (20) takes two bars.
 */
export function runningBars(pattern: Sticking, partialsPerBar: number): Sticking[] {
  const bars = leastCommonMultiple(pattern.length, partialsPerBar) / partialsPerBar;
  const whole = filled(pattern, bars * partialsPerBar);
  return Array.from({ length: bars }, (_, bar) =>
    whole.slice(bar * partialsPerBar, (bar + 1) * partialsPerBar),
  );
}

/** *Mirror*: the other lead; right and left change places, kinds stay. */
export function mirror(sticking: Sticking): Sticking {
  return sticking.map(({ notes, graces }) => ({
    notes: notes.map((note) => ({ ...note, hand: otherHand(note.hand) })).sort(rightFirst),
    graces: graces.map(otherHand),
  }));
}

/** The hand of the first stroke that one hand plays; undefined where there is none. */
export function leadOf(sticking: Sticking): Hand | undefined {
  return sticking.find((partial) => partial.notes.length === 1)?.notes[0].hand;
}

/** *Accents off*: every accent a tap. */
export function accentsOff(sticking: Sticking): Sticking {
  return sticking.map((partial) => ({
    ...partial,
    notes: partial.notes.map((note) => (note.kind === 'accent' ? { ...note, kind: 'tap' } : note)),
  }));
}

/** The pattern again and again until `partials` are filled. */
export function filled(pattern: Sticking, partials: number): Sticking {
  return Array.from({ length: partials }, (_, index) => pattern[index % pattern.length]);
}

/**
 * Length of the pattern: the smallest period that divides the bar and repeats hands, kinds, graces and rests.
 * @example patternLength(parseSticking('Rlrr Lrll Rlrr Lrll')[0]) // => 8
 */
export function patternLength(bar: Sticking): number {
  const same = bar.map((partial) => JSON.stringify([partial.notes, partial.graces]));
  for (let period = 1; period < bar.length; period += 1) {
    if (bar.length % period === 0 && same.every((text, index) => text === same[index % period]))
      return period;
  }
  return bar.length;
}

function withKind(partial: PartialNotes, kind: Kind): PartialNotes {
  return { ...partial, notes: partial.notes.map((note) => ({ ...note, kind })) };
}

function withKindsOf(hands: PartialNotes, kinds: PartialNotes): PartialNotes {
  return {
    ...hands,
    notes: hands.notes.map((note, index) => ({
      ...note,
      kind: (kinds.notes[index] ?? kinds.notes[0])?.kind ?? 'tap',
    })),
  };
}

function leastCommonMultiple(a: number, b: number): number {
  let [larger, smaller] = [a, b];
  while (smaller > 0) [larger, smaller] = [smaller, larger % smaller];
  return (a / larger) * b;
}

const rightFirst = (a: Note, b: Note): number => (a.hand === b.hand ? 0 : a.hand === 'R' ? -1 : 1);
