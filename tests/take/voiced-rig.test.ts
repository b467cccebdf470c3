import { describe, expect, it } from 'vitest';
import { gridOf } from '../../src/exercises/grid';
import { phraseFromText } from '../../src/exercises/phrase';
import type { Phrase } from '../../src/exercises/types';
import { bothDueIn } from '../../src/take/both-due';
import { modelRig } from '../../src/model/model-rig';
import { playedBars } from '../../src/take/played-bars';
import { apartOn, missingSurfaces, rigAsVoiced, surfaceNamed } from '../../src/take/voiced-rig';
import type { Rig, Surface } from '../../src/sessions/types';
import { settingsOf } from '../../src/settings';

const settings = settingsOf('working');
const drum = (id: string, note: number, more: Partial<Surface> = {}): Surface => ({
  id,
  name: id,
  port: '*',
  channel: 10,
  notes: [note],
  hand: null,
  trimDb: 0,
  ...more,
});
const kit: Rig = {
  ...modelRig(1),
  surfaces: [
    drum('Snare', 38),
    drum('tom', 48),
    drum('kick', 36, { foot: 'K' }),
    drum('hat foot', 44, { foot: 'H' }),
  ],
};
const phrase = (text: string, more: Partial<Phrase> = {}): Phrase => ({
  ...phraseFromText(text, { beatsPerBar: 1, partialsPerBeat: 4, cycles: 2 }),
  ...more,
});
const handsOn = (of: Phrase): (string | null)[] =>
  rigAsVoiced(kit, of, gridOf(of, { bpm: 60 }, 0)).surfaces.map(({ hand }) => hand);

describe('hands by the voicing', () => {
  it('are known where a surface is one hand’s alone', () => {
    expect(handsOn(phrase('Rlrl', { voicing: { R: 'tom', L: 'snare' } }))).toEqual(['L', 'R', null, null]);
    expect(handsOn(phrase('RlrL', { voicing: { R: 'snare', L: 'snare', accentsR: 'tom' } }))).toEqual([
      null,
      'R',
      null,
      null,
    ]);
  });

  it('are not where a stroke is left to the player, who may play it anywhere', () => {
    expect(handsOn(phrase('Rlrl', { voicing: { R: 'tom' } }))).toEqual([null, null, null, null]);
    expect(handsOn(phrase('Rlrl'))).toEqual([null, null, null, null]);
  });

  it('go by the graces too: a left grace on the snare makes the snare both hands’', () => {
    const voicing = { R: 'snare', L: 'snare', accents: 'tom' };
    expect(handsOn(phrase('{l}Rr{l}Rr', { voicing }))[0]).toBeNull();
  });

  it('find a surface by id or name, capitals or not', () => {
    expect(surfaceNamed(kit, 'SNARE')?.id).toBe('Snare');
    expect(surfaceNamed(kit, 'cymbal')).toBeUndefined();
  });
});

describe('two surfaces at once', () => {
  const feet = phrase('[Rl]lrl', { voicing: { R: 'tom', L: 'snare' }, feet: '[KH]--K' });
  const grid = gridOf(feet, { bpm: 60 }, 0);
  const bothDue = bothDueIn(grid, kit, settings, apartOn(kit));

  it('are due in a unison, under a foot and with both feet, and nowhere else', () => {
    const at = (ms: number, one: string, other: string): boolean | undefined => bothDue?.(ms, one, other);
    expect([at(3, 'Snare', 'tom'), at(253, 'Snare', 'tom')]).toEqual([true, false]);
    expect([at(3, 'kick', 'Snare'), at(253, 'kick', 'Snare'), at(748, 'Snare', 'kick')]).toEqual([
      true,
      false,
      true,
    ]);
    expect([at(3, 'kick', 'hat foot'), at(752, 'kick', 'hat foot')]).toEqual([true, false]);
  });

  it('are nowhere due in a plain phrase', () => {
    expect(bothDueIn(gridOf(phrase('Rlrl'), { bpm: 60 }, 0), kit, settings, apartOn(kit))).toBeUndefined();
  });
});

describe('bars that are not played', () => {
  it('keep their strokes, save the graces of the first stroke after them and what comes half a gap early', () => {
    const [bar] = phrase('{l}Rlrl').bars;
    const call = phrase('{l}Rlrl', { bars: [{ ...bar, role: 'listen' }, bar] });
    const isPlayed = playedBars(gridOf(call, { bpm: 60 }, 0), settings);
    expect([0, 500, 870, 880, 1000, 1990].map(isPlayed)).toEqual([false, false, false, true, true, false]);
    const drag = phrase('Rlrl', {
      bars: [
        { ...bar, role: 'say' },
        { ...bar, sticking: '{ll}Rlrl' },
      ],
    });
    expect([775, 785].map(playedBars(gridOf(drag, { bpm: 60 }, 0), settings))).toEqual([false, true]);
  });
});

describe('what a phrase asks for and the rig lacks', () => {
  const phrase: Phrase = {
    ...phraseFromText('Rlrr', { beatsPerBar: 1, partialsPerBeat: 4, cycles: 1 }),
    voicing: { R: 'snare', L: 'snare', accentsR: 'floor tom', accentsL: 'tom' },
    feet: 'K-h-',
  };

  it('is named: surfaces of the voicing whatever their capitals, and feet', () => {
    expect(missingSurfaces(kit, phrase)).toEqual(['floor tom']);
    expect(missingSurfaces(modelRig(1), phrase)).toEqual([
      'snare',
      'floor tom',
      'tom',
      'bass drum foot',
      'hi-hat foot',
    ]);
    expect(missingSurfaces(modelRig(1), { ...phrase, voicing: {}, feet: '-' })).toEqual([]);
  });
});
