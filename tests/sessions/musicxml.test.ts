import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { MusicXML } from '@stringsync/musicxml';
import fc from 'fast-check';
import {
  XmlBufferInputProvider,
  XmlDocument,
  XmlElement,
  xmlRegisterInputProvider,
  XsdValidator,
  type XmlNode,
} from 'libxml2-wasm';
import { describe, expect, it } from 'vitest';
import { bundledPhrases, phraseNamed } from '../../src/exercises/phrase';
import { rudimentPhrase } from '../../src/exercises/rudiment-phrase';
import { rudiments } from '../../src/exercises/rudiments';
import type { Phrase, PhraseBar } from '../../src/exercises/types';
import { bundledVoicings, voiced } from '../../src/exercises/voicings';
import { musicXmlOf } from '../../src/sessions/musicxml';

// The schema is the W3C's, of MusicXML 3.1 (tests/reference/musicxml/README.md says why it serves for 4.0); the reader is
// libxml2, which has no code in common with ours.
const FOLDER = join(import.meta.dirname, '../reference/musicxml');
const schema = (name: string): Uint8Array => readFileSync(join(FOLDER, name));
xmlRegisterInputProvider(
  new XmlBufferInputProvider({
    'http://www.musicxml.org/xsd/xml.xsd': schema('xml.xsd'),
    'http://www.musicxml.org/xsd/xlink.xsd': schema('xlink.xsd'),
  }),
);
const validator = XsdValidator.fromDoc(XmlDocument.fromBuffer(schema('musicxml.xsd')));

/** A document that the schema has nothing against; else its objections are thrown. */
function valid(xml: string): XmlDocument {
  const document = XmlDocument.fromString(xml);
  validator.validate(document);
  return document;
}

/**
 * Throws where a document does not conform to 4.0. The library's elements are generated from the schema of 4.0; what does
 * not conform to it is left out or replaced when it reads, so that nothing may differ between what it read and what it
 * writes.
 */
function conformsTo4(xml: string): void {
  expect(outline(XmlDocument.fromString(MusicXML.parse(xml).serialize()).root)).toBe(
    outline(XmlDocument.fromString(xml).root),
  );
}

/** A document that neither schema has anything against. */
function validInBoth(xml: string): XmlDocument {
  conformsTo4(xml);
  return valid(xml);
}

/** Elements, attributes and texts in their order; attributes by name, since XML gives them none. */
function outline(node: XmlNode, depth = ''): string {
  if (!(node instanceof XmlElement)) return `${depth}"${node.content.trim()}"\n`;
  const attributes = node.attrs.map(({ name, value }) => `${name}=${value}`).sort();
  const inner: string[] = [];
  for (let child = node.firstChild; child !== null; child = child.next) {
    if (child instanceof XmlElement || child.content.trim() !== '') inner.push(outline(child, `${depth} `));
  }
  return `${depth}${[node.name, ...attributes].join(' ')}\n${inner.join('')}`;
}

/** Texts of what an XPath finds. */
const texts = (document: XmlDocument, path: string): string[] =>
  document.find(path).map((node) => node.content);
const numbers = (document: XmlDocument, path: string): number[] => texts(document, path).map(Number);
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

const bar = (sticking: string, more: Partial<PhraseBar> = {}): PhraseBar => ({
  variation: 'the bar',
  sticking,
  ...more,
});
const phraseOf = (bars: readonly PhraseBar[], more: Partial<Phrase> = {}): Phrase => ({
  title: 'A phrase',
  beatsPerBar: 1,
  partialsPerBeat: 4,
  cycles: 1,
  bars,
  ...more,
});

describe('MusicXML of what the app brings along is valid against the schemas of 3.1 and 4.0', () => {
  it.each(bundledPhrases.map(({ name, phrase }) => [name, phrase] as const))('%s', (_, phrase) => {
    const document = validInBoth(musicXmlOf(phrase, 84));
    expect(texts(document, '//work-title')).toEqual([phrase.title]);
  });

  it('so are all rudiments with a left lead: 39, and the one that MIDI cannot show', () => {
    const measured = rudiments.filter(({ kind }) => kind === 'measured');
    expect(measured).toHaveLength(39);
    for (const { number } of measured) validInBoth(musicXmlOf(rudimentPhrase(number, 'left')));
  });

  it.each(bundledVoicings.map(({ name }) => [name]))('taken to the kit: %s', (name) => {
    validInBoth(musicXmlOf(voiced(phraseNamed('Single paradiddle, accent walk'), name), 96));
  });

  it('what breaks the schema is found: a note without a duration, a head before its stem, a made-up clef', () => {
    const xml = musicXmlOf(phraseOf([bar('Rl(r)r')]));
    const without = xml.replace(/<duration>1<\/duration>/, '');
    expect(() => valid(without)).toThrow(/unpitched|duration|type|instrument|voice/);
    const turned = xml.replace(/(<stem>.*?<\/stem>)(\s*)(<notehead.*?<\/notehead>)/, '$3$2$1');
    const clef = xml.replace('<sign>percussion</sign>', '<sign>drums</sign>');
    for (const broken of [without, turned, clef]) {
      expect(broken).not.toBe(xml);
      expect(() => conformsTo4(broken)).toThrow();
    }
  });
});

describe('MusicXML of a bar (positions of drum-set notation: common practice, from memory)', () => {
  it('a paradiddle: snare on the third space, accent over the first, sticking under all, one beam group', () => {
    const document = valid(musicXmlOf(phraseOf([bar('Rlrr')]), 84));
    expect(texts(document, '//clef/sign')).toEqual(['percussion']);
    expect(texts(document, '//display-step')).toEqual(['C', 'C', 'C', 'C']);
    expect(texts(document, '//display-octave')).toEqual(['5', '5', '5', '5']);
    expect(document.find('//note[1]//accent')).toHaveLength(1);
    expect(document.find('//note[position()>1]//accent')).toHaveLength(0);
    expect(texts(document, '//lyric/text')).toEqual(['R', 'L', 'R', 'R']);
    expect(texts(document, '//beam[@number="1"]')).toEqual(['begin', 'continue', 'continue', 'end']);
    expect(texts(document, '//per-minute')).toEqual(['84']);
    // General MIDI 38 is the acoustic snare; midi-unpitched counts from 1.
    expect(texts(document, '//midi-unpitched')).toEqual(['39']);
    expect(texts(document, '//midi-channel')).toEqual(['10']);
  });

  it('ghosts have their heads in brackets, flams one slashed grace, drags two', () => {
    const document = valid(musicXmlOf(phraseOf([bar('(r) {l}R {rr}L -', { partialsPerBeat: 4 })])));
    expect(document.find('//note[notehead/@parentheses="yes"]')).toHaveLength(1);
    expect(document.find('//note[grace/@slash="yes"]')).toHaveLength(3);
    expect(texts(document, '//note[grace]/lyric/text')).toEqual(['l', 'r', 'r']);
    expect(document.find('//note[grace]/duration')).toHaveLength(0);
  });

  it('five in a beat stand under a bracket, 5 in the time of 4', () => {
    const document = valid(musicXmlOf(phraseOf([bar('Rlrlr', { partialsPerBeat: 5 })])));
    expect(new Set(texts(document, '//actual-notes'))).toEqual(new Set(['5']));
    expect(new Set(texts(document, '//normal-notes'))).toEqual(new Set(['4']));
    expect(document.find('//tuplet[@type="start"]')).toHaveLength(1);
    expect(document.find('//tuplet[@type="stop"]')).toHaveLength(1);
  });

  it('is written as a drummer reads it: no rest within a triplet, a dot for three of four (common practice)', () => {
    // Of six partials the first, third and fifth struck: three eighths in the time of two.
    const triplet = valid(musicXmlOf(phraseOf([bar('R-l-r-', { partialsPerBeat: 6 })])));
    expect(texts(triplet, '//type')).toEqual(['eighth', 'eighth', 'eighth']);
    expect(texts(triplet, '//actual-notes')).toEqual(['3', '3', '3']);
    expect(triplet.find('//rest')).toHaveLength(0);
    const dotted = valid(musicXmlOf(phraseOf([bar('R--l')])));
    expect(texts(dotted, '//type')).toEqual(['eighth', '16th']);
    expect(dotted.find('//note[1]/dot')).toHaveLength(1);
  });

  it('both hands on one pad are one head, on two surfaces a chord', () => {
    const one = valid(musicXmlOf(phraseOf([bar('[RL]---')])));
    expect(texts(one, '//note[unpitched]/lyric/text')).toEqual(['RL']);
    expect(one.find('//chord')).toHaveLength(0);
    const two = valid(musicXmlOf(phraseOf([bar('[RL]---')], { voicing: { R: 'ride', L: 'snare' } })));
    expect(two.find('//chord')).toHaveLength(1);
    expect(texts(two, '//notehead')).toEqual(['x']);
  });

  it('feet are a second voice with stems down: bass drum in the first space, hi-hat foot below the staff', () => {
    const document = valid(musicXmlOf(phraseOf([bar('Rlrr')], { feet: 'K-H-' })));
    expect(texts(document, '//note[voice="2"]//display-step')).toEqual(['F', 'D']);
    expect(texts(document, '//note[voice="2" and unpitched]/stem')).toEqual(['down', 'down']);
    expect(sum(numbers(document, '//backup/duration'))).toBe(
      sum(numbers(document, '//note[voice="1"]/duration')),
    );
  });

  it('a repeat says how often, a bar to say is empty, swing is written out', () => {
    const document = valid(
      musicXmlOf(phraseOf([bar('Rlrr', { role: 'say' }), bar('Rlrr')], { cycles: 8, swing: 0.6 })),
    );
    expect(texts(document, '//repeat/@times')).toEqual(['8']);
    expect(texts(document, '//words')).toEqual(['swing 0.6', 'say: the bar', 'the bar']);
    expect(document.find('//measure[1]/note/rest')).toHaveLength(1);
  });

  it('says where a bar or a feet line is wrong', () => {
    expect(() => musicXmlOf(phraseOf([bar('Rlr')]))).toThrow('bars[0].sticking');
    expect(() => musicXmlOf(phraseOf([bar('Rlrr')], { feet: 'KX' }))).toThrow('phrase.feet');
  });
});

/** Sticking of one beat, in tokens. */
const token = fc.constantFrom('R', 'L', 'r', 'l', '(r)', '(l)', '-', '{l}R', '{rr}L', '[RL]', '[rL]');
const anyPhrase = fc
  .array(fc.integer({ min: 1, max: 16 }), { minLength: 1, maxLength: 6 })
  .chain((partialsPerBeat) =>
    fc
      .record({
        bars: fc.array(
          fc
            .array(token, { minLength: sum(partialsPerBeat), maxLength: sum(partialsPerBeat) })
            .map((tokens) => bar(tokens.join(' '))),
          { minLength: 1, maxLength: 3 },
        ),
        feet: fc.option(
          fc
            .array(fc.constantFrom('K', 'H', 'k', '[KH]', '-'), { minLength: 1, maxLength: 8 })
            .map((line) => line.join('')),
          { nil: undefined },
        ),
      })
      .map(({ bars, feet }) =>
        phraseOf(bars, {
          beatsPerBar: partialsPerBeat.length,
          partialsPerBeat,
          cycles: 4,
          ...(feet === undefined ? {} : { feet }),
        }),
      ),
  );

describe('laws of MusicXML', () => {
  it('whatever the bars: valid, each voice fills each measure, every stroke has its note', () => {
    fc.assert(
      fc.property(anyPhrase, (phrase) => {
        const document = validInBoth(musicXmlOf(phrase, 100));
        const divisions = numbers(document, '//divisions')[0];
        const measures = document.find('//measure').length;
        const filled = (voice: 1 | 2): number =>
          sum(numbers(document, `//note[voice="${voice}" and not(chord)]/duration`));
        expect(filled(1)).toBe(divisions * phrase.beatsPerBar * measures);
        if (phrase.feet !== undefined) expect(filled(2)).toBe(filled(1));
        const due = phrase.bars
          .map(({ sticking }) => sticking.split(' ').filter((one) => one !== '-').length)
          .reduce((total, count) => total + count, 0);
        const heads = document.find('//note[voice="1" and unpitched and not(grace)]').length;
        expect(heads).toBe((due * measures) / phrase.bars.length);
      }),
      { numRuns: 25, seed: 4 },
    );
  });

  it('names with markup, control characters and half characters stay text', () => {
    const nasty = fc.oneof(
      fc.constantFrom(
        '<b>"loud" & \'proud\'</b>',
        ']]>',
        '<!-- x -->',
        '&amp;',
        '\u0000\u0008x',
        '\ud800',
        '</words>',
      ),
      fc.string({ unit: 'binary', maxLength: 20 }),
    );
    fc.assert(
      fc.property(nasty, nasty, (title, variation) => {
        const document = valid(musicXmlOf(phraseOf([bar('Rlrr', { variation })], { title })));
        // XML has no place for control characters.
        const kept = (text: string): string =>
          text.replaceAll(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '\uFFFD');
        expect(texts(document, '//work-title').join('')).toBe(kept(title));
        expect(texts(document, '//words').join('')).toBe(kept(variation));
      }),
      { numRuns: 100, seed: 5 },
    );
  });
});
