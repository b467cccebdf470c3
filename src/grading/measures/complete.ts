import type { Settings } from '../../settings';
import type { Scope } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { proportionEstimate } from '../numbers/intervals';
import { oneSided, type Limit } from '../figures/limit';
import { A_STEP_DOWN, CP, TWO_STEPS_DOWN, type RemedyRow } from '../remedy/rules';
import { mostly, type WrongKind } from '../../words/wrong';
import type { Tally } from '../evidence/tally';
import { judgedIfEnough } from '../verdict';
import { onWrongSurface } from '../evidence/wrong-surface';
import type { Badness, JudgedMeasure, StrokeGroup } from './measure';

const limit = (settings: Settings): Limit => oneSided(settings, 'complete');

/**
 * Share of what was due or made that was right: (matched - wrong hand - wrong drum) / (matched + missed + extras + slips +
 * other bars), 0 to 1. Take and variations only. Under 4: too few. Interval: Clopper & Pearson. What mends it goes by what
 * there was most of.
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
  remedyIf: ({ wrong }) => {
    const kind = mostly(wrong);
    return kind === undefined ? undefined : ofKind[kind];
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

/** Those not named here: as the measure's own. */
const ofKind: Partial<Readonly<Record<WrongKind, RemedyRow>>> = {
  missed: {
    rule: 'slower',
    tempoShare: TWO_STEPS_DOWN,
    source: `${CP}: a stroke that is left out has no time yet`,
  },
  extra: {
    rule: 'accenting hand alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: a stroke too many is a hand that doesn't wait for the other`,
  },
  wrongHand: {
    rule: 'accents off',
    tempoShare: TWO_STEPS_DOWN,
    source: `${CP}: the order of hands is learned by itself, without accents`,
  },
  wrongDrum: {
    rule: 'that bar alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: the way between drums is learned beside the bar that needs none`,
  },
};

function shareRight({ right, of, wrong }: Tally, settings: Settings): Figure {
  const figure = judgedIfEnough(
    () => proportionEstimate(right, of),
    [of],
    'few.group',
    () => limit(settings),
    settings,
  );
  return right === of ? figure : { ...figure, wrong };
}

/** Of all that was due what went wrong; what went right needs no list. */
function wentWrong({ graded }: Evidence): readonly StrokeGroup[] {
  const { outcomes } = graded.alignment;
  return [
    { name: 'missed', has: (i) => outcomes[i].status === 'missed' },
    { name: 'slipped', has: (i) => outcomes[i].status === 'slipped' },
    { name: 'other hand', has: (i) => isWrongHand(outcomes[i]) },
    { name: 'other drum', has: (i) => onWrongSurface(graded, i) },
  ];
}

/** Of places at which something was missed or played with the wrong hand or on the wrong drum, how often. */
function shareWrong(evidence: Evidence, _figure: Figure, variation: Scope['variation']): Badness {
  const { grid, alignment } = evidence.graded;
  const isWrong = (i: number): boolean =>
    alignment.outcomes[i].status === 'missed' ||
    isWrongHand(alignment.outcomes[i]) ||
    onWrongSurface(evidence.graded, i);
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
