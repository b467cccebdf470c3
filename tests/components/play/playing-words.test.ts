import { expect, it } from 'vitest';
import { clickWords, planWords } from '../../../src/components/play/playing-words';
import { plainClick } from '../../../src/exercises/click-plan';
import { plainPlan } from '../../../src/state/playing-plan';

it('says length, count-in and click in one line', () => {
  expect(planWords(plainPlan, 8)).toBe('8 cycles · count-in · click on every beat');
  expect(
    planWords(
      { ...plainPlan, length: { kind: 'minutes', minutes: 1 }, lead: { countInBars: 2, sayFirst: true } },
      8,
    ),
  ).toBe('1 minute · count-in of 2 bars, then a bar to say it · click on every beat');
});

it('says where it clicks, counted from 1, and which bars are bare', () => {
  expect(clickWords({ ...plainClick, beats: 'backbeats' })).toBe('click on 2 and 4');
  expect(clickWords({ ...plainClick, beats: [0, 2], partials: [1] })).toBe('click on beats 1, 3, partial 2');
  expect(clickWords({ ...plainClick, bare: { kind: 'steady', on: 2, off: 2 } })).toBe(
    'click on every beat, 2 bars with it, 2 bare',
  );
});
