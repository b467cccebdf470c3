import { isAsDue } from '../../grading/facts/facts';
import { measureName, measureUnit } from '../../grading/words';
import type { Report, SlotReport } from '../../grading/types';
import { element, textElement, xmlOf, type Element } from '../xml';
import { median } from '../../ordered';
import { capital } from '../../text';

/** A picture with the line that says what it shows. */
interface ReasonPicture {
  readonly words: string;
  readonly svg: string;
}

const WIDTH = 680;
const LEFT = 52;
const TOP = 12;
const TALL = 84;
const LETTERS = 44;

/**
 * The bar that is weakest, stroke by stroke: the median level of each slot (dB) where the reason is one of level, else
 * how early or late each was (ms, about the bar's own middle). Right hand filled, left hand open; the slot that is
 * farthest off has a mark under it. Undefined where nothing is weakest.
 */
export function reasonPicture(report: Report): ReasonPicture | undefined {
  const { weakest } = report;
  if (weakest === null) return undefined;
  const slots = slotsOf(report, weakest.variation);
  const inTime = weakest.part === 'ms' || measureUnit(weakest.measure) === 'ms';
  const values = slots.map(({ levels, deviations }) => median(inTime ? deviations : levels) ?? null);
  const known = values.flatMap((value) => value ?? []);
  if (known.length === 0) return undefined;
  const centre = inTime ? (median(known) ?? 0) : 0;
  const scale = inTime ? timeScale(known, centre) : levelScale(known);
  const step = (WIDTH - LEFT) / slots.length;
  const marks = slots.flatMap(({ hand, kind }, index) => {
    const x = LEFT + step * (index + 0.5);
    const value = values[index];
    const bold = kind === 'accent';
    const letter = words(
      x,
      TOP + TALL + (hand === 'R' ? 18 : 36),
      kind === 'ghost' ? `(${hand})` : hand,
      bold,
    );
    const marked = index === weakest.slot ? [pointer(x)] : [];
    return value === null
      ? [letter, ...marked]
      : [bar(x, value - centre, hand === 'R', scale), letter, ...marked];
  });
  const height = TOP + TALL + LETTERS + 14;
  const svg = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${WIDTH} ${height}`,
      width: String(WIDTH),
      height: String(height),
      role: 'img',
      'aria-label': `${weakest.variation}, stroke by stroke`,
      'font-family': 'system-ui, sans-serif',
    },
    ...scale.lines.map(({ at, label }) => rule(scale.y(at), label, at === 0 && inTime)),
    ...marks,
  );
  const what = inTime
    ? 'how early (down) or late (up) each stroke is on the whole, in ms'
    : 'the level of each stroke on the whole, in dB below the hardest a pad can report';
  const mark = weakest.slot === null ? '' : ' The mark stands under the stroke that is farthest off.';
  return {
    words: `${capital(weakest.variation)}, ${measureName(weakest.measure)}: ${what}. Right filled, left open.${mark}`,
    svg: xmlOf(svg),
  };
}

interface PlayedSlot {
  readonly hand: SlotReport['hand'];
  readonly kind: SlotReport['kind'];
  readonly levels: readonly number[];
  readonly deviations: readonly number[];
}

/** The slots of one variation's bar, over all the times it was played. */
function slotsOf({ bars, slots }: Report, variation: string): PlayedSlot[] {
  const wanted = new Set(bars.filter((one) => one.variation === variation).map(({ index }) => index));
  const own = slots.filter(({ bar }) => wanted.has(bar));
  const count = own.reduce((most, { slot }) => Math.max(most, slot + 1), 0);
  const bySlot = Array.from({ length: count }, (): SlotReport[] => []);
  for (const one of own) bySlot[one.slot].push(one);
  return bySlot.flatMap((all) => {
    if (all.length === 0) return [];
    const [{ hand, kind }] = all;
    const matched = all.filter(isAsDue);
    return [
      {
        hand,
        kind,
        levels: matched.flatMap(({ judgedLevel }) => judgedLevel ?? []),
        deviations: matched.flatMap(({ deviationMs }) => deviationMs ?? []),
      },
    ];
  });
}

interface Scale {
  readonly y: (value: number) => number;
  readonly lines: readonly { readonly at: number; readonly label: string }[];
  /** Where bars stand on. */
  readonly ground: number;
}

const LEVEL_STEP = 10;

function levelScale(values: readonly number[]): Scale {
  const least = Math.min(-30, Math.floor(Math.min(...values) / LEVEL_STEP) * LEVEL_STEP);
  const y = (value: number): number => TOP + (TALL * value) / least;
  const lines = Array.from({ length: Math.round(-least / LEVEL_STEP) + 1 }, (_, index) => {
    const at = -index * LEVEL_STEP;
    return { at, label: `${at === 0 ? '0' : `−${-at}`} dB` };
  });
  return { y, lines, ground: least };
}

function timeScale(values: readonly number[], centre: number): Scale {
  const reach = Math.max(10, ...values.map((value) => Math.ceil(Math.abs(value - centre) / 10) * 10));
  const y = (value: number): number => TOP + TALL / 2 - ((TALL / 2) * value) / reach;
  const lines = [
    { at: reach, label: `+${reach} ms` },
    { at: 0, label: '0 ms' },
    { at: -reach, label: `−${reach} ms` },
  ];
  return { y, lines, ground: 0 };
}

function bar(x: number, value: number, filled: boolean, { y, ground }: Scale): Element {
  const [top, bottom] = [Math.min(y(value), y(ground)), Math.max(y(value), y(ground))];
  return element('rect', {
    x: fixed(x - 6),
    y: fixed(top),
    width: '12',
    height: fixed(Math.max(1, bottom - top)),
    fill: filled ? '#000' : '#fff',
    stroke: '#000',
    'stroke-width': '1.6',
  });
}

const rule = (y: number, label: string, strong: boolean): Element =>
  element(
    'g',
    {},
    element('line', {
      x1: String(LEFT),
      x2: String(WIDTH),
      y1: fixed(y),
      y2: fixed(y),
      stroke: strong ? '#000' : '#bbb',
      'stroke-width': '1',
    }),
    textElement('text', label, {
      x: String(LEFT - 6),
      y: fixed(y + 4),
      'font-size': '12',
      'text-anchor': 'end',
      fill: '#333',
    }),
  );

const words = (x: number, y: number, letter: string, bold: boolean): Element =>
  textElement('text', letter, {
    x: fixed(x),
    y: fixed(y),
    'font-size': '15',
    'text-anchor': 'middle',
    ...(bold ? { 'font-weight': '800' } : {}),
  });

function pointer(x: number): Element {
  const y = TOP + TALL + LETTERS;
  return element('path', { d: `M${fixed(x)} ${y} l6 10 h-12 z`, fill: '#000' });
}

const fixed = (value: number): string => String(Math.round(value * 10) / 10);
