import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { giveawayWords } from '../../src/grading/apart/words';
import { giveawayOf } from '../../src/grading/apart/giveaway';
import { remedyOf } from '../../src/grading/remedy/remedy';
import type { Figure, JudgedKey, Report, VariationReport } from '../../src/grading/types';
import type { Fault } from '../../src/model/faults';
import { gradeTake } from '../../src/take/grade-take';
import { modelTake } from '../../src/model/model-player';
import { seeded } from '../../src/model/random';
import type { Take } from '../../src/sessions/types';

/** Walks sentences of generated takes and derives each claim anew from the report's figures. */
const PHRASES = [
  'Single paradiddle, accent walk',
  'Single paradiddle, rotations',
  'Single paradiddle, accent walk, both leads',
];

function taken(seed: number): Take {
  const random = seeded(seed);
  const one = <Item>(items: readonly Item[]): Item => items[Math.floor(random() * items.length)];
  const phrase = phraseNamed(one(PHRASES));
  const { variation } = one(phrase.bars);
  const hand = one(['R', 'L'] as const);
  const size = 1 + 7 * random();
  const faults: readonly (readonly Fault[])[] = [
    [],
    [{ kind: 'leak-before', hand, db: size, variation }],
    [{ kind: 'leak-after', hand, db: size, variation }],
    [{ kind: 'spill', hand, db: size }],
    [{ kind: 'fade', db: -size }],
    [{ kind: 'balance', hand, db: size }],
    [{ kind: 'late', hand, ms: 4 * size }],
    [{ kind: 'accents', db: -size, variation }],
    [{ kind: 'softs', db: size, variation }],
    [{ kind: 'scatter', ms: 4 + 3 * size, variation }],
    [{ kind: 'seam', ms: -4 * size }],
    [{ kind: 'double-gap', ms: -4 * size }],
  ];
  return modelTake({
    phrase,
    bpm: 60 + Math.floor(50 * random()),
    seed,
    cycles: 3 + Math.floor(7 * random()),
    faults: one(faults),
    surfaces: one([1, 2] as const),
    missed: one([0, 0, 0.01]),
  }).take;
}

const cases = Array.from({ length: 120 }, (_, index) => {
  const take = taken(40_000 + index);
  return { seed: 40_000 + index, take, report: gradeTake(take) };
});
const worst = ({ variations }: Report): VariationReport[] =>
  variations
    .filter(({ supported }) => supported !== null)
    .sort((a, b) => (a.supported ?? 0) - (b.supported ?? 0));

const figuresIn = ({ measures }: Report): Figure[] =>
  Object.values(measures).flatMap((of) => ('ms' in of ? [of.ms, of.dB] : [of]));

function figureOf({ measures }: Pick<VariationReport, 'measures'>, key: JudgedKey): Figure {
  if (key !== 'seam') return measures[key]!;
  const { ms, dB } = measures.seam!;
  return (dB.supported ?? 9) < (ms.supported ?? 9) ? dB : ms;
}

/** The figure over the whole take, of the hand that is named where it has a row of its own. */
function overAll(report: Report, key: JudgedKey): Figure | undefined {
  const hand = report.weakest?.hand;
  const own = hand === undefined ? undefined : report.perHand[hand];
  const of = own?.measures[key] === undefined ? report : own;
  return of.measures[key] === undefined ? undefined : figureOf(of, key);
}

/** Which way each measure's clause may point, and how its number is written, from the figure alone. */
function expectClause(clause: string, key: JudgedKey, figure: Figure, report: Report): void {
  const value = figure.value!;
  const numbers = [...clause.matchAll(/(−?\d+(?:\.\d+)?) (dB|ms|%)/g)].map(([, number]) =>
    Number(number.replace('−', '-')),
  );
  const isMs = ['scatter', 'lag', 'arrival'].includes(key) || (key === 'seam' && / ms /.test(clause));
  const shown =
    key === 'complete'
      ? Math.round(1000 * value) / 10
      : Number(value.toFixed(isMs || key === 'doubleGap' || key === 'feel' ? 0 : 1));
  const said = numbers[0] ?? 0;
  expect(Math.abs(said), clause).toBeCloseTo(Math.abs(shown), 6);
  const [up, down] = [/\b(louder|later|late|wide)\b/, /\b(softer|earlier|early|narrow)\b/];
  if (['leakBefore', 'leakAfter', 'spill', 'fade', 'seam', 'doubleGap', 'lag'].includes(key) && shown !== 0) {
    // what follows the number is the direction; balance is said from the louder hand
    if (!/as loud as/.test(clause)) expect(clause.split(/; the aim/)[0]).toMatch(shown > 0 ? up : down);
  }
  if (key === 'balanceSoft' || key === 'balanceAccent')
    expect(clause).toMatch(
      shown < 0
        ? /left([’']s| hand[’']s)? ?.*louder than.*right/
        : /right([’']s| hand[’']s)? ?.*louder than.*left/,
    );
  if (['leakBefore', 'leakAfter', 'spill'].includes(key)) {
    expect(clause).toMatch(figure.hand === 'L' ? /\bleft\b/ : /\bright\b/);
    expect(clause).toMatch(report.hands === 'known' ? /hand[’']s/ : /due with the/);
  }
  if (report.hands !== 'known') expect(clause).not.toMatch(/the (left|right) hand[’']s/);
}

/** Begins a sentence on what more than one variation has. */
const FOR_ALL = /^(In every variation( that has them)?|In most variations|Over the whole phrase,) /;

describe('the sentence of 120 generated takes', () => {
  it('are about faults and about good takes, of known and of assumed hands', () => {
    expect(cases.filter(({ report }) => / is the weak bar: /.test(report.sentence)).length).toBeGreaterThan(
      20,
    );
    expect(cases.filter(({ report }) => FOR_ALL.test(report.sentence)).length).toBeGreaterThan(20);
    expect(cases.filter(({ report }) => /holds(\.|, though)/.test(report.sentence)).length).toBeGreaterThan(
      20,
    );
    expect(cases.filter(({ report }) => report.hands === 'known').length).toBeGreaterThan(20);
  });

  it.each(cases)('$seed: each claim follows from the figures', ({ report }) => {
    const sentence = report.sentence.replace(/^(You swing|Every second note comes early)[^.]*\. /, '');
    const [first, second] = worst(report);
    if (!report.fits || report.slips.length > 0 || /rig first/.test(sentence)) return;
    const one = /^(.*?) is the weak bar: (.*?)\.(?= [A-Z]|$)(.*)$/.exec(sentence);
    if (one !== null) {
      const [, name, clause, rest] = one;
      expect(name.toLowerCase()).toBe(first.name.toLowerCase());
      expect(report.weakest?.variations).toEqual([first.name]);
      expect(first.supported).toBeLessThan(0);
      expect(['close', 'not yet']).toContain(first.band);
      expectClause(clause, first.measure!, figureOf(first, first.measure!), report);
      if (/ comes next: /.test(rest)) {
        expect(second.supported! - first.supported!).toBeLessThan(0.2);
        expect(rest.toLowerCase()).toContain(second.name.toLowerCase());
        expect(second.measure).not.toBe(first.measure);
      }
      return;
    }
    const some = /^(.*?) are the weak bars: in (.*?), (.*?)\.$/.exec(sentence);
    if (some !== null) {
      const [, names, name, clause] = some;
      const bad = report.weakest?.variations ?? [];
      expect(bad.length).toBeGreaterThan(1);
      for (const each of bad) expect(names.toLowerCase()).toContain(each.toLowerCase());
      expect(name).toBe(first.name);
      expectClause(clause, first.measure!, figureOf(first, first.measure!), report);
      return;
    }
    if (FOR_ALL.test(sentence)) {
      expect(['take', 'hand', 'kind', 'seam']).toContain(report.weakest?.scope);
      expect(first.supported).toBeLessThan(0);
      const clause = sentence.replace(FOR_ALL, '').replace(/\.$/, '');
      const over = overAll(report, first.measure!);
      const isOut = (over?.supported ?? 0) < 0;
      expectClause(clause, first.measure!, isOut ? over! : figureOf(first, first.measure!), report);
      return;
    }
    if (/^Every variation holds by itself/.test(sentence)) {
      expect(report.variations.every(({ band }) => band === 'holds')).toBe(true);
      expect(figuresIn(report).some(({ supported }) => typeof supported === 'number' && supported < 0)).toBe(
        true,
      );
      return;
    }
    expect(sentence).toMatch(/^Every variation (that was played often enough )?holds/);
    const judged = report.variations.filter(({ supported }) => supported !== null);
    for (const { supported } of judged) expect(supported).toBeGreaterThanOrEqual(0);
    // no praise that the intervals don't support
    const sure = judged.every((of) => figureOf(of, of.measure!).sure);
    expect(/leave some doubt/.test(sentence)).toBe(!sure);
  });

  it.each(cases)('$seed: what the remedy says follows from the report', ({ take, report }) => {
    const bpm = 'bpm' in take.tempo ? take.tempo.bpm : 0;
    const remedy = remedyOf(report, take.phrase, bpm);
    const [first] = worst(report);
    if (report.fits && report.slips.length === 0 && first?.supported !== null && first.supported < 0) {
      expect(remedy?.evidence.measure).toBe(first.measure);
      const { scope } = report.weakest!;
      const isOne = scope === 'variation' || scope === 'variations';
      const over = overAll(report, first.measure!);
      const isTold = !isOne && (over?.supported ?? 0) < 0;
      expect(remedy?.evidence.variation).toBe(isTold ? null : first.name);
      // a fault of the whole phrase gets the whole phrase
      expect(/the whole phrase/.test(remedy!.sentence)).toBe(!isOne);
    }
    if (remedy === undefined) return;
    expect(remedy.sentence).toContain(`at ${remedy.bpm} bpm`);
    expect(remedy.bpm).toBeLessThanOrEqual(bpm);
    const { evidence, stop } = remedy;
    if (evidence.value !== null && evidence.measure !== 'seam' && remedy.reason !== 'slip') {
      expectClause(evidence.words, evidence.measure, { ...evidence, sure: false } as Figure, report);
    }
    const wrongSide = stop.hand === 'L' ? /\bright\b/ : stop.hand === 'R' ? /\bleft\b/ : /\bnothing here\b/;
    expect(stop.words.replaceAll('at once', '')).not.toMatch(wrongSide);
    const said = Number(/(−?\d+(?:\.\d+)?) (?:dB|ms|%)/.exec(stop.words)?.[1].replace('−', '-'));
    const limit = stop.measure === 'complete' ? 100 * stop.limit : stop.limit;
    if (!Number.isNaN(said)) expect(Math.abs(Math.abs(said) - Math.abs(limit))).toBeLessThanOrEqual(0.5);
    // grip-neutral, and kind
    for (const words of [remedy.sentence, remedy.purpose, stop.words]) {
      expect(words).not.toMatch(/\b(grip|thumb|wrist|finger|moeller|bad|poor|wrong|fail)/i);
    }
  });

  it.each(cases.filter(({ take }) => take.phrase.title.includes('rotations')).slice(0, 20))(
    '$seed: what the giveaway says follows from its figures',
    ({ take, report }) => {
      const found = giveawayOf(report, take.phrase, take.tempo, 99);
      const words = giveawayWords(found);
      if (found.kind === 'not told') {
        expect(words).not.toMatch(/\d/);
        return;
      }
      expect(/^What gives /.test(words)).toBe(
        found.p < 0.05 && Math.abs(found.difference.value) > found.audibleFrom,
      );
      expect(/chance makes as much/.test(words)).toBe(found.p >= 0.05);
      expect(words).toContain(Math.abs(found.difference.value).toFixed(found.unit === 'dB' ? 1 : 0));
      expect(words).toMatch(found.difference.value > 0 ? /louder|later/ : /softer|earlier/);
      expect(/only: something may be missed/.test(words)).toBe(found.cycles < 8);
    },
  );
});
