import type { Scope } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { sampleSd } from '../numbers/statistics';
import { allStruck } from '../figures/stroke-groups';
import { unjudged } from '../verdict';
import type { PlainMeasure } from './measure';
import { mean } from '../../ordered';

/** A habit: standard deviation of the mean deviations of the (variation, place)s, ms. No verdict, no interval. */
export const shape: PlainMeasure<'shape'> = {
  key: 'shape',
  of: 'hands too',
  verdict: 'none',
  figures: [
    {
      part: null,
      unit: 'ms',
      madeOf: 'times',
      estimate,
      groups: allStruck,
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

function estimate(evidence: Evidence, scope: Scope): Figure {
  const places = evidence.timing.places(scope);
  const n = [places.reduce((sum, place) => sum + place.length, 0)];
  const value = sampleSd(places.map((place) => mean(place) ?? 0));
  if (value === undefined || n[0] < evidence.graded.settings['few.spread']) {
    return unjudged('too few strokes', n);
  }
  return { value, interval: null, n };
}
