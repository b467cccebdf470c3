import { describe, expect, it } from 'vitest';
import { blindWords } from '../../../src/grading/apart/words';
import {
  answered,
  blindScore,
  listenBlind,
  nextBlind,
  type BlindBar,
  type Listening,
} from '../../../src/grading/apart/listen-blind';
import { reference } from '../../reference/read';

const bars: readonly BlindBar[] = Array.from({ length: 24 }, (_, bar) => ({
  take: 0,
  bar,
  answer: ['RLRR LRLL', 'RLLR LRRL', 'RRLR LLRL'][bar % 3],
}));
const { intervals } = reference('binomial') as { readonly intervals: readonly (readonly number[])[] };

function scored(right: number, of: number): Listening {
  const start = {
    choices: ['A', 'B'],
    bars: Array.from({ length: of }, (_, bar) => ({ take: 0, bar, answer: 'A' })),
    answers: [],
  };
  return Array.from({ length: of }, (_, i) => (i < right ? 'A' : 'B')).reduce<Listening>(answered, start);
}

describe('listening blind', () => {
  it('draws as many bars of each variation, in an order the seed fixes', () => {
    const round = listenBlind(bars, 7);
    expect(round.bars).toHaveLength(15);
    for (const choice of round.choices)
      expect(round.bars.filter(({ answer }) => answer === choice)).toHaveLength(5);
    expect(new Set(round.bars.map(({ bar }) => bar)).size).toBe(15);
    expect(listenBlind(bars, 7)).toEqual(round);
    expect(listenBlind(bars, 8).bars).not.toEqual(round.bars);
  });

  it('goes by the rarest, so that always naming one gains nothing', () => {
    const round = listenBlind([...bars.slice(0, 6), { take: 1, bar: 0, answer: 'model take' }], 1);
    expect(round.bars).toHaveLength(4);
  });

  it('is refused with nothing to choose between', () => {
    expect(() =>
      listenBlind(
        bars.filter(({ answer }) => answer === 'RLRR LRLL'),
        1,
      ),
    ).toThrow('bars must be of two variations or takes at least, got 1');
  });

  it('goes on until every bar is answered, and then stays as it is', () => {
    let round = listenBlind(bars, 3, 1);
    while (nextBlind(round) !== undefined) round = answered(round, nextBlind(round)!.answer);
    expect(blindScore(round)).toMatchObject({ right: 3, of: 3 });
    expect(answered(round, 'RLRR LRLL')).toBe(round);
  });

  it.each(intervals)('%i of %i right: the interval is that of R’s binom.test', (right, of, low, high) => {
    const { share } = blindScore(scored(right, of));
    expect(share?.interval[0]).toBeCloseTo(low, 12);
    expect(share?.interval[1]).toBeCloseTo(high, 12);
  });

  it('says whether ears can tell', () => {
    expect(blindWords(blindScore(scored(7, 10)))).toBe(
      '7 of 10 heard right (guessing makes 50 %; 90 % interval 39 to 91 %): so far no more than guessing may make.',
    );
    expect(blindWords(blindScore(scored(10, 10)))).toMatch(/they can be told by ear\.$/);
    expect(blindWords(blindScore(scored(0, 0)))).toBe('Nothing heard yet.');
  });
});
