import { expect, it } from 'vitest';
import { isCold, restWords, type PlayedTake } from '../../src/insight/rest';

// Ten minutes: common practice, no source.
const TODAY = '2026-03-02T00:00:00.000Z';
const take = (hour: number, minutes: number, source: PlayedTake['source'] = 'played'): PlayedTake => ({
  recordedAt: `2026-03-02T${String(hour).padStart(2, '0')}:00:00.000Z`,
  minutes,
  source,
});
const yesterday: PlayedTake = { recordedAt: '2026-03-01T20:00:00.000Z', minutes: 30, source: 'played' };

it('nothing is said before ten minutes of play today', () => {
  expect(restWords([yesterday, take(9, 6), take(10, 3.9)], TODAY)).toBe('');
});

it('it is said once as ten minutes are full, and not after the next short take', () => {
  const line = restWords([take(9, 6), take(10, 4.1)], TODAY);
  expect(line).toMatch(/^Ten minutes of play today: .*headphones low\.$/);
  expect(line).not.toContain('\n');
  expect(restWords([take(9, 6), take(10, 4.1), take(11, 2)], TODAY)).toBe('');
});

it('and again at twenty', () => {
  expect(restWords([take(9, 10), take(10, 10)], TODAY)).toMatch(/^20 minutes of play today/);
});

it('a model player tires nobody and warms nobody up', () => {
  expect(restWords([take(9, 30, 'model')], TODAY)).toBe('');
  expect(isCold([yesterday, take(9, 30, 'model')], TODAY)).toBe(true);
  expect(isCold([take(9, 1)], TODAY)).toBe(false);
});
