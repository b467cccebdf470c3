import { describe, expect, it } from 'vitest';
import { buildPhrase } from '../../src/exercises/build-phrase';
import { parseFeet } from '../../src/exercises/feet';
import { phraseFromText } from '../../src/exercises/phrase';
import { parseSticking } from '../../src/exercises/sticking';
import { bundledVoicings, surfaceNotes, surfaceOfNote, voiced } from '../../src/exercises/voicings';

const WALK = buildPhrase({
  pattern: parseSticking('Rlrr Lrll')[0],
  partialsPerBeat: 4,
  beatsPerBar: 4,
  rule: 'accent walk',
  lead: 'right',
  stage: 'walk',
  seed: 1,
  cycles: 8,
});
const typed = (text: string) => phraseFromText(text, { beatsPerBar: 4, partialsPerBeat: 4, cycles: 4 });

describe('voicings', () => {
  it('take the narrower word before the wider', () => {
    const voicing = { R: 'snare', L: 'hi-hat', accents: 'tom', accentsL: 'crash' };
    expect(surfaceOfNote(voicing, { hand: 'R', kind: 'tap' })).toBe('snare');
    expect(surfaceOfNote(voicing, { hand: 'L', kind: 'ghost' })).toBe('hi-hat');
    expect(surfaceOfNote(voicing, { hand: 'R', kind: 'accent' })).toBe('tom');
    expect(surfaceOfNote(voicing, { hand: 'L', kind: 'accent' })).toBe('crash');
  });

  it('leave to the player what they do not say', () => {
    expect(surfaceOfNote({ accents: 'tom' }, { hand: 'R', kind: 'tap' })).toBeUndefined();
    expect(surfaceOfNote({}, { hand: 'L', kind: 'accent' })).toBeUndefined();
  });

  it('are five, of names of their own, on surfaces whose General MIDI notes are known', () => {
    expect(new Set(bundledVoicings.map(({ name }) => name)).size).toBe(5);
    for (const { voicing } of bundledVoicings) {
      for (const surface of Object.values(voicing)) expect(surfaceNotes).toHaveProperty([surface]);
    }
  });

  it('have the notes of the General MIDI percussion map (check-values section 2a)', () => {
    expect(surfaceNotes).toMatchObject({
      'bass drum': 36,
      snare: 38,
      'hi-hat': 42,
      'floor tom': 43,
      'hi-hat foot': 44,
      crash: 49,
      'high tom': 50,
      ride: 51,
    });
    expect(new Set(Object.values(surfaceNotes)).size).toBe(Object.keys(surfaceNotes).length);
  });

  it('put a bass drum under every accent that goes to the crash', () => {
    const kit = voiced(typed('Rlrr Lrll Rlrr Lrll'), 'accents to crash with bass drum');
    expect(kit.feet).toBe('K---');
    expect(kit.voicing).toEqual({ R: 'snare', L: 'snare', accents: 'crash' });
    const walk = voiced(WALK, 'accents to crash with bass drum');
    expect(walk.feet?.startsWith('K--- K--- K--- K--- -K-- -K--')).toBe(true);
    expect(parseFeet(walk.feet!)).toHaveLength(64);
  });

  it('send accents to toms and leave sticking and feet alone', () => {
    const kit = voiced(WALK, 'accents to toms');
    expect(kit.bars).toEqual(WALK.bars);
    expect(kit.feet).toBeUndefined();
  });

  it('make a groove: ghosts of the left taps, backbeat on 2 and 4, bass drum on 1 and 3 (common practice, no source)', () => {
    const kit = voiced(typed('Rlrr Lrll Rlrr Lrll'), 'ghost-note groove with backbeat');
    expect(kit.bars[0].sticking).toBe('R(l)rr Lr(l)(l) R(l)rr Lr(l)(l)');
    expect(kit.feet).toBe('K--- ----');
  });

  it('make the inward paradiddle a groove, the bass drum under its accents (common practice, no source)', () => {
    const kit = voiced(typed('Rllr Lrrl Rllr Lrrl'), 'groove with bass drum under accents');
    expect(kit.bars[0].sticking).toBe('R(l)(l)r Lrr(l) R(l)(l)r Lrr(l)');
    expect(kit.feet).toBe('K---');
  });

  it('take the place of feet there were', () => {
    expect(voiced({ ...WALK, feet: 'H---' }, 'two surfaces')).not.toHaveProperty('feet');
  });

  it('are refused where there is none', () => {
    expect(() => voiced(WALK, 'tambourine')).toThrow(
      'voicing must be one of: accents to toms, accents to crash with bass drum',
    );
  });
});
