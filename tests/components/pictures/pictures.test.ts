import { describe, expect, it } from 'vitest';
import { pictureByReason, pictureNames, pictureOf } from '../../../src/components/pictures/choice';
import type { RowsPicture, TempoPicture } from '../../../src/components/pictures/picture';
import { pictureCsv } from '../../../src/components/pictures/rows-csv';
import { phraseNamed } from '../../../src/exercises/phrase';
import { judgedMeasures } from '../../../src/grading/measures';
import { gradeTake } from '../../../src/take/grade-take';
import { modelTake, type ModelPlayer } from '../../../src/model/model-player';
import type { PictureName } from '../../../src/state/reviewing';

const phrase = phraseNamed('Single paradiddle, accent walk');

function reviewed(player: Partial<ModelPlayer>) {
  const { take } = modelTake({
    phrase,
    bpm: 84,
    seed: 5,
    cycles: 8,
    timingSdMs: 4,
    levelSdDb: 0.6,
    ...player,
  });
  const report = gradeTake(take);
  const picture = (name: PictureName, variation: string | null = null): RowsPicture =>
    pictureOf(take, report, name, { variation }) as RowsPicture;
  return { take, report, picture };
}

// The truth is the model player's own: accents at −4 dB, taps at −20 dB, and the fault it was given.
describe('levels stroke by stroke', () => {
  const { picture, report } = reviewed({
    faults: [{ kind: 'leak-before', hand: 'L', db: 7, variation: 'accent on 4' }],
  });
  const { rows, title } = picture('levels by place', 'accent on 4');
  const median = (levels: readonly number[]): number => {
    const sorted = [...levels].sort((a, b) => a - b);
    return (sorted[(sorted.length - 1) >> 1] + sorted[sorted.length >> 1]) / 2;
  };

  it('has a row for each of the sixteen strokes, in the order they are played', () => {
    expect(rows.map(({ label }) => label.slice(0, 1)).join('')).toBe('1e&a2e&a3e&a4e&a');
  });

  it('draws the band taps hold in up to 3.5 dB over their hand’s median, and from 12 dB over both hands’ for accents', () => {
    const softs = (hand: string): number[] =>
      report.slots.flatMap((slot) =>
        slot.kind === 'accent' || (hand !== '' && slot.hand !== hand) || slot.level === null
          ? []
          : slot.level,
      );
    expect(rows[0].band?.[1]).toBeCloseTo(Math.min(-16, median(softs('R')) + 3.5), 9);
    expect(rows[3].band?.[0]).toBeCloseTo(median(softs('')) + 12, 9);
  });

  it('marks the left tap before its accent, which is 3 dB out, and says so', () => {
    const out = rows.flatMap((row, index) => ((row.R ?? row.L)?.out === true ? [index + 1] : []));
    expect(out).toEqual([7, 15]);
    expect(title).toMatch(
      /^Stroke (7|15) \(L\) has its middle [23]\.\d dB above its band, farthest of 2 outside$/,
    );
  });
});

describe('timing stroke by stroke', () => {
  it('has the left hand right of the right hand all through, and says by how much: 20 ms late', () => {
    const { picture } = reviewed({ faults: [{ kind: 'late', hand: 'L', ms: 20 }] });
    const { rows, title } = picture('timing by place', 'accent on 1');
    const left = rows.flatMap(({ L }) => L?.median ?? []);
    const right = rows.flatMap(({ R }) => R?.median ?? []);
    expect(Math.min(...left)).toBeGreaterThan(Math.max(...right));
    expect(title).toMatch(/^The right hand comes (19|20|21) ms before the left, place by place$/);
  });
});

describe('what the soft strokes owe', () => {
  it('finds the 6 dB that the left hand leaks before its accents, with its resting level', () => {
    const { picture } = reviewed({ faults: [{ kind: 'leak-before', hand: 'L', db: 6 }] });
    const { rows, title } = picture('soft strokes');
    const before = rows.find(({ label }) => label === 'tap before its accent');
    expect(before?.L?.median).toBeCloseTo(6, 0);
    expect(before?.L?.out).toBe(true);
    expect(before?.R?.median).toBeCloseTo(0, 0);
    expect(title).toMatch(
      /^The left hand’s soft strokes are [56]\.\d dB louder before its accent than at rest/,
    );
  });
});

describe('accents and soft strokes', () => {
  it('says how far accents stand over taps with each hand: 16 dB', () => {
    const { picture } = reviewed({});
    expect(picture('accents and soft').title).toMatch(
      /^Accents stand 1[56]\.\d dB over the taps with the right hand, 1[56]\.\d dB with the left$/,
    );
  });
});

describe('accents and soft strokes of an uneven pair of hands', () => {
  it('says which hand’s are louder where that is the reason', () => {
    const { picture, report } = reviewed({ faults: [{ kind: 'balance', hand: 'R', db: 4 }] });
    expect(report.weakest?.measure).toMatch(/^balance/);
    expect(picture('accents and soft').title).toMatch(
      /^The right hand’s (accents|taps) are [34]\.\d dB louder than the left hand’s$/,
    );
  });
});

describe('variations by margin', () => {
  it('counts those that hold and names the lowest', () => {
    const { picture } = reviewed({
      faults: [{ kind: 'leak-before', hand: 'L', db: 7, variation: 'accent on 4' }],
    });
    expect(picture('variations').title).toMatch(
      /^3 of 4 variations hold; accent on 4 stands lowest, at margin −/,
    );
  });
});

describe('tempo', () => {
  it('follows a ramp from 60 to 120 bpm within 2 bpm, bar by bar', () => {
    const ramp = [
      { bar: 0, bpm: 60 },
      { bar: 32, bpm: 120 },
    ];
    const { take, report } = reviewed({ ramp, timingSdMs: 2 });
    const picture = pictureOf(take, report, 'tempo', { variation: null }) as TempoPicture;
    expect(picture.points).toHaveLength(32);
    for (const { plannedBpm, playedBpm } of picture.points) {
      expect(Math.abs((playedBpm ?? 0) - plannedBpm)).toBeLessThan(2);
    }
    expect(picture.title).toMatch(/^The tempo went from 6\d to 11\d|^The tempo went from 6\d to 120/);
  });

  it('is no picture of a take to a steady click', () => {
    const { take, report } = reviewed({});
    expect(pictureOf(take, report, 'tempo', { variation: null })).toBeNull();
  });
});

describe('the picture chosen by the reason', () => {
  it.each([
    ['leakBefore', 'levels by kind'],
    ['scatter', 'timing by place'],
    ['contrast', 'accents and soft'],
    ['softRange', 'levels by place'],
    ['complete', null],
  ] as const)('%s is shown by %s', (measure, name) => {
    const { take, report } = reviewed({});
    const weakest = {
      scope: 'variation' as const,
      variations: ['accent on 1'],
      variation: 'accent on 1',
      measure,
      slot: null,
      value: 0,
      sentence: '',
    };
    expect(pictureByReason(take, { ...report, weakest })).toBe(name);
  });
});

describe('a picture as CSV', () => {
  it('has a head with units and a row a point', () => {
    const { take, report } = reviewed({});
    const lines = pictureCsv(
      pictureOf(take, report, 'accents and soft', { variation: null }) as RowsPicture,
    ).split('\r\n');
    expect(lines[0]).toBe('row,hand,middle dB,spread dB,strokes,band low,band high');
    expect(lines).toHaveLength(6);
    expect(lines[1]).toMatch(/^accents,R,-[345]\.\d+,[\d.]+,64,-[78]\.\d+,$/);
  });

  it('is there for every picture that is offered', () => {
    const { take, report } = reviewed({});
    for (const name of pictureNames) {
      const picture = pictureOf(take, report, name, { variation: null });
      if (picture !== null) expect(pictureCsv(picture).split('\r\n').length).toBeGreaterThan(2);
    }
  });
});

describe('times are shown by pictures of times', () => {
  const late = reviewed({ faults: [{ kind: 'arrival', ms: 60, variation: 'accent on 2' }] });

  it('a variation that comes late: all their offsets on one axis, and how far it lies behind', () => {
    expect(pictureByReason(late.take, late.report)).toBe('arrival');
    const { rows, title } = late.picture('arrival');
    expect(rows.map(({ label }) => label)).toEqual([
      'Accent on 1',
      'Accent on 2',
      'Accent on 3',
      'Accent on 4',
    ]);
    expect(rows.map(({ both }) => both?.out)).toEqual([false, true, false, false]);
    expect(Math.abs((rows[1].both?.median ?? 0) - 60)).toBeLessThan(3);
    expect(title).toMatch(
      /^Accent on 2 comes (59|60|61) ms behind the others; the next farthest lies [0-3] ms off$/,
    );
  });

  it('stroke by stroke it names what of the times is the hands’, the feel’s, the doubles’ and the bar’s', () => {
    expect(late.picture('timing by place', 'accent on 2').drawn).toMatch(
      /in it: .*the whole bar (59|60|61) ms late against the others$/,
    );
    const both = reviewed({
      faults: [
        { kind: 'swing', percent: 62 },
        { kind: 'late', hand: 'L', ms: 18 },
      ],
    });
    const { drawn } = both.picture('timing by place', 'accent on 1');
    expect(drawn).toMatch(
      /the right hand (17|18|19) ms early against the left, off-beats (41|42|43|44) ms late/,
    );
  });

  it('a swing opens the times although every variation holds, and the title says where every second note lies', () => {
    const { take, report, picture } = reviewed({ faults: [{ kind: 'swing', percent: 60 }] });
    expect(report.variations.every(({ band }) => band === 'holds')).toBe(true);
    expect(pictureByReason(take, report)).toBe('timing by place');
    expect(picture('timing by place').title).toMatch(
      /^Every second note comes 3[5-7] ms late, at 60 % of its pair$/,
    );
  });

  it('uneven grace notes: how far ahead each of them falls', () => {
    const { take, report, picture } = reviewed({
      phrase: phraseNamed('Flam tap'),
      faults: [
        { kind: 'flam-gap', ms: 42 },
        { kind: 'flam-uneven', ms: 20 },
      ],
    });
    expect(report.weakest?.measure).toBe('graceEvenness');
    expect(pictureByReason(take, report)).toBe('grace notes');
    const { rows, title } = picture('grace notes');
    expect(rows.every(({ R, L }) => (R === null) !== (L === null))).toBe(true);
    expect(rows[0].band).toEqual([15, 55]);
    expect(title).toMatch(
      /^Grace notes fall \d+ to \d+ ms ahead of their strokes; at one place they vary by \d+ ms$/,
    );
  });

  it('no measure made of times opens a picture of levels', () => {
    for (const { figures } of judgedMeasures) {
      for (const { madeOf, picture } of figures) {
        if (madeOf === 'times')
          expect(['timing by place', 'arrival', 'grace notes', null]).toContain(picture);
      }
    }
  });
});
