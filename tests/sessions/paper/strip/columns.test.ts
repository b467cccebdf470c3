import { describe, expect, it } from 'vitest';
import { columnsOf, countOf, spokenSticking } from '../../../../src/sessions/paper/strip/columns';
import { gridOf } from '../../../../src/exercises/grid';
import { phraseFromText } from '../../../../src/exercises/phrase';
import type { Phrase } from '../../../../src/exercises/types';
import { writtenIn } from '../../../../src/exercises/written';

function firstBar(text: string, beatsPerBar: number, partialsPerBeat: number) {
  const grid = gridOf(phraseFromText(text, { beatsPerBar, partialsPerBeat, cycles: 1 }), { bpm: 60 }, 0);
  return columnsOf(grid.bars[0], grid.slots);
}

// Source: common practice of counting aloud, no source.
describe('the count', () => {
  it('of sixteenths is 1 e & a', () => {
    expect([0, 1, 2, 3].map((partial) => countOf(0, partial, 4))).toEqual(['1', 'e', '&', 'a']);
  });

  it('of eighths is 1 &, of triplets 1 & a', () => {
    expect([0, 1].map((partial) => countOf(2, partial, 2))).toEqual(['3', '&']);
    expect([0, 1, 2].map((partial) => countOf(1, partial, 3))).toEqual(['2', '&', 'a']);
  });

  it('says nothing between the beats of five partials', () => {
    expect([0, 1, 4].map((partial) => countOf(0, partial, 5))).toEqual(['1', '', '']);
  });
});

describe('the columns of a bar', () => {
  it('are as wide as the partials are long', () => {
    const columns = firstBar('Rlrr Lrll', 2, 4);
    expect(columns.map((column) => column.x)).toEqual([0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875]);
    expect(columns[3].width).toBe(0.125);
  });

  it('keep a place for a rest', () => {
    const columns = firstBar('R-rr', 1, 4);
    expect(columns.map((column) => column.slot?.hand ?? '-').join('')).toBe('R-RR');
    expect(columns.map((column) => column.count).join(' ')).toBe('1 e & a');
  });

  it('are spoken beat by beat', () => {
    expect(spokenSticking(firstBar('Rl-(r) Lrll', 2, 4))).toBe(
      'accent R, L, rest, ghost R; accent L, R, L, L',
    );
  });
});

describe('what is more than plain strokes', () => {
  const phrase: Phrase = {
    title: '',
    beatsPerBar: 1,
    partialsPerBeat: 4,
    cycles: 1,
    feet: 'K-[Kh]-H-',
    bars: [
      { variation: 'call', sticking: '[RL]-{ll}Rr', role: 'listen' },
      { variation: 'call', sticking: '[RL]-{ll}Rr' },
    ],
  };
  const cycle = gridOf(phrase, { bpm: 60 }, 0);
  const { slots, feet } = writtenIn(phrase, cycle);

  it('a unison is two strokes in one column, R first', () => {
    const [first, rest] = columnsOf(cycle.bars[1], slots);
    expect(first.slots.map(({ hand }) => hand)).toEqual(['R', 'L']);
    expect(rest.slots).toEqual([]);
  });

  it('a bar to listen to shows what it sounds, though none of it is due', () => {
    expect(cycle.bars[0].slots).toBe(0);
    expect(columnsOf(cycle.bars[0], slots).map((column) => column.slots.length)).toEqual([2, 0, 1, 1]);
  });

  it('feet of six partials under bars of four come round after three cycles of two bars', () => {
    expect(feet).toHaveLength(3);
    const line = (round: number) =>
      columnsOf(cycle.bars[0], slots, feet[round]).map((column) =>
        column.feet.map(({ foot }) => foot).join(''),
      );
    expect(line(0)).toEqual(['K', '', 'KH', '']);
    expect(line(1)).toEqual(['KH', '', 'H', '']);
  });

  it('are spoken too, the feet after the hands', () => {
    expect(spokenSticking(columnsOf(cycle.bars[0], slots, feet[0]))).toBe(
      'both hands accent R with accent L, rest, drag accent R, R. Feet: bass drum, rest, bass drum with soft hi-hat, rest',
    );
  });
});
