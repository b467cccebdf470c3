import { describe, expect, it } from 'vitest';
import { kindTitle } from '../../../src/components/pictures/by-kind-title';
import { pictureByReason, pictureOf } from '../../../src/components/pictures/choice';
import type { ChartRow, RowsPicture } from '../../../src/components/pictures/picture';
import { phraseNamed } from '../../../src/exercises/phrase';
import type { Report, Weakest } from '../../../src/grading/types';
import { gradeTake } from '../../../src/take/grade-take';
import { modelTake } from '../../../src/model/model-player';
import type { PictureName } from '../../../src/state/reviewing';
import type { Take } from '../../../src/sessions/types';
import type { Fault } from '../../../src/model/faults';

const phrase = phraseNamed('Single paradiddle, accent walk');

function reviewed(fault: Fault) {
  const { take } = modelTake({
    phrase,
    bpm: 84,
    seed: 11,
    cycles: 8,
    timingSdMs: 4,
    levelSdDb: 0.6,
    faults: [fault],
  });
  return { take, report: gradeTake(take) };
}

function reasonPicture(take: Take, report: Report): RowsPicture {
  const name = pictureByReason(take, report) as PictureName;
  return pictureOf(take, report, name, { variation: report.weakest?.variation ?? null }) as RowsPicture;
}

// The truth is the model player's own: accents at -4 dB, taps at -20 dB, and the fault it was given.
describe('the picture of a report', () => {
  it('shows the left tap before its accent 6 dB over the resting taps, marked, where that leaks', () => {
    const { take, report } = reviewed({ kind: 'leak-before', hand: 'L', db: 6 });
    const picture = reasonPicture(take, report);
    const row = (label: string) => picture.rows.find((one) => one.label === label);
    expect(picture.unit).toBe('dB');
    expect(row('resting tap')?.L?.median).toBeCloseTo(-20, 0);
    expect(row('tap before its accent (up)')?.L?.median).toBeCloseTo(-14, 0);
    expect(row('tap before its accent (up)')?.R?.median).toBeCloseTo(-20, 0);
    expect(row('tap before its accent (up)')?.L?.out).toBe(true);
    expect(row('tap before its accent (up)')?.R?.out).toBe(false);
    expect(row('accent')?.R?.median).toBeCloseTo(-4, 0);
  });

  it('shows where each stroke of the bar falls where the left hand is late', () => {
    const { take, report } = reviewed({ kind: 'late', hand: 'L', ms: 24 });
    const weakest = { ...(report.weakest as Weakest), variation: 'accent on 1', measure: 'lag' as const };
    const picture = reasonPicture(take, { ...report, weakest });
    expect(picture.unit).toBe('ms');
    expect(picture.rows.map((row) => (row.R === null ? 'L' : 'R')).join('')).toBe('RLRRLRLLRLRRLRLL');
    const [first, second] = picture.rows;
    expect((second.L?.median ?? 0) - (first.R?.median ?? 0)).toBeGreaterThan(18);
  });
});

describe('the title of the picture', () => {
  const point = (median: number) => ({ median, spread: 1, n: 16, out: false });
  const rows: ChartRow[] = [
    { label: 'resting tap', R: point(-20.2), L: point(-20.4) },
    { label: 'tap before its accent (up)', R: point(-19.9), L: point(-15.2) },
    { label: 'accent', R: point(-4.2), L: point(-4.6) },
  ];

  it('says the finding, in the medians of the picture', () => {
    expect(kindTitle('leakBefore', 'L', rows)).toBe(
      'The left tap before its accent sits 5.2 dB above its resting taps; the right one doesn’t',
    );
  });

  it('names both kinds where no hand is the reason', () => {
    expect(kindTitle('contrast', null, rows)).toBe(
      'Accents at R −4.2, L −4.6 dB, resting taps at R −20.2, L −20.4 dB',
    );
  });
});
