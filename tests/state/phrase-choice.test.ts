import { describe, expect, it } from 'vitest';
import {
  rebuilt,
  choiceError,
  chosen,
  chosenByName,
  hasLeads,
  inBarsOf,
  withPerformance,
  typedIn,
} from '../../src/state/phrase-choice';

const walk = chosenByName('Single paradiddle, accent walk', 8);

describe('the phrase on the desk', () => {
  it('is a bundled one as it stands, with its pattern', () => {
    expect(walk.phrase.bars).toHaveLength(4);
    expect(walk.pattern).toBe('Rlrr Lrll');
    expect(walk.build.rule).toBeNull();
  });

  it('is varied by a rule, and back as it stands again', () => {
    const turned = rebuilt(walk, { rule: 'rotations' });
    expect(turned.phrase.bars.map((bar) => bar.variation)).toEqual([
      'RLRR LRLL',
      'RLLR LRRL',
      'RRLR LLRL',
      'RLRL LRLR',
    ]);
    expect(turned.typed.split('|')).toHaveLength(4);
    expect(turned.phrase.cycles).toBe(8);
    expect(rebuilt(turned, { rule: null }).phrase).toEqual(walk.phrase);
  });

  it('keeps rule, lead and stage while one of them changes', () => {
    const left = rebuilt(rebuilt(walk, { rule: 'accent walk', stage: 'join' }), { lead: 'left' });
    expect(left.phrase.bars).toHaveLength(8);
    expect(left.phrase.bars[0].sticking.startsWith('Lrll')).toBe(true);
  });

  it('comes from typed text, and varies that', () => {
    const typed = typedIn(walk, 'Rrll Rrll Rrll Rrll');
    expect(typed.phraseName).toBeNull();
    expect(typed.pattern).toBe('Rrll');
    const accents = rebuilt(typed, { rule: 'accent walk' });
    expect(accents.phrase.bars.map((bar) => bar.sticking.slice(0, 4))).toEqual([
      'Rrll',
      'rRll',
      'rrLl',
      'rrlL',
    ]);
  });

  it('keeps the phrase while the text is wrong', () => {
    const wrong = typedIn(walk, 'Rlrr Lrl');
    expect(wrong.typedError).toContain('bar 1 must fill its bar: 7 partials in a bar of 16');
    expect(wrong.phrase).toBe(walk.phrase);
    expect(choiceError(wrong)).toBe(wrong.typedError);
    expect(choiceError({ ...walk, dynError: 'dyn must be p or f' })).toBe('dyn must be p or f');
    expect(choiceError(walk)).toBe('');
  });

  it('is set in other bars', () => {
    const typed = typedIn(walk, 'Rlrr Lrll Rlrr Lrll');
    const two = inBarsOf(rebuilt(typed, { rule: 'accent walk' }), { beatsPerBar: 2 });
    expect(two.phrase.bars[0].sticking).toBe('Rlrr Lrll');
    expect(two.phrase.beatsPerBar).toBe(2);
    // As it stands a bar of four beats does not fit a bar of two: the text says so, and nothing is lost.
    expect(inBarsOf(typed, { beatsPerBar: 2 }).typedError).toContain('16 partials in a bar of 8');
  });

  it('refuses what makes no phrase', () => {
    const short = inBarsOf(typedIn(walk, 'Rlrr Lrll Rlrr Lrll'), { beatsPerBar: 4 });
    expect(() => rebuilt({ ...short, beatsPerBar: 1 }, { rule: 'accent walk' })).toThrow(
      'pattern must fit its bar',
    );
  });

  it('is a rudiment by either hand as it stands', () => {
    const flams = chosenByName('Flam accent', 8);
    expect([hasLeads('Flam accent'), hasLeads('Single paradiddle, accent walk'), hasLeads(null)]).toEqual([
      true,
      false,
      false,
    ]);
    const left = rebuilt(flams, { lead: 'left' });
    expect(left.phrase.bars[0].sticking).toBe('{r}Lrl {l}Rlr {r}Lrl {l}Rlr');
    expect([left.phraseName, left.phrase.title]).toEqual(['Flam accent', 'Flam accent, left lead']);
    expect(rebuilt(left, { lead: 'right' }).phrase).toEqual(flams.phrase);
  });
});

describe('the performance of the phrase that is chosen', () => {
  it('stays while the phrase is varied, typed anew or another one', () => {
    const kit = withPerformance(walk, { voicing: 'accents to toms', first: 'listen' });
    expect(kit.phrase.bars).toHaveLength(8);
    expect(kit.typed).toBe(walk.typed);
    for (const next of [
      rebuilt(kit, { rule: 'rotations' }),
      typedIn(kit, 'Rrll Rrll Rrll Rrll'),
      chosenByName('Flam accent', 8, kit.performance),
    ]) {
      expect(next.performance).toEqual(kit.performance);
      expect(next.phrase.voicing).toEqual({
        R: 'snare',
        L: 'snare',
        accentsR: 'floor tom',
        accentsL: 'high tom',
      });
      expect(next.phrase.bars[0].role).toBe('listen');
    }
  });

  it('keeps the phrase while a feet line is wrong, and says at which character', () => {
    const feet = withPerformance(walk, { feet: 'K---' });
    const wrong = withPerformance(feet, { feet: 'K--x' });
    expect(wrong.feetError).toContain('line 1, column 4 must be K');
    expect(wrong.phrase).toBe(feet.phrase);
    expect(wrong.performance.feet).toBe('K--x');
    const right = withPerformance(wrong, { feet: 'K--H' });
    expect([right.feetError, right.phrase.feet]).toEqual(['', 'K--H']);
  });

  it('comes with a phrase that is laid on the desk', () => {
    const { phrase } = withPerformance(walk, { voicing: 'two surfaces', swing: 0.6, feet: 'H---' });
    const laid = chosen({ ...phrase, title: 'Mine' }, 'Mine');
    expect(laid.performance).toEqual({
      voicing: 'two surfaces',
      feet: 'H---',
      swing: 0.6,
      dyn: null,
      first: null,
    });
    expect(laid.phrase.title).toBe('Mine');
    expect(laid.typed).toBe(walk.typed);
  });
});
