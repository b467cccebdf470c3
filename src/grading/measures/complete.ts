import type { Settings } from '../../settings';
import type { Scope } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { proportionEstimate } from '../numbers/intervals';
import { oneSided, type Limit } from '../figures/limit';
import { CP, TWO_STEPS_DOWN } from '../remedy/rules';
import type { Tally } from '../evidence/tally';
import { judgedIfEnough } from '../verdict';
import type { Badness, JudgedMeasure, StrokeGroup } from './measure';

const limit = (settings: Settings): Limit => oneSided(settings, 'complete');

/**
 * Share of what was due or made that was right: (matched - wrong hand) / (matched + missed + extras + slips), 0 to 1.
 * Take and variations only. Under 4: too few. Interval: Clopper & Pearson.
 * @example 253 matched, 3 missed, 1 extra: 253/257 = 0.984, close (0.99 holds)
 * Source: common practice.
 */
export const complete: JudgedMeasure<'complete', null> = {
  key: 'complete',
  of: 'take and variations',
  verdict: 'names',
  about: 'take',
  remedy: {
    rule: 'slower',
    tempoShare: TWO_STEPS_DOWN,
    source: `${CP}: what isn't all there yet is learned slower`,
  },
  live: 'contrast',
  figures: [
    {
      part: null,
      unit: '%',
      madeOf: 'strokes',
      limit,
      estimate: ({ tallies, graded: { settings } }, { variation }) =>
        shareRight(variation === undefined ? tallies.take : tallies.variations[variation], settings),
      groups: wentWrong,
      badness: shareWrong,
      picture: null,
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

function shareRight({ right, of }: Tally, settings: Settings): Figure {
  return judgedIfEnough(
    () => proportionEstimate(right, of),
    [of],
    'few.group',
    () => limit(settings),
    settings,
  );
}

/** Of all that was due what went wrong; what went right needs no list. */
function wentWrong({ graded: { alignment } }: Evidence): readonly StrokeGroup[] {
  const { outcomes } = alignment;
  return [
    { name: 'missed', has: (i) => outcomes[i].status === 'missed' },
    { name: 'slipped', has: (i) => outcomes[i].status === 'slipped' },
    { name: 'other hand', has: (i) => isWrongHand(outcomes[i]) },
  ];
}

/** Of places at which something was missed or played with the wrong hand, how often. */
function shareWrong(evidence: Evidence, _figure: Figure, variation: Scope['variation']): Badness {
  const { grid, alignment } = evidence.graded;
  const isWrong = (i: number): boolean =>
    alignment.outcomes[i].status === 'missed' || isWrongHand(alignment.outcomes[i]);
  const places = new Set<number>();
  for (const { index, place } of grid.slots) {
    if (evidence.variation[index] === variation && isWrong(index)) places.add(place);
  }
  return (i) => {
    const { status } = alignment.outcomes[i];
    const isDue = status === 'matched' || status === 'missed';
    return isDue && places.has(grid.slots[i].place) ? Number(isWrong(i)) : undefined;
  };
}

const isWrongHand = (outcome: Evidence['graded']['alignment']['outcomes'][number]): boolean =>
  outcome.status === 'matched' && outcome.wrongHand;
