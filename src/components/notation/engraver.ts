import {
  BarlineType,
  Beam,
  Dot,
  Formatter,
  GhostNote,
  GraceNote,
  GraceNoteGroup,
  Parenthesis,
  Renderer,
  Stave,
  StaveNote,
  Stem,
  Tuplet,
  Voice,
  type RenderContext,
  type StemmableNote,
  type TupletOptions,
} from 'vexflow/bravura';
import { accentsOf, lettersOf, text, type TextAt } from './letters';
import type { PlannedBeat, PlannedFeet, PlannedMeasure, PlannedNote } from './plan';
import { piecesOf, type Piece } from './pieces';
import { systemsOf, type MeasureAt } from './systems';

// The only import of vexflow, its music font inlined: loaded when the first notation is drawn, never by Play.

/** The line of the snare drum, of the bass drum and of the hi-hat played with the foot; common practice. */
const SNARE = 'c/5';
const BASS_DRUM = 'f/4';
const HIHAT_FOOT = 'd/4/x2';
const REST = 'b/4';

const STAFF_PX = 40;
const FEET_PX = 42;
/** Letters and counts under the staff, and air before the next system. */
const LETTERS_PX = 98;

/** Distances from the staff's top line up to the rows above it; only what there is takes space. */
interface RowsAbove {
  readonly accentPx: number;
  readonly tupletPx: number;
  readonly labelPx: number;
  readonly topPx: number;
}

function rowsAbove(plan: readonly PlannedMeasure[]): RowsAbove {
  const beats = plan.flatMap((measure) => measure.hands);
  const hands = beats.flatMap((beat) => beat.notes);
  const has = (found: boolean, px: number): number => (found ? px : 0);
  // Beams of thirty-seconds reach higher.
  const accentPx =
    29 +
    has(
      hands.some(({ value }) => value === 32),
      8,
    ) +
    has(
      hands.some(({ value }) => value === 64),
      16,
    );
  const tupletPx =
    accentPx +
    8 +
    has(
      hands.some(({ notes }) => notes.some(({ kind }) => kind === 'accent')),
      13,
    );
  const labelPx =
    tupletPx +
    has(
      beats.some(({ tuplets }) => tuplets.length > 0),
      20,
    );
  return {
    accentPx,
    tupletPx,
    labelPx,
    topPx:
      labelPx +
      has(
        plan.some(({ label }) => label !== ''),
        16,
      ),
  };
}

/** The music font is in: before that nothing can be measured. */
export async function fontReady(): Promise<void> {
  await Promise.all([
    document.fonts.load('30px Bravura', '\uE0A4'),
    document.fonts.load('10px Academico', '4'),
  ]);
}

interface Engraving {
  /** Width of the box in CSS px. */
  readonly widthPx: number;
  /** Size of the music: 1 has a staff of 40 px; smaller where a bar would not fit. */
  readonly size: number;
  /** A repeat sign at the end instead of a double bar. */
  readonly repeated: boolean;
}

/**
 * Engraves a plan into an element as SVG, in its text colour, one picture a system, in as many systems as its width asks
 * for. What was in the element goes.
 */
export function engrave(into: HTMLElement, plan: readonly PlannedMeasure[], engraving: Engraving): void {
  into.replaceChildren();
  if (plan.length === 0) return;
  const { widthPx, size, repeated } = engraving;
  const rows = rowsAbove(plan);
  const layout = layoutOf(rows);
  const pieces = piecesOf(plan, widthPx, size, layout.leastWidthOf);
  const needs = pieces.map(({ measure }) => ({
    leastWidth: layout.leastWidthOf(measure),
    newBeats: measure.newBeats,
  }));
  const { systems, scale } = systemsOf(needs, widthPx, size);
  const feetPx = plan.some((measure) => measure.feet.length > 0) ? FEET_PX : 0;
  const heightPx = rows.topPx + STAFF_PX + feetPx + LETTERS_PX;
  const drawn = new Map<string, DrawnBar>();

  for (const system of systems) {
    const paper = document.createElement('div');
    paper.className = 'system';
    into.append(paper);
    const renderer = new Renderer(paper, Renderer.Backends.SVG);
    renderer.resize(widthPx, heightPx * scale);
    const context = renderer.getContext();
    context.setFillStyle('currentColor').setStrokeStyle('currentColor');
    const svg = paper.querySelector('svg');
    const words: TextAt[] = [];
    for (const at of system) {
      const piece = pieces[at.measure];
      const { measure } = piece;
      const repeatedHere = repeated && at.measure === pieces.length - 1;
      // Practice repeats its bars: one that stands below its like is the same picture.
      const like = `${likeOf(piece, at)} ${String(repeatedHere)}`;
      const before = drawn.get(like);
      const bar = before ?? drawBar(piece, layout.laidOut(measure), at, rows.topPx, context, repeatedHere);
      if (before === undefined) drawn.set(like, bar);
      else svg?.append(copyOf(before.group));
      words.push(
        ...accentsOf(bar.notes, rows.topPx - rows.accentPx),
        ...lettersOf(bar.notes, rows.topPx + STAFF_PX + feetPx),
        { x: at.x + (at.first ? 0 : 4), y: rows.topPx - rows.labelPx, words: measure.label, kind: 'label' },
      );
    }
    svg?.setAttribute('viewBox', `0 0 ${widthPx / scale} ${heightPx}`);
    svg?.setAttribute('aria-hidden', 'true');
    svg?.append(...words.map(text));
  }
}

/** What was drawn of a bar, and where its notes came to stand. */
interface DrawnBar {
  readonly group: SVGElement;
  readonly notes: ReturnType<typeof lettersIn>;
}

function copyOf(group: SVGElement): Node {
  const copy = group.cloneNode(true) as SVGElement;
  for (const one of copy.querySelectorAll('[id]')) one.removeAttribute('id');
  return copy;
}

const notesKey = ({ hands, feet }: PlannedMeasure): string => JSON.stringify([hands, feet]);

/** The same for bars that look the same in the same place of their systems. */
function likeOf({ measure, barBeats, closes }: Piece, { x, width, first, last }: MeasureAt): string {
  const place = [x.toFixed(2), width.toFixed(2), first, last, measure.newBeats, barBeats, closes];
  return `${place.join(' ')} ${notesKey(measure)}`;
}

interface HandsNote {
  readonly planned: PlannedNote;
  readonly drawn: StaveNote;
  readonly graces: readonly GraceNote[];
}

interface Bar {
  readonly hands: readonly HandsNote[];
  readonly voices: readonly Voice[];
  readonly beams: readonly Beam[];
  readonly tuplets: readonly Tuplet[];
  readonly formatter: Formatter;
  readonly leastWidth: number;
}

interface Layout {
  readonly laidOut: (measure: PlannedMeasure) => Bar;
  /** Px at full size. */
  readonly leastWidthOf: (measure: PlannedMeasure) => number;
}

/** Lays out each bar once, and not at all where what its like needs is known and that is all that is asked. */
function layoutOf(rows: RowsAbove): Layout {
  const made = new Map<PlannedMeasure, Bar>();
  const laidOut = (measure: PlannedMeasure): Bar => {
    const bar = made.get(measure) ?? barOf(measure, rows);
    made.set(measure, bar);
    return bar;
  };
  return {
    laidOut,
    leastWidthOf(measure) {
      const notes = notesKey(measure);
      const least = leastWidths.get(notes) ?? laidOut(measure).leastWidth;
      if (leastWidths.size >= MOST_WIDTHS) leastWidths.clear();
      leastWidths.set(notes, least);
      return least;
    },
  };
}

/** What bars need, by their notes: to ask costs as much as to draw, and practice repeats its bars. In px at full size. */
const leastWidths = new Map<string, number>();
const MOST_WIDTHS = 500;

function barOf(measure: PlannedMeasure, rows: RowsAbove): Bar {
  const hands = measure.hands.map((beat) => beat.notes.map(handsNote));
  const feet = measure.feet.map((beat) => beat.notes.map(feetNote));
  const parts = [
    ...measure.hands.map((beat, index) =>
      beatMarks(
        beat,
        hands[index].map(({ drawn }) => drawn),
        rows,
      ),
    ),
    ...measure.feet.map((beat, index) => beatMarks(beat, feet[index], null)),
  ];
  const lines: StemmableNote[][] = [hands.flat().map(({ drawn }) => drawn), feet.flat()];
  const voices = lines
    .filter((notes) => notes.length > 0)
    .map((notes) =>
      new Voice({ numBeats: measure.beats, beatValue: 4 }).setMode(Voice.Mode.SOFT).addTickables(notes),
    );
  const formatter = new Formatter().joinVoices(voices);
  return {
    hands: hands.flat(),
    voices,
    beams: parts.flatMap((part) => part.beams),
    tuplets: parts.flatMap((part) => part.tuplets),
    formatter,
    leastWidth: formatter.preCalculateMinTotalWidth(voices),
  };
}

function handsNote(planned: PlannedNote): HandsNote {
  const { value, dotted, notes } = planned;
  const rest = notes.length === 0;
  const drawn = new StaveNote({
    keys: rest ? [REST] : notes.map(() => SNARE),
    duration: `${value}${dotted ? 'd' : ''}${rest ? 'r' : ''}`,
    stemDirection: Stem.UP,
  });
  if (dotted) Dot.buildAndAttach([drawn], { all: true });
  if (notes.some(({ kind }) => kind === 'ghost')) Parenthesis.buildAndAttach([drawn]);
  const graces = planned.graces.map(
    (_, __, all) =>
      new GraceNote({
        keys: [SNARE],
        duration: all.length === 1 ? '8' : '16',
        slash: all.length === 1,
        stemDirection: Stem.UP,
      }),
  );
  if (graces.length > 0) drawn.addModifier(new GraceNoteGroup(graces).beamNotes());
  return { planned, drawn, graces };
}

/** Rests of the feet are not drawn: the hands' line says where the beat is. */
function feetNote({ value, dotted, feet }: PlannedFeet): StemmableNote {
  const duration = `${value}${dotted ? 'd' : ''}`;
  if (feet.length === 0) return new GhostNote({ duration });
  const keys = feet.map(({ foot }) => (foot === 'K' ? BASS_DRUM : HIHAT_FOOT)).sort();
  const drawn = new StaveNote({ keys: keys.toReversed(), duration, stemDirection: Stem.DOWN });
  if (dotted) Dot.buildAndAttach([drawn], { all: true });
  return drawn;
}

/**
 * The beams of a beat, one or more where a long note parts them, and its tuplet numbers.
 * @param rows where the numbers go above the staff; null for the feet's, which go below
 */
function beatMarks(
  { notes, tuplets, partials }: PlannedBeat<PlannedNote | PlannedFeet>,
  drawn: readonly StemmableNote[],
  rows: RowsAbove | null,
): { readonly beams: Beam[]; readonly tuplets: Tuplet[] } {
  const sounds = (index: number): boolean => !drawn[index].isRest() && !(drawn[index] instanceof GhostNote);
  const groups: number[][] = [[]];
  notes.forEach(({ value }, index) => {
    if (value === 4) groups.push([]);
    else if (sounds(index)) groups[groups.length - 1].push(index);
  });
  const beamed = groups.filter((group) => group.length > 1);
  const beams = beamed.map((group) => {
    const beam = new Beam(group.map((index) => drawn[index]));
    beam.renderOptions.flatBeams = true;
    // Thirty-seconds are read four and four.
    const middle = group.findIndex((index) => notes[index].partial === partials / 2);
    const short = group.some((index) => notes[index].value >= 32);
    if (partials % 8 === 0 && short && middle > 0) beam.breakSecondaryAt([middle - 1]);
    return beam;
  });
  return {
    beams,
    tuplets: tuplets.flatMap(({ first, notes: count, number, inSpaceOf }) => {
      const own = drawn.slice(first, first + count);
      const underBeam = beamed.some((group) => own.every((_, index) => group.includes(first + index)));
      const options = {
        numNotes: number,
        notesOccupied: inSpaceOf,
        ratioed: false,
        bracketed: !underBeam || count < notes.length,
      };
      return [
        rows === null
          ? new Tuplet([...own], { ...options, location: Tuplet.LOCATION_BOTTOM })
          : new TupletInRow([...own], options, rows.tupletPx),
      ];
    }),
  };
}

function drawBar(
  piece: Piece,
  bar: Bar,
  at: MeasureAt,
  staffY: number,
  context: RenderContext,
  repeated: boolean,
): DrawnBar {
  const group = context.openGroup() as SVGElement;
  const stave = new Stave(at.x, staffY, at.width, {
    spaceAboveStaffLn: 0,
    leftBar: at.first,
  });
  if (at.first) stave.addClef('percussion');
  if (piece.measure.newBeats) stave.addTimeSignature(`${piece.barBeats}/4`);
  if (!piece.closes) stave.setEndBarType(BarlineType.NONE);
  if (at.last) stave.setEndBarType(repeated ? BarlineType.REPEAT_END : BarlineType.END);
  stave.setContext(context).draw();
  const available = stave.getNoteEndX() - stave.getNoteStartX() - Stave.defaultPadding;
  bar.formatter.format([...bar.voices], available);
  for (const voice of bar.voices) voice.draw(context, stave);
  for (const beam of bar.beams) beam.setContext(context).drawWithStyle();
  for (const tuplet of bar.tuplets) tuplet.setContext(context).drawWithStyle();
  context.closeGroup();
  return { group, notes: lettersIn(bar) };
}

/** A tuplet number in its row over the accents, so that numbers of a system stand on one line. */
class TupletInRow extends Tuplet {
  readonly #abovePx: number;

  constructor(notes: StemmableNote[], options: TupletOptions, abovePx: number) {
    super(notes, options);
    this.#abovePx = abovePx;
  }

  override getYPosition(): number {
    return this.notes[0].checkStave().getYForLine(0) - this.#abovePx;
  }
}

function lettersIn({ hands }: Bar) {
  return hands.map(({ planned, drawn, graces }) => ({
    planned,
    x: middleOf(drawn),
    graces: graces.map(middleOf),
  }));
}

function middleOf(note: StaveNote): number {
  return (note.getNoteHeadBeginX() + note.getNoteHeadEndX()) / 2;
}
