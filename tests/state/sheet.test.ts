import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import type { Action } from '../../src/state/actions';
import { firstState } from '../../src/state/state';
import { reduce } from '../../src/state/reducer';
import { measureTarget, newTarget } from '../../src/sessions/week/new-target';
import { readWeekSheet, writeWeekSheet, type WeekSheet } from '../../src/sessions/week-sheet';

// Limits of the measures: settings.ts ("working", common practice); nothing else here has an outside source.

const sheet: WeekSheet = {
  format: 'evenhand-week',
  version: 1,
  id: 'w1',
  student: '7',
  phrase: phraseNamed('Single paradiddle, accent walk'),
  bpm: 84,
  limits: 'working',
  targets: [{ kind: 'holds', variation: 'accent on 4' }],
  words: '',
  due: null,
  changedAt: '2026-03-02T18:00:00.000Z',
};

const open = reduce(firstState, { kind: 'edit sheet', sheet, playerId: 'ab' });
const after = (...actions: readonly Action[]): WeekSheet | null => actions.reduce(reduce, open).library.draft;

describe('a week sheet that is written', () => {
  it('takes words, tempo and day as they are said', () => {
    expect(after({ kind: 'change sheet', change: { bpm: 92, words: 'Low.', due: '2026-03-09' } })).toEqual({
      ...sheet,
      bpm: 92,
      words: 'Low.',
      due: '2026-03-09',
    });
  });

  it('with another phrase, a target of a variation that isn’t in it is one of the whole phrase', () => {
    const phrase = phraseNamed('Single paradiddle, rotations');
    const changed = after({ kind: 'sheet phrase', phrase });
    expect(changed?.targets).toEqual([{ kind: 'holds' }]);
    // What no reader would take can’t be written.
    expect(readWeekSheet(writeWeekSheet(changed ?? sheet)).phrase.title).toBe(phrase.title);
  });

  it('targets are added, changed and taken off', () => {
    const changed = after(
      { kind: 'add target', target: 'minutes' },
      { kind: 'change target', index: 1, target: { kind: 'minutes', minutes: 45 } },
      { kind: 'remove target', index: 0 },
    );
    expect(changed?.targets).toEqual([{ kind: 'minutes', minutes: 45 }]);
  });

  it('is none before one is opened, and after it is closed', () => {
    expect(reduce(firstState, { kind: 'add target', target: 'tempo' }).library.draft).toBeNull();
    expect(after({ kind: 'close sheet' })).toBeNull();
  });

  it('stands on the Library screen, until the player goes elsewhere', () => {
    expect(open.screen).toBe('library');
    expect(open.library.draft).toBe(sheet);
    expect(reduce(open, { kind: 'go', screen: 'play' }).library.draft).toBeNull();
  });

  it('is new for the chosen phrase, with its tempo as the target, and due in a week', () => {
    const dateMs = new Date(2026, 2, 2, 18).getTime();
    const fresh = reduce(firstState, { kind: 'new sheet', id: 'w2', dateMs }).library.draft;
    expect(fresh).toMatchObject({ id: 'w2', bpm: 84, due: '2026-03-09', targets: [{ kind: 'tempo' }] });
    expect(fresh?.phrase).toBe(firstState.phrase);
  });
});

describe('a week sheet that is played to', () => {
  it('puts its phrase, tempo and limits in Play', () => {
    const playing = reduce(firstState, {
      kind: 'play sheet',
      sheet: { ...sheet, bpm: 92, limits: 'recital' },
    });
    expect([playing.screen, playing.bpm, playing.limits]).toEqual(['play', 92, 'recital']);
    expect(playing.library.sheetId).toBe('w1');
  });
});

describe('a new target', () => {
  it('of contrast is at least 12 dB, of a leak at most 2 dB, of scatter at most 14.3 ms at 84 bpm', () => {
    expect(newTarget('measure', sheet)).toEqual({ kind: 'measure', measure: 'contrast', atLeast: 12 });
    expect(measureTarget('leakBefore', sheet, 'accent on 4')).toEqual({
      kind: 'measure',
      measure: 'leakBefore',
      variation: 'accent on 4',
      atMost: 2,
    });
    // 8 % of a sixteenth's 178.6 ms.
    expect(measureTarget('scatter', sheet)).toEqual({ kind: 'measure', measure: 'scatter', atMost: 14.29 });
  });
});
