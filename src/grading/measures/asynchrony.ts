import { meanEstimate } from '../numbers/intervals';
import { allStruck } from '../figures/stroke-groups';
import { plainIfEnough } from '../verdict';
import type { PlainMeasure } from './measure';

/** Mean deviation, ms, the estimated offset in it; negative: early. No verdict. Under 4 strokes: too few. */
export const asynchrony: PlainMeasure<'asynchrony'> = {
  key: 'asynchrony',
  of: 'hands too',
  verdict: 'none',
  figures: [
    {
      part: null,
      unit: 'ms',
      madeOf: 'times',
      estimate: ({ timing, graded: { settings } }, scope) => {
        const all = timing.all(scope);
        return plainIfEnough(() => meanEstimate(all), [all.length], settings['few.group']);
      },
      groups: allStruck,
      mirrored: 'same',
      reversed: 'flips',
    },
  ],
};
