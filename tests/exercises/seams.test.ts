import { describe, expect, it } from 'vitest';
import { phraseFromText, phraseNamed } from '../../src/exercises/phrase';
import { orderWithoutWarnings, seamWarnings, seamWords } from '../../src/exercises/seams';

const typed = (text: string, cycles = 4) =>
  phraseFromText(text, { beatsPerBar: 2, partialsPerBeat: 4, cycles });

describe('seams', () => {
  it('warn where two variations together make three of one hand', () => {
    expect(seamWarnings(typed('Rlrr Lrll | Llrr Lrlr', 1))).toEqual([
      {
        fromBar: 0,
        toBar: 1,
        hand: 'L',
        strokes: 4,
        words: 'Going from bar 1 (Rlrr Lrll) to bar 2 (Llrr Lrlr) the left hand plays 4 running.',
      },
    ]);
  });

  it('warn round the cycle, only where there is a second time', () => {
    const text = 'Rrlr Llrl | Rlrl Llrr';
    expect(seamWarnings(typed(text, 1))).toEqual([]);
    expect(seamWords(typed(text, 2))[0]).toBe(
      'Going round from bar 2 (Rlrl Llrr) to bar 1 (Rrlr Llrl) the right hand plays 4 running.',
    );
  });

  it('are clean in the rotations, in the vocabulary’s order, round and round', () => {
    expect(seamWarnings(phraseNamed('Single paradiddle, rotations'))).toEqual([]);
    expect(seamWarnings(phraseNamed('Single paradiddle, rotations, left lead'))).toEqual([]);
  });

  it('are not clean where a paradiddle changes its lead after a whole bar: LRLL goes to LRLL (calc)', () => {
    expect(
      seamWarnings(phraseNamed('Single paradiddle, accent walk, both leads')).map((one) => [
        one.fromBar,
        one.toBar,
        one.hand,
        one.strokes,
      ]),
    ).toEqual([
      [3, 4, 'L', 3],
      [7, 0, 'R', 3],
    ]);
  });

  it('leave alone a hand that plays three running inside a bar anyway', () => {
    expect(seamWarnings(typed('Rrrl llrr | rlrl rlrl'))).toEqual([]);
    expect(seamWarnings(typed('rrrr rrrr | Rlrl rlrl'))).toEqual([]);
  });

  it('do not count over a rest, nor over the other hand’s grace note', () => {
    expect(seamWarnings(typed('rlrl lrr- | Rrlr lrll', 1))).toEqual([]);
    expect(seamWarnings(typed('rlrl llrr | {l}Rrlr lrll', 1))).toEqual([]);
    expect(seamWarnings(typed('rlrl llrr | Rrlr lrll', 1))).toHaveLength(1);
  });

  it('count a unison for both hands, and a grace note for its own', () => {
    expect(
      seamWarnings(typed('rlrl rlrr | [RL]lrl rlrl', 1)).map(({ hand, strokes }) => [hand, strokes]),
    ).toEqual([['R', 3]]);
    expect(
      seamWarnings(typed('rlrl rrll | {l}Rlrl rlrl', 1)).map(({ hand, strokes }) => [hand, strokes]),
    ).toEqual([['L', 3]]);
  });

  it('say the order of variations that has none', () => {
    const phrase = typed('rlrl rlrr | rrlr lrll | lrll rlrl');
    expect(seamWarnings(phrase)).toHaveLength(2);
    expect(orderWithoutWarnings(phrase)).toEqual([0, 2, 1]);
    expect(seamWarnings({ ...phrase, bars: [0, 2, 1].map((bar) => phrase.bars[bar]) })).toEqual([]);
    expect(seamWords(phrase)[2]).toBe(
      'In this order no hand plays three running at a seam: rlrl rlrr | lrll rlrl | rrlr lrll.',
    );
  });

  it('say so where there is no such order', () => {
    expect(seamWords(typed('rrlr lrlr | rrll rlrr'))).toEqual([
      'Going from bar 1 (rrlr lrlr) to bar 2 (rrll rlrr) the right hand plays 3 running.',
      'Going round from bar 2 (rrll rlrr) to bar 1 (rrlr lrlr) the right hand plays 4 running.',
      'No other order of these variations was found without one.',
    ]);
  });

  it('keep bars of one variation together', () => {
    expect(orderWithoutWarnings(typed('rlrl rlrl | rlrl rlrl | Rlrr Lrll'))).toEqual([0, 1, 2]);
  });

  it('have nothing to say in bars that are only listened to', () => {
    const phrase = typed('rlrl llrr | Rrlr lrll', 1);
    const [first, second] = phrase.bars;
    expect(seamWarnings({ ...phrase, bars: [{ ...first, role: 'listen' }, second] })).toEqual([]);
  });
});
