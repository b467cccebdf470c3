import { describe, expect, it } from 'vitest';
import { leaveOneOut } from '../../../src/grading/numbers/shrunk-discriminant';
import { reference } from '../../reference/read';

interface Case {
  readonly classes: number;
  readonly values: readonly (readonly number[])[];
  readonly labels: readonly number[];
  readonly cycles: readonly number[];
  readonly guesses: readonly number[];
  readonly balanced: number;
}
const { cases } = reference('discriminant') as { readonly cases: readonly Case[] };

describe('the shrunk discriminant', () => {
  it.each(cases)('guesses as scikit-learn does, case by case: $classes classes', (of) => {
    const blocks: number[][] = [];
    of.cycles.forEach((cycle, row) => (blocks[cycle] ??= []).push(row));
    const guesses = leaveOneOut({
      classes: of.classes,
      dimensions: of.values[0].length,
      values: Float64Array.from(of.values.flat()),
      blocks,
    })(Uint16Array.from(of.labels));
    expect([...guesses]).toEqual(of.guesses);
  });
});
