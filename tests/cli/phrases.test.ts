import { describe, expect, it } from 'vitest';
import { phrases } from '../../src/cli/phrases';

describe('evenhand phrases', () => {
  it('lists the rudiments, those played weekly before the others, and says why one is missing', () => {
    const list = phrases([]);
    expect(list.indexOf('Rudiments played weekly')).toBeLessThan(list.indexOf('  Flam accent '));
    expect(list.indexOf('  Flam accent ')).toBeLessThan(list.indexOf('\nRolls\n'));
    expect(list).toMatch(/\n {2}Flam accent +\{l\}Rlr \{r\}Lrl\n/);
    expect(list).toContain('Multiple bounce roll: a pad sends one note for each stroke it can tell apart');
  });

  it('prints a rudiment by its name, whatever the case', () => {
    expect(phrases(['FLAM accent'])).toBe(
      'Flam accent: 4 beats a bar, 8 cycles\n  {l}Rlr {r}Lrl   {l}Rlr {r}Lrl {l}Rlr {r}Lrl   also called flam accent\n',
    );
    expect(() => phrases(['multiple bounce roll'])).toThrow('rudiment must be one that MIDI can show');
  });

  it('gives the whole list as JSON: 7 phrases of the single paradiddle and 39 rudiments', () => {
    const all = JSON.parse(phrases(['--json'])) as {
      name: string;
      group: string;
      phrase: { bars: unknown[] };
    }[];
    expect(all).toHaveLength(46);
    expect(
      all.every(({ name, group, phrase }) => name !== '' && group !== '' && phrase.bars.length > 0),
    ).toBe(true);
  });
});
