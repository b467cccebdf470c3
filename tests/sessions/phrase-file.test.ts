import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { readPhraseFile, writePhraseFile, type PhraseFile } from '../../src/sessions/phrase-file';

const file: PhraseFile = {
  format: 'evenhand-phrase',
  version: 1,
  name: 'For Tuesday',
  phrase: phraseNamed('Single paradiddle, rotations'),
  bpm: 72,
};

describe('a phrase file', () => {
  it('comes back as it was written, unknown keys included', () => {
    const more = { ...file, colour: 'none', phrase: { ...file.phrase, feel: 'straight' } };
    expect(readPhraseFile(writePhraseFile(more))).toEqual(more);
  });

  it.each([
    [{ format: 'evenhand-take' }, 'format must be "evenhand-phrase", got "evenhand-take"'],
    [{ version: 3 }, 'version must be 1, got 3'],
    [{ name: '' }, 'name must not be empty, got ""'],
    [{ bpm: 0 }, 'bpm must be a tempo from 20 to 400 bpm, got 0'],
    [
      { phrase: { ...file.phrase, bars: [{ variation: 'x', sticking: 'RlrrLrl' }] } },
      'phrase.bars[0].sticking must fill its bar: 7 partials in a bar of 16',
    ],
  ])('%j is refused with its place', (wrong, message) => {
    expect(() => readPhraseFile(JSON.stringify({ ...file, ...wrong }))).toThrow(message);
  });

  it('cut off: says where', () => {
    expect(() => readPhraseFile(writePhraseFile(file).slice(0, 60))).toThrow(
      'must be JSON (the file seems cut off)',
    );
  });
});
