import { describe, expect, it } from 'vitest';
import { InputError } from '../src/errors';
import { settingsOf, settingTable } from '../src/settings';
import { levelDb, velocityOfLevel } from '../src/units';

describe('level of a velocity: 40·log10(v/127) (DLS 1, SF2 8.4.1; values: check-values 3a)', () => {
  it.each([
    [1, -84.152],
    [16, -35.987],
    [32, -23.946],
    [48, -16.902],
    [64, -11.905],
    // The list of check values prints -8.028 here; its own SF2 column (80.29 cB) and the formula give -8.0285.
    [80, -8.0285],
    [96, -4.861],
    [112, -2.183],
    [127, 0],
  ])('velocity %d is %d dB', (velocity, level) => {
    expect(levelDb(velocity)).toBeCloseTo(level, 3);
  });

  it('tells a ratio of two apart by 12.041 dB, wherever it is (calc)', () => {
    expect(levelDb(80) - levelDb(40)).toBeCloseTo(12.041, 3);
    expect(levelDb(110) - levelDb(40)).toBeCloseTo(17.573, 3);
  });

  it('comes back', () => {
    for (let velocity = 1; velocity <= 127; velocity += 1) {
      expect(velocityOfLevel(levelDb(velocity))).toBeCloseTo(velocity, 9);
    }
  });
});

describe('errors', () => {
  it('name place, rule and value', () => {
    expect(new InputError('hits[12].velocity', 'must be an integer 1–127', 0).message).toBe(
      'hits[12].velocity must be an integer 1–127, got 0',
    );
  });

  it('are seen from further out', () => {
    expect(new InputError('sticking', 'must be text').within('bars[2]').message).toBe(
      'bars[2].sticking must be text',
    );
    expect(new InputError('line 1, column 4', 'must be R', 'x').within('bars[2].sticking').message).toBe(
      'bars[2].sticking: line 1, column 4 must be R, got "x"',
    );
  });
});

describe('settings', () => {
  it('give each limit its unit and its source', () => {
    for (const [key, setting] of Object.entries(settingTable)) {
      expect(setting.source, key).not.toBe('');
      expect(setting.unit, key).not.toBe('');
    }
  });

  it('are the working limits, or a first year’s, or a recital’s', () => {
    expect(settingsOf('working')['leakBefore.holds']).toBe(2);
    expect(settingsOf('first year')['leakBefore.holds']).toBe(4);
    expect(settingsOf('recital')['leakBefore.holds']).toBe(2);
    expect(settingsOf('recital')['contrast.holds']).toBe(14);
  });

  it('take a teacher’s own figure, and refuse what is none', () => {
    expect(settingsOf('working', { 'contrast.holds': 10 })['contrast.holds']).toBe(10);
    expect(() => settingsOf('working', { 'contrast.hold': 10 })).toThrow(
      'settings.contrast.hold is not a setting',
    );
    expect(() => settingsOf('working', { 'contrast.holds': Number.NaN })).toThrow(
      'must be a finite number, got NaN',
    );
  });
});
