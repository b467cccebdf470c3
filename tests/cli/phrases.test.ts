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

  it('prints a rudiment by its name, whatever the case, with its source', () => {
    expect(phrases(['FLAM accent'])).toBe(
      [
        'Flam accent: 4 beats a bar, 8 cycles',
        '  {l}Rlr {r}Lrl   {l}Rlr {r}Lrl {l}Rlr {r}Lrl   also called flam accent',
        '  rudiment 21; source: common practice, from memory',
        '',
      ].join('\n'),
    );
    expect(() => phrases(['multiple bounce roll'])).toThrow('rudiment must be one that MIDI can show');
  });

  it('prints a rudiment with the left hand leading', () => {
    expect(phrases(['single paradiddle, left lead'])).toContain('Lrll Rlrr Lrll Rlrr');
    expect(() => phrases(['no such thing, left lead'])).toThrow('phrase must be one of the bundled phrases');
  });

  it('warns of seams that make three of one hand', () => {
    expect(phrases(['Single paradiddle, accent walk, both leads'])).toContain(
      'Going from bar 4 (accent on 4) to bar 5 (accent on 1, left lead) the left hand plays 3 running.',
    );
  });

  it('gives the whole list as JSON: 7 phrases of the single paradiddle, 39 rudiments, and the one that is missing', () => {
    const all = JSON.parse(phrases(['--json'])) as { name: string; rudiment?: { number: number } }[];
    expect(all).toHaveLength(47);
    const numbers = all.flatMap(({ rudiment }) => (rudiment === undefined ? [] : [rudiment.number]));
    expect(new Set(numbers).size).toBe(39);
    expect(numbers).not.toContain(4);
    expect(all.at(-1)).toMatchObject({ name: 'Multiple bounce roll', phrase: null });
  });
});
