import { countOf } from '../../exercises/counts';
import { parseFeet } from '../../exercises/feet';
import { barSticking, partialsOfBeats } from '../../exercises/phrase';
import { beamsOf, beatNotes, type BeatNote } from '../../exercises/beat';
import type { Hand } from '../../stroke';
import type { PartialNotes, Phrase } from '../../exercises/types';
import { element, textElement, xmlOf, type Element } from '../xml';
import { accentMark, beam, dot, flags, graceNotes, head, rest, REST_WIDTH } from './glyphs';

/** Widths and heights in CSS pixels; the page is 680 wide, what A4 and Letter have between 15 mm margins. */
const PAGE = 680;
const STEP = 19;
const STEP_WITH_GRACES = 27;
const LEAST_BEAT = 38;
const LEAST_BEAT_WITH_GRACES = 74;
const BAR_PADDING = 12;
const ROW_GAP = 8;
/** Heights in a row of bars: words, accents, beams, the line the heads stand on, then letters and counts. */
const Y = {
  words: 12,
  tuplet: 22,
  accent: 28,
  beam: 36,
  line: 66,
  R: 90,
  L: 107,
  count: 123,
  feet: 140,
} as const;
/** Bars that are shown; a longer phrase says how many more there are. */
const MOST_BARS = 12;

/** A phrase engraved: a picture of its own, and the same in words. */
interface Engraving {
  readonly svg: string;
  /** Bars of a cycle that were left out, for want of space. */
  readonly left: number;
}

/**
 * A phrase as simple percussion notation on one line, for paper: note values with beams by beat, accents, ghosts in
 * brackets, graces with a slash, tuplet numbers, sticking R over L, counts, feet by letter. A bar written twice stands
 * once. Black on white, without a script or a font of its own.
 * @throws InputError for a bar or feet line that does not parse
 */
export function engraved(phrase: Phrase): Engraving {
  const bars = barsOf(phrase);
  const shown = bars.slice(0, MOST_BARS);
  const rows = rowsOf(shown);
  const rowHeight = (phrase.feet === undefined ? Y.count : Y.feet) + 8;
  const height = rows.length * (rowHeight + ROW_GAP) - ROW_GAP;
  const drawn = rows.flatMap((row, index) => {
    const y = index * (rowHeight + ROW_GAP);
    const content = row.reduce((sum, bar) => sum + bar.width, 0);
    // A row that is nearly full is drawn full, as print is; a short one stays as it is.
    const stretch = content > PAGE * 0.72 ? PAGE / content : 1;
    let x = 0;
    return row.map((bar) => {
      const group = drawnBar(bar, stretch);
      const placed = element('g', { transform: `translate(${fixed(x)} ${y})` }, ...group);
      x += bar.width * stretch;
      return placed;
    });
  });
  const svg = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${PAGE} ${height}`,
      width: String(PAGE),
      height: String(height),
      role: 'img',
      'aria-label': `${phrase.title}: ${shown.map(({ words, sticking }) => `${words}, ${sticking}`).join('; ')}`,
      'font-family': 'system-ui, sans-serif',
    },
    ...drawn,
  );
  return { svg: xmlOf(svg), left: bars.length - shown.length };
}

interface Beat {
  readonly partials: readonly PartialNotes[];
  readonly feet: readonly string[];
}

interface EngravedBar {
  readonly words: string;
  readonly sticking: string;
  readonly beats: readonly Beat[];
  readonly hasGraces: boolean;
  readonly width: number;
}

function barsOf(phrase: Phrase): EngravedBar[] {
  const feet = phrase.feet === undefined ? undefined : parseFeet(phrase.feet);
  const seen = new Set<string>();
  let at = 0;
  return phrase.bars.flatMap((bar, index): EngravedBar[] => {
    const counts = partialsOfBeats(phrase, bar);
    const sticking = barSticking(phrase, index);
    let from = 0;
    const beats = counts.map((count): Beat => {
      const under = Array.from({ length: count }, (_, offset) => {
        const strokes = feet === undefined ? [] : feet[(at + offset) % feet.length];
        return strokes.map(({ foot, soft }) => (soft ? foot.toLowerCase() : foot)).join('');
      });
      const partials = sticking.slice(from, from + count);
      from += count;
      at += count;
      return { partials, feet: under };
    });
    const role = bar.role === undefined || bar.role === 'play' ? '' : `${bar.role}: `;
    const key = JSON.stringify([role, bar.variation, bar.sticking, counts, beats.map((beat) => beat.feet)]);
    if (seen.has(key)) return [];
    seen.add(key);
    const hasGraces = sticking.some(({ graces }) => graces.length > 0);
    const width = BAR_PADDING * 2 + counts.reduce((sum, count) => sum + beatWidth(count, hasGraces), 0);
    return [{ words: `${role}${bar.variation}`, sticking: bar.sticking, beats, hasGraces, width }];
  });
}

const beatWidth = (count: number, hasGraces: boolean): number =>
  hasGraces ? Math.max(LEAST_BEAT_WITH_GRACES, count * STEP_WITH_GRACES) : Math.max(LEAST_BEAT, count * STEP);

/** Bars in rows no wider than the page; a bar that is wider has a row of its own and is squeezed. */
function rowsOf(bars: readonly EngravedBar[]): EngravedBar[][] {
  const rows: EngravedBar[][] = [];
  let left = 0;
  for (const bar of bars) {
    const row = rows.at(-1);
    if (row === undefined || bar.width > left) {
      rows.push([bar]);
      left = PAGE - bar.width;
    } else {
      row.push(bar);
      left -= bar.width;
    }
  }
  return rows;
}

function drawnBar(bar: EngravedBar, stretch: number): Element[] {
  const width = bar.width * stretch;
  const padding = BAR_PADDING * stretch;
  let x = padding + (bar.hasGraces ? 14 : 8);
  const beats = bar.beats.flatMap((beat, index) => {
    const wide = beatWidth(beat.partials.length, bar.hasGraces) * stretch;
    const drawn = drawnBeat(beat, index, x, wide);
    x += wide;
    return drawn;
  });
  const edge = (at: number): Element => line(at, Y.line - 12, at, Y.line + 12, 1.2);
  return [
    text(2, Y.words, bar.words, { 'font-size': '13', fill: '#333' }),
    line(0, Y.line, width, Y.line, 1),
    edge(0.6),
    edge(width - 0.6),
    ...beats,
  ];
}

function drawnBeat({ partials, feet }: Beat, index: number, x: number, width: number): Element[] {
  const step = width / partials.length;
  const at = (partial: number): number => x + partial * step;
  const written = beatNotes(partials.map(({ notes }) => notes.length > 0));
  const beams = beamsOf(written);
  const stems = written.flatMap((one, order) => {
    const left = at(one.partial);
    if (one.rest) return [rest(left + REST_WIDTH / 2, Y.line, one.flags)];
    const { notes, graces } = partials[one.partial];
    const kind = notes.find((note) => note.kind === 'accent')?.kind ?? notes[0].kind;
    return [
      ...graceNotes(left, Y.line, graces.length),
      head(left, Y.line, kind),
      ...(one.dotted ? [dot(left + 9, Y.line - 3)] : []),
      line(left + 5, Y.line - 1.5, left + 5, Y.beam, 1.2),
      ...(beams[order].length === 0 ? flags(left + 5, Y.beam, one.flags) : []),
      ...(kind === 'accent' ? [accentMark(left, Y.accent)] : []),
    ];
  });
  const beamed = beamRuns(beams).map(({ level, from, to }) =>
    beam(
      from === to.at
        ? at(written[from].partial) + 5 + (to.hook === 'backward' ? -7 : 0)
        : at(written[from].partial) + 5,
      from === to.at
        ? at(written[from].partial) + 5 + (to.hook === 'backward' ? 0 : 7)
        : at(written[to.at].partial) + 5,
      Y.beam + level * 5.5,
    ),
  );
  const numbers = tupletNumbers(written, at);
  const letters = partials.flatMap((partial, order) => [
    ...lettersOf(partial, at(order)),
    text(at(order), Y.count, countOf(index, order, partials.length), {
      'font-size': '12',
      'text-anchor': 'middle',
      fill: '#444',
    }),
    ...(feet[order] === ''
      ? []
      : [text(at(order), Y.feet, feet[order], { 'font-size': '13', 'text-anchor': 'middle' })]),
  ]);
  return [...stems, ...beamed, ...numbers, ...letters];
}

/** The number of each tuplet, over the middle of its notes. */
function tupletNumbers(written: readonly BeatNote[], at: (partial: number) => number): Element[] {
  return written.flatMap(({ tuplet }) => {
    if (tuplet?.opens !== true) return [];
    const last = written[tuplet.first + tuplet.notes - 1];
    const middle = (at(written[tuplet.first].partial) + at(last.partial)) / 2 + 3;
    return [
      text(middle, Y.tuplet, String(tuplet.number), {
        'font-size': '11',
        'font-style': 'italic',
        'text-anchor': 'middle',
      }),
    ];
  });
}

/** The hands' letters on their two rows: accents heavy, ghosts in brackets, graces small before their stroke. */
function lettersOf({ notes, graces }: PartialNotes, x: number): Element[] {
  const own = notes.map(({ hand, kind }) =>
    text(x, Y[hand], kind === 'ghost' ? `(${hand})` : hand, {
      'font-size': kind === 'ghost' ? '12' : '16',
      'text-anchor': 'middle',
      ...(kind === 'accent' ? { 'font-weight': '800' } : {}),
    }),
  );
  const before = graces.map((hand: Hand, index) =>
    text(x - 8 - 6 * (graces.length - 1 - index), Y[hand], hand.toLowerCase(), {
      'font-size': '12',
      'text-anchor': 'middle',
    }),
  );
  return [...before, ...own];
}

interface Run {
  readonly level: number;
  readonly from: number;
  readonly to: { readonly at: number; readonly hook?: 'forward' | 'backward' };
}

/** Beams as lines: from the note that begins one to the note that ends it; hooks stay with their note. */
function beamRuns(beams: ReturnType<typeof beamsOf>): Run[] {
  const begun = new Map<number, number>();
  return beams.flatMap((own, at) =>
    own.flatMap((one, level): Run[] => {
      if (one === 'begin') begun.set(level, at);
      if (one === 'end') return [{ level, from: begun.get(level) ?? at, to: { at } }];
      if (one === 'forward hook') return [{ level, from: at, to: { at, hook: 'forward' } }];
      return one === 'backward hook' ? [{ level, from: at, to: { at, hook: 'backward' } }] : [];
    }),
  );
}

function line(x1: number, y1: number, x2: number, y2: number, width: number): Element {
  return element('line', {
    x1: fixed(x1),
    y1: fixed(y1),
    x2: fixed(x2),
    y2: fixed(y2),
    stroke: '#000',
    'stroke-width': String(width),
  });
}

const text = (x: number, y: number, words: string, more: Readonly<Record<string, string>>): Element =>
  textElement('text', words, { x: fixed(x), y: fixed(y), ...more });

const fixed = (value: number): string => String(Math.round(value * 100) / 100);
