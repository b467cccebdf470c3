import type { VariationBand } from '../../../grading/types';
import { isJudged } from '../../../grading/verdict';
import type { Hand } from '../../../stroke';
import { element, textElement, type Element } from '../../xml';
import { axisY, type HeightLines } from './axis';
import type { Strip, StripSlot } from './strip';
import { capital } from '../../../text';

/** How large a strip is drawn, in CSS px, and what stands on it beside the strokes. */
interface StripLook {
  readonly width: number;
  /** Height of the plot alone. */
  readonly plot: number;
  /** Sticking letters and count under the plot: the lowest strip has them, and each whose hands differ. */
  readonly letters: boolean;
  /** Name, margin and verdict; left out where the strip is small, in a list. */
  readonly words: boolean;
}

/**
 * Ink by token, for the page; with black for paper, where there are no tokens. Red alone never tells: what is out has
 * its part outside the band drawn thick as well.
 */
const INK = 'var(--ink, #000)';
const QUIET = 'var(--quiet, #444)';
const LINE = 'var(--line, #bbb)';
const BAND = 'var(--band, #e4e4e4)';
const PAPER = 'var(--paper, #fff)';
const OUT = 'var(--out, #000)';

const HEIGHT_NAMES = 44;
const TITLE = 26;
const MARGIN = 118;
const VERDICT = 122;
const LETTER_ROW = 20;
const CARET = 14;
/** Narrower than this, margin and verdict stand over the plot instead of beside it. */
const NARROW = 620;
const STROKE = 9;
/** A number needs this much over its stroke. */
const NUMBER_ROOM = 22;
/** About as wide is a digit of the number, which is bold. */
const DIGIT = 8.6;
const MOST_STROKE_WIDTH = 28;
/** Shares of a column that its band fills and a stroke is wide. */
const BAND_SHARE = 0.86;
const STROKE_SHARE = 0.56;

interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly plot: number;
}

/** How tall a strip of that look is, in CSS px. */
export function stripHeight({ plot, letters, words }: StripLook): number {
  return (words ? TITLE : 0) + plot + CARET + (letters ? 3 * LETTER_ROW : 0) + 4;
}

/**
 * A variation's bar as a picture: its columns, heights low, half and full upwards, each slot's median (right filled, left
 * open) and spread in its band, on one axis so that hands can be compared. Margin and verdict at the right end.
 */
export function stripSvg(strip: Strip, look: StripLook, label: string): Element {
  const isNarrow = look.width < NARROW;
  const height = stripHeight(look);
  const frame: Frame = {
    left: look.words ? HEIGHT_NAMES : 2,
    right: look.words && !isNarrow ? look.width - MARGIN - VERDICT : look.width - 2,
    top: look.words ? TITLE : 2,
    plot: look.plot,
  };
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'strip',
      viewBox: `0 0 ${px(look.width)} ${px(height)}`,
      width: px(look.width),
      height: px(height),
      role: 'img',
      'aria-label': label,
      'font-size': '15',
      style: 'font-variant-numeric:tabular-nums',
    },
    ...(look.words ? titleOf(strip, frame, look, isNarrow) : []),
    ...strip.slots.map((slot) => bandOf(slot, strip.lines, frame)),
    ...rulesOf(strip, frame, look),
    ...strip.slots.flatMap((slot) => strokeOf(slot, strip, frame)),
    ...caretsOf(strip, frame),
    ...(look.letters ? lettersOf(strip, frame) : []),
  );
}

const px = (value: number): string => String(Math.round(value * 10) / 10);
const xAt = ({ left, right }: Frame, share: number): number => left + share * (right - left);
const yAt = ({ top, plot }: Frame, level: number, lines: HeightLines): number =>
  top + (1 - axisY(level, lines)) * plot;

function titleOf(strip: Strip, frame: Frame, { width, plot }: StripLook, isNarrow: boolean): Element[] {
  const name = textElement('text', capital(strip.variation), {
    x: px(frame.left),
    y: '16',
    'font-weight': '700',
    fill: INK,
  });
  const middle = isNarrow ? 11 : frame.top + plot / 2;
  const verdictX = width - VERDICT + 8;
  return [
    name,
    ...marginOf(strip, width - VERDICT - MARGIN + 10, middle, isNarrow),
    ...verdictOf(strip.band, verdictX, middle),
  ];
}

/** The supported margin between the limits of *not yet* and *holds* and the ideal, as a line from *holds*. */
function marginOf({ supported, band }: Strip, x: number, y: number, isNarrow: boolean): Element[] {
  if (isNarrow || supported === null) return [];
  const at = (margin: number): number => x + 8 + ((Math.max(-1.2, Math.min(1, margin)) + 1) / 2) * 84;
  const out = band === 'not yet';
  return [
    rect(at(0), y - 8, at(1) - at(0), 16, { fill: BAND }),
    line(at(-1), y - 8, at(-1), y + 8, LINE, 1),
    line(at(0), y - 10, at(0), y + 10, QUIET, 1.5),
    line(at(0), y, at(supported), y, out ? OUT : INK, 3),
    element('circle', { cx: px(at(supported)), cy: px(y), r: '5.5', fill: out ? OUT : INK }),
  ];
}

/** Full square holds, half close, empty not yet, dotted for what has no verdict; each with its word. */
function verdictOf(band: VariationBand, x: number, y: number): Element[] {
  const out = band === 'not yet';
  const hasVerdict = isJudged(band);
  const ink = out ? OUT : INK;
  const side = 13;
  const top = y - side / 2;
  const square = rect(x, top, side, side, {
    fill: band === 'holds' ? ink : 'none',
    stroke: ink,
    'stroke-width': '1.6',
    ...(hasVerdict ? {} : { 'stroke-dasharray': '2 2' }),
  });
  const half = band === 'close' ? [rect(x, y, side, side / 2, { fill: ink })] : [];
  const word = textElement('text', BAND_WORDS[band], {
    x: px(x + side + 7),
    y: px(y + 5),
    'font-weight': hasVerdict ? '600' : '400',
    fill: out ? OUT : hasVerdict ? INK : QUIET,
  });
  return [square, ...half, word];
}

/** Short enough for their place. */
const BAND_WORDS: Readonly<Record<VariationBand, string>> = {
  holds: 'holds',
  close: 'close',
  'not yet': 'not yet',
  'too few bars': 'too few bars',
  'too few strokes': 'too few',
  'not played': 'not played',
  'not measured': 'not told',
};

function bandOf({ x, width, band }: StripSlot, lines: HeightLines, frame: Frame): Element {
  const { left, wide } = column(frame, x, width, BAND_SHARE);
  const top = band.toDb === null ? frame.top : yAt(frame, band.toDb, lines);
  const foot = band.fromDb === null ? frame.top + frame.plot : yAt(frame, band.fromDb, lines);
  const limits = [band.toDb === null ? null : top, band.fromDb === null ? null : foot];
  return element(
    'g',
    {},
    rect(left, top, wide, Math.max(2, foot - top), { fill: BAND }),
    ...limits.flatMap((y) => (y === null ? [] : [line(left, y, left + wide, y, QUIET, 1.5)])),
  );
}

function column(frame: Frame, x: number, width: number, share: number): { left: number; wide: number } {
  const from = xAt(frame, x);
  const span = xAt(frame, x + width) - from;
  return { left: from + (span * (1 - share)) / 2, wide: span * share };
}

function rulesOf({ lines, beats }: Strip, frame: Frame, { words }: StripLook): Element[] {
  const heights = (['full', 'half', 'low'] as const).flatMap((name) => {
    const y = yAt(frame, lines[name], lines);
    const rule = line(frame.left, y, frame.right, y, LINE, 1);
    if (!words) return [rule];
    const label = { x: px(frame.left - 8), y: px(y + 5), 'text-anchor': 'end', fill: QUIET };
    return [rule, textElement('text', name, label)];
  });
  const rules = Array.from({ length: beats - 1 }, (_, beat) => {
    const x = xAt(frame, (beat + 1) / beats);
    return line(x, frame.top, x, frame.top + frame.plot, LINE, 1);
  });
  return [...heights, ...rules];
}

function strokeOf(slot: StripSlot, { lines }: Strip, frame: Frame): Element[] {
  const { levelDb, spreadDb, outsideDb } = slot;
  if (levelDb === null) return [];
  const { left, wide } = column(frame, slot.x, slot.width, STROKE_SHARE);
  const width = Math.min(MOST_STROKE_WIDTH, wide);
  const x = left + (wide - width) / 2;
  const middle = left + wide / 2;
  const y = within(yAt(frame, levelDb, lines), frame);
  const ink = outsideDb === 0 ? INK : OUT;
  const spread = line(
    middle,
    yAt(frame, levelDb + spreadDb, lines),
    middle,
    yAt(frame, levelDb - spreadDb, lines),
    INK,
    1.5,
  );
  const out =
    outsideDb === 0 ? [] : [line(middle, y, middle, yAt(frame, levelDb - outsideDb, lines), OUT, 5)];
  const stroke = rect(x, y - STROKE / 2, width, STROKE, {
    rx: px(STROKE / 2),
    fill: slot.slot.hand === 'R' ? ink : PAPER,
    stroke: ink,
    'stroke-width': '2',
  });
  return [spread, ...out, stroke];
}

/** A stroke at the very edge is drawn whole. */
const within = (y: number, { top, plot }: Frame): number =>
  Math.min(top + plot - STROKE / 2, Math.max(top + STROKE / 2, y));

function caretsOf({ slots, lines, figure }: Strip, frame: Frame): Element[] {
  const named = slots.filter((slot) => slot.named);
  const y = frame.top + frame.plot + 3;
  const carets = named.map((slot) => {
    const x = xAt(frame, slot.x + slot.width / 2);
    return element('path', { d: `M${px(x)} ${px(y)} l6 9 h-12 z`, fill: slot.outsideDb === 0 ? INK : OUT });
  });
  const [first] = named;
  if (first === undefined || figure === null || first.levelDb === null) return carets;
  const level = within(yAt(frame, first.levelDb, lines), frame);
  const isHigh = level - frame.top < NUMBER_ROOM;
  const number = textElement('text', figure, {
    x: px(besideHeights(xAt(frame, first.x + first.width / 2), figure, frame)),
    y: px(isHigh ? level + NUMBER_ROOM : level - 9),
    'text-anchor': 'middle',
    'font-weight': '700',
    fill: first.outsideDb === 0 ? INK : OUT,
    stroke: PAPER,
    'stroke-width': '4',
    'paint-order': 'stroke',
  });
  return [...carets, number];
}

/** The middle of a number's text, so that it stands inside the plot: never on the names of the heights. */
function besideHeights(x: number, text: string, { left, right }: Frame): number {
  const half = (text.length * DIGIT) / 2;
  return Math.max(left + half, Math.min(right - half, x));
}

/** Sticking letters, R row over L row, and the count under them. */
function lettersOf({ columns, slots }: Strip, frame: Frame): Element[] {
  const row = (index: number): number => frame.top + frame.plot + CARET + 14 + index * LETTER_ROW;
  const letters = slots.map(({ x, width, slot }) =>
    textElement('text', slot.kind === 'ghost' ? `(${slot.hand})` : slot.hand, {
      x: px(xAt(frame, x + width / 2)),
      y: px(row(ROWS[slot.hand])),
      'text-anchor': 'middle',
      'font-weight': slot.kind === 'accent' ? '800' : '400',
      fill: INK,
    }),
  );
  const counts = columns.flatMap(({ x, width, count }) =>
    count === ''
      ? []
      : [
          textElement('text', count, {
            x: px(xAt(frame, x + width / 2)),
            y: px(row(2)),
            'text-anchor': 'middle',
            fill: QUIET,
          }),
        ],
  );
  return [...letters, ...counts];
}

const ROWS: Readonly<Record<Hand, number>> = { R: 0, L: 1 };

function rect(
  x: number,
  y: number,
  width: number,
  height: number,
  attributes: Readonly<Record<string, string>>,
): Element {
  return element('rect', { x: px(x), y: px(y), width: px(width), height: px(height), ...attributes });
}

const line = (x1: number, y1: number, x2: number, y2: number, stroke: string, width: number): Element =>
  element('line', {
    x1: px(x1),
    y1: px(y1),
    x2: px(x2),
    y2: px(y2),
    stroke,
    'stroke-width': px(width),
  });
