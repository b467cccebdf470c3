import type { KeptFigure, TakeSummary } from '../../sessions/take-record';
import { dayOf } from './weeks';

/** What History follows over weeks. */
export const followed = ['ceiling', 'margin', 'contrast', 'balance'] as const;
export type Followed = (typeof followed)[number];

/** One take, or one day of takes, in a picture over weeks. */
export interface SeriesPoint {
  /** With the part of it that has passed. */
  readonly day: number;
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

/** Takes of one phrase on one rig, oldest first. */
export function takesOf(
  takes: readonly TakeSummary[],
  phraseKey: string,
  rigId: string,
): readonly TakeSummary[] {
  return takes
    .filter((take) => take.phraseKey === phraseKey && take.rigId === rigId)
    .sort((a, b) => (a.recordedAt < b.recordedAt ? -1 : 1));
}

/**
 * The points of a take's own figure. `balance` is that of soft strokes, right less left in dB; `margin` the supported
 * margin of the weakest variation: 0 at the *holds* limit, 1 at the ideal.
 */
export function seriesOf(
  takes: readonly TakeSummary[],
  what: Exclude<Followed, 'ceiling'>,
  cold: ReadonlySet<string>,
  eastMinutes: number,
): readonly SeriesPoint[] {
  return takes.flatMap((take) => {
    const figure = figureOf(take, what);
    if (figure === undefined) return [];
    const { value, interval, of } = figure;
    return [{ day: dayOf(take.recordedAt, eastMinutes), value, interval, cold: cold.has(take.id), of }];
  });
}

function figureOf(
  { graded }: TakeSummary,
  what: Exclude<Followed, 'ceiling'>,
): (KeptFigure & { readonly of: string }) | undefined {
  if (graded === null) return undefined;
  if (what === 'margin') {
    if (graded.weakest === null) return undefined;
    const { margin, variation } = graded.weakest;
    return { value: margin, interval: null, of: variation };
  }
  const figure = graded.measures[what === 'contrast' ? 'contrast' : 'balanceSoft'];
  return figure === undefined ? undefined : { ...figure, of: '' };
}

/** Where a week sheet or a remedy was played to for the first time. */
export function marksOf(
  takes: readonly TakeSummary[],
  sheetWords: (sheetId: string) => string,
  eastMinutes: number,
): readonly Mark[] {
  const marks: Mark[] = [];
  const seen = new Set<string>();
  for (const { recordedAt, sheetId, remedy } of takes) {
    const day = dayOf(recordedAt, eastMinutes);
    if (sheetId !== '' && !seen.has(`sheet ${sheetId}`)) {
      seen.add(`sheet ${sheetId}`);
      marks.push({ day, kind: 'week sheet', words: sheetWords(sheetId) });
    }
    if (remedy !== '' && !seen.has(`remedy ${remedy}`)) {
      seen.add(`remedy ${remedy}`);
      marks.push({ day, kind: 'remedy', words: remedy });
    }
  }
  return marks;
}
