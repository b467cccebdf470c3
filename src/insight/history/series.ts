import { remedyFor, type KeptFigure, type TakeSummary } from '../../sessions/take-record';
import type { Played } from './played';

/** What History follows over weeks, beside the ceiling: figures of the takes themselves. */
export const followed = ['margin', 'contrast', 'balance', 'lag'] as const;
export type Followed = (typeof followed)[number];

/** One take in a picture over weeks, or some days' takes together. */
export interface SeriesPoint {
  /** With the part of it that has passed. */
  readonly day: number;
  readonly takes: number;
  readonly value: number;
  /** 90 %. */
  readonly interval: readonly [number, number] | null;
  readonly cold: boolean;
  /** What the value is of: the variation and measure of a margin; empty where nothing needs saying. */
  readonly of: string;
}

/** Something that began on a day. */
export interface Mark {
  readonly day: number;
  readonly kind: 'week sheet' | 'remedy';
  readonly words: string;
}

/** Takes of one phrase on one rig, in the order they come in. */
export function takesOf(played: readonly Played[], phraseKey: string, rigId: string): readonly Played[] {
  return played.filter(({ take }) => take.phraseKey === phraseKey && take.rigId === rigId);
}

/**
 * The points of a take's own figure. `balance` is that of soft strokes, right less left in dB; `lag` right less left in ms; `margin` the supported
 * margin of the weakest variation: 0 at the *holds* limit, 1 at the ideal.
 */
export function seriesOf(played: readonly Played[], what: Followed): readonly SeriesPoint[] {
  const points: SeriesPoint[] = [];
  for (const { take, day, cold } of played) {
    const figure = figureOf(take, what);
    if (figure === undefined) continue;
    const { value, interval, of } = figure;
    points.push({ day, takes: 1, value, interval, cold, of });
  }
  return points;
}

const KEPT = { contrast: 'contrast', balance: 'balanceSoft', lag: 'lag' } as const;

function figureOf(
  { graded }: TakeSummary,
  what: Followed,
): (KeptFigure & { readonly of: string }) | undefined {
  if (graded === null) return undefined;
  if (what === 'margin') {
    if (graded.weakest === null) return undefined;
    const { margin, variation } = graded.weakest;
    return { value: margin, interval: null, of: variation };
  }
  const figure = graded.measures[KEPT[what]];
  return figure === undefined ? undefined : { ...figure, of: '' };
}

/**
 * Where a week sheet or a remedy was played to for the first time. A remedy has a phrase of its own: its takes say first
 * the title of the phrase it is for.
 * @param played one player's, on one rig, oldest first
 */
export function marksOf(
  played: readonly Played[],
  of: { readonly phraseKey: string; readonly title: string },
  sheetWords: (sheetId: string) => string,
): readonly Mark[] {
  const marks: Mark[] = [];
  const seen = new Set<string>();
  const begin = (day: number, kind: Mark['kind'], key: string, words: string): void => {
    if (seen.has(`${kind} ${key}`)) return;
    seen.add(`${kind} ${key}`);
    marks.push({ day, kind, words });
  };
  for (const { take, day } of played) {
    const { phraseKey, sheetId, remedy } = take;
    if (sheetId === '' && remedy === '') continue;
    if (sheetId !== '' && phraseKey === of.phraseKey) begin(day, 'week sheet', sheetId, sheetWords(sheetId));
    const isFor = remedy.startsWith(remedyFor(of.title, ''));
    if (remedy !== '' && (isFor || phraseKey === of.phraseKey)) {
      begin(day, 'remedy', remedy, isFor ? remedy.slice(remedyFor(of.title, '').length) : remedy);
    }
  }
  return marks;
}
