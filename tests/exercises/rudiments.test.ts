import { describe, expect, it } from 'vitest';
import { partialsOfBeats, barSticking } from '../../src/exercises/phrase';
import { rudiment, rudimentPhrase } from '../../src/exercises/rudiment-phrase';
import { rudiments, type MeasuredRudiment } from '../../src/exercises/rudiments';
import { handsText, parseSticking, stickingText } from '../../src/exercises/sticking';
import { mirror } from '../../src/exercises/variations';

const measured = rudiments.filter((row): row is MeasuredRudiment => row.kind === 'measured');
const partials = ({ sticking }: MeasuredRudiment) => parseSticking(sticking).flat();
const strokes = (row: MeasuredRudiment) => partials(row).filter(({ notes }) => notes.length > 0);
const letters = (row: MeasuredRudiment): string =>
  strokes(row)
    .map(({ notes }) => notes[0].hand)
    .join('');
const named = (name: string): MeasuredRudiment => measured.find((row) => row.name === name)!;

describe('the table of rudiments', () => {
  it('has forty, numbered as published, none twice', () => {
    expect(rudiments.map(({ number }) => number)).toEqual(
      Array.from({ length: 40 }, (_, index) => index + 1),
    );
    expect(new Set(rudiments.map(({ name }) => name.toLowerCase())).size).toBe(40);
    expect(new Set(measured.map(({ sticking }) => sticking)).size).toBe(39);
  });

  it.each(measured)('$name parses, prints back and fills its bar a whole number of times', (row) => {
    const bars = parseSticking(row.sticking);
    expect(bars.map((bar) => stickingText(bar, [row.partialsPerBeat])).join(' | ')).toBe(row.sticking);
    for (const bar of bars) expect((row.partialsPerBeat * row.beatsPerBar) % bar.length).toBe(0);
  });

  it.each(measured.filter(({ lead }) => lead === 'alternates'))(
    '$name alternates: its second half is the first with the hands changed',
    (row) => {
      const all = partials(row);
      const half = all.length / 2;
      const first =
        row.number === 1 || row.number === 6 ? all.slice(0, row.number === 1 ? 1 : 2) : all.slice(0, half);
      expect(all.slice(first.length, 2 * first.length)).toEqual(mirror(first));
    },
  );

  it.each(measured.filter(({ lead }) => lead === 'stays'))(
    '$name starts again with the hand it began with',
    (row) => {
      const all = strokes(row);
      expect(all[0].notes[0].hand).toBe('R');
      // Not the mirror of itself half way: nothing changes the lead.
      const whole = partials(row);
      expect(whole.slice(whole.length / 2)).not.toEqual(mirror(whole.slice(0, whole.length / 2)));
    },
  );

  it.each(measured.filter(({ number }) => number !== 5))(
    '$name never has three strokes of a hand in a row without a grace note between (common practice, no source)',
    (row) => {
      const runs = strokes(row)
        .map(({ notes, graces }) => `${graces.length > 0 ? '.' : ''}${notes[0].hand}`)
        .join('');
      expect(runs.repeat(3)).not.toMatch(/RRR|LLL/);
    },
  );

  it('says why the multiple bounce roll has no sticking', () => {
    expect(rudiments.filter(({ kind }) => kind === 'unmeasured')).toEqual([
      expect.objectContaining({
        number: 4,
        name: 'Multiple bounce roll',
        reason: expect.stringContaining('MIDI'),
      }),
    ]);
  });

  it('has a source in every row', () => {
    for (const { source } of rudiments) {
      expect(source).toMatch(
        /from memory|encyclopaedia|second-hand|a page on drumming history|teacher’s page/,
      );
    }
  });

  it('marks what is played weekly (common practice, no source)', () => {
    expect(rudiments.filter(({ weekly }) => weekly).map(({ name }) => name)).toEqual([
      'Single stroke roll',
      'Double stroke open roll',
      'Five stroke roll',
      'Six stroke roll',
      'Seven stroke roll',
      'Nine stroke roll',
      'Single paradiddle',
      'Double paradiddle',
      'Triple paradiddle',
      'Single paradiddle-diddle',
      'Flam',
      'Flam accent',
      'Flam tap',
      'Swiss army triplet',
      'Drag',
    ]);
  });
});

describe('rolls (rule: an odd roll is doubles and one single, calc, check-values section 4)', () => {
  const rolls: readonly (readonly [string, number, 'R' | 'L'])[] = [
    ['Five stroke roll', 5, 'R'],
    ['Seven stroke roll', 7, 'L'],
    ['Nine stroke roll', 9, 'R'],
    ['Eleven stroke roll', 11, 'L'],
    ['Thirteen stroke roll', 13, 'R'],
    ['Fifteen stroke roll', 15, 'L'],
    ['Seventeen stroke roll', 17, 'R'],
  ];

  it.each(rolls)(
    '%s has %i strokes, doubles first, the accented single in the %s hand',
    (name, count, last) => {
      const figure = strokes(named(name)).slice(0, count);
      const hands = figure.map(({ notes }) => notes[0].hand).join('');
      expect(hands).toMatch(new RegExp(`^(RRLL)*(RR)?${last}$`));
      expect(hands).toHaveLength(count);
      expect(figure.map(({ notes }) => notes[0].kind)).toEqual([
        ...Array.from({ length: count - 1 }, () => 'tap'),
        'accent',
      ]);
    },
  );

  it.each(rolls)(
    '%s alternates only where its %i strokes end on the hand they began with',
    (name, _count, last) => {
      expect(named(name).lead).toBe(last === 'R' ? 'alternates' : 'stays');
    },
  );

  it('of six strokes are accented first and last, of ten on the last two (common practice, from memory)', () => {
    const figure = (name: string) => stickingText(strokes(named(name)), [16]);
    expect(figure('Six stroke roll')).toBe('RllrrL');
    expect(figure('Ten stroke roll')).toBe('rrllrrllRL');
  });
});

describe('paradiddles', () => {
  it('are RLRR LRLL, RLRLRR LRLRLL, RLRLRLRR LRLRLRLL and RLRRLL (16: encyclopaedia; others common practice, from memory)', () => {
    expect([16, 17, 18, 19].map((number) => letters(measured.find((row) => row.number === number)!))).toEqual(
      ['RLRRLRLL', 'RLRLRRLRLRLL', 'RLRLRLRRLRLRLRLL', 'RLRRLL'],
    );
  });

  it('with a diddle more keep their lead without a flam and alternate with one (a percussion teacher’s page)', () => {
    expect(named('Single paradiddle-diddle').lead).toBe('stays');
    expect(named('Flam paradiddle-diddle').lead).toBe('alternates');
  });
});

describe('flams and drags', () => {
  it('have one grace note in a flam and two in a drag (general practice)', () => {
    const graces = (row: MeasuredRudiment): number[] => [
      ...new Set(partials(row).flatMap((one) => (one.graces.length > 0 ? [one.graces.length] : []))),
    ];
    for (const row of measured) {
      const wanted = row.family === 'flam' ? [1] : row.family === 'drag' && row.number !== 35 ? [2] : [];
      expect(graces(row), row.name).toEqual(wanted);
    }
  });

  it('play the single flammed mill RRLR LLRL (a page on drumming history)', () => {
    expect(handsText(partials(named('Single flammed mill')), [4])).toBe('RRLR LLRL');
  });

  it('flam the first and fourth note of the pataflafla (a page on drumming history)', () => {
    expect(partials(named('Pataflafla')).map(({ graces }) => graces.length)).toEqual([1, 0, 0, 1]);
  });

  it('flam the second stroke of each double in the inverted flam tap (common practice, from memory)', () => {
    const round = partials(named('Inverted flam tap'));
    round.forEach(({ notes, graces }, index) => {
      const before = round[(index + 3) % 4].notes[0].hand;
      expect(graces.length).toBe(before === notes[0].hand ? 1 : 0);
    });
  });

  it('accent the tap of the single drag tap, not the drag (a teacher’s page, second-hand)', () => {
    for (const { notes, graces } of partials(named('Single drag tap'))) {
      expect(notes[0].kind).toBe(graces.length > 0 ? 'tap' : 'accent');
    }
  });

  it('play three notes of the ratamacue in the time of an eighth (second-hand)', () => {
    expect(named('Single ratamacue').sticking).toBe('{ll}rlrL-- {rr}lrlR--');
  });
});

describe('a rudiment as a phrase', () => {
  it.each(measured)('$name is bars that are full', ({ number, partialsPerBeat, beatsPerBar }) => {
    const phrase = rudimentPhrase(number);
    phrase.bars.forEach((bar, index) => {
      expect(barSticking(phrase, index)).toHaveLength(partialsPerBeat * beatsPerBar);
      expect(partialsOfBeats(phrase, bar)).toHaveLength(beatsPerBar);
    });
  });

  it('is named by its sticking, and filled', () => {
    expect(rudimentPhrase('FLAM accent')).toEqual({
      title: 'Flam accent',
      beatsPerBar: 4,
      partialsPerBeat: 3,
      cycles: 8,
      bars: [{ variation: '{l}Rlr {r}Lrl', sticking: '{l}Rlr {r}Lrl {l}Rlr {r}Lrl' }],
    });
  });

  it('has two bars where a bar can’t hold both halves', () => {
    expect(rudimentPhrase(15).bars.map((bar) => bar.variation)).toEqual([
      'rrllrrll rrllrrll R-------',
      'llrrllrr llrrllrr L-------',
    ]);
  });

  it('goes with the left lead too', () => {
    const left = rudimentPhrase('Swiss army triplet', 'left');
    expect(left.title).toBe('Swiss army triplet, left lead');
    expect(left.bars[0].sticking).toBe('{r}Llr {r}Llr {r}Llr {r}Llr');
  });

  it('is refused where there is none', () => {
    expect(rudiment(41)).toBeUndefined();
    expect(() => rudimentPhrase('flim')).toThrow(
      'rudiment must be a number from 1 to 40 or a name, got "flim"',
    );
    expect(() => rudimentPhrase(4)).toThrow('rudiment must be one that MIDI can show: a pad sends one note');
  });
});
