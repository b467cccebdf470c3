import { describe, expect, it } from 'vitest';
import { english, type Saying } from '../../src/words/en';

const tooFew: Saying = { key: 'too few strokes', args: {} };

describe('sentences by key and arguments', () => {
  it('follow each other, each with a capital', () => {
    expect(english([{ key: 'latency', args: { ms: 182.4 } }, tooFew])).toBe(
      'Everything comes 182 ms late: wireless headphones? It was taken off; play over a cable, or set the rig’s delays.' +
        ' Too few strokes for a verdict. Play the phrase round a few more times.',
    );
    expect(english([])).toBe('');
  });

  it('go on without one after the rig', () => {
    const faults = [
      { kind: 'echoes', percent: 4.2 },
      { kind: 'clipping', surfaces: ['snare', 'tom'] },
    ] as const;
    expect(
      english([{ key: 'rig first', args: { faults, then: { key: 'too few strokes', args: {} } } }]),
    ).toBe(
      'See to the rig first: echoes after 4 % of the strokes, accents on "snare" and "tom" reach velocity 127, the most it can report;' +
        ' then too few strokes for a verdict. Play the phrase round a few more times.',
    );
  });

  it('keep the letters of a sticking that begins them, where capitals are accents', () => {
    const facts = {
      value: 0.91,
      handsKnown: true,
      soft: 'tap',
      softest: 'tap',
      variations: 2,
    } as const;
    const out = (variation: string): string =>
      english([{ key: 'weak bar', args: { variation, reason: { measure: 'complete', facts } } }]);
    expect(out('rlrR lrlL')).toMatch(/^rlrR lrlL is the weak bar: 91\.0 % of the strokes are right/);
    expect(out('accent on 2')).toMatch(/^Accent on 2 is/);
  });

  it('say a stretch in bars and beats where it is whole ones, else in partials', () => {
    const began = (slots: number): string =>
      english([{ key: 'early start', args: { length: { slots, perBar: 16, perBeat: 4 } } }]);
    expect(began(32)).toBe('You began two bars early. Count the bar in aloud.');
    expect(began(4)).toBe('You began one beat early. Count the bar in aloud.');
    expect(began(3)).toBe('You began three partials early. Count the bar in aloud.');
    expect(began(37)).toBe('You began about two bars early. Count the bar in aloud.');
  });

  it('are the same from what a report’s file has', () => {
    const saying: readonly Saying[] = [
      { key: 'slipped', args: { lag: -2, bar: 3, beat: 1, partial: 2, more: 1 } },
    ];
    expect(english(JSON.parse(JSON.stringify(saying)) as readonly Saying[])).toBe(
      'The pattern slipped: two partials behind from bar 4, beat 2, partial 3, and one more slip later.',
    );
  });
});
