import { seeded } from '../../exercises/seeded';
import type { Phrase, Tempo } from '../../exercises/types';
import { alikeBars, type AlikeBars } from './alike';
import { apartnessOf, type NotTold } from './apartness';
import { membersOf, relabelled, shuffledP } from '../numbers/relabel';
import { leaveOneOut } from '../numbers/shrunk-discriminant';
import type { Report } from '../types';

/** How often a bar's variation can be told from its levels and times. */
export interface Identification {
  readonly kind: 'told';
  /** By name: the variations that are meant to sound alike. */
  readonly variations: readonly string[];
  /** Mean over the variations of the share of their bars put right, 0 to 1. */
  readonly rate: number;
  /** What guessing makes: 1/k. */
  readonly chance: number;
  readonly p: number;
  /** By variation played, by variation guessed: bars. */
  readonly guesses: readonly (readonly number[])[];
  readonly bars: number;
  readonly cycles: number;
  /** True under 8 cycles: it could miss what is there. */
  readonly couldMiss: boolean;
}

const SHUFFLES = 500;
const SEED = 66;

/**
 * Identification rate: a linear discriminant with shrunk covariance (Ledoit & Wolf 2004) learns all cycles but one and
 * names the bars of that one, each in turn; with its p over labels shuffled within cycles. Of several groups of
 * variations that are meant to sound alike, the largest. A place without a stroke takes the mean of all bars there,
 * which says nothing of the variation.
 */
export function identificationOf(
  report: Report,
  phrase: Phrase,
  tempo: Tempo,
  shuffles = SHUFFLES,
  seed = SEED,
): Identification | NotTold {
  const apartness = apartnessOf(report, alikeBars(report, phrase, tempo));
  if (apartness.kind === 'not told') return apartness;
  const { groups, cycles, couldMiss } = apartness;
  const group = groups.reduce((most, next) =>
    next.variations.length > most.variations.length ? next : most,
  );
  const { variations, labels } = group;
  const classes = variations.length;
  const blocks = membersOf(group.cycles);
  const values = filledIn(group);
  const guessed = leaveOneOut({ classes, dimensions: group.dimensions, values, blocks });
  const guesses = guessed(labels);
  const rate = balanced(guesses, labels, classes);
  const random = seeded(seed);
  const chance = Array.from({ length: shuffles }, () => {
    const drawn = relabelled(labels, group.cycles, random);
    return balanced(guessed(drawn), drawn, classes);
  });
  return {
    kind: 'told',
    variations,
    rate,
    chance: 1 / classes,
    p: shuffledP(rate, chance),
    guesses: variations.map((_, played) =>
      variations.map((__, guess) =>
        labels.reduce((sum, label, bar) => sum + Number(label === played && guesses[bar] === guess), 0),
      ),
    ),
    bars: labels.length,
    cycles,
    couldMiss,
  };
}

/** Mean over the classes of the share put right. */
function balanced(guesses: Uint16Array, labels: Uint16Array, classes: number): number {
  const right = new Float64Array(classes);
  const of = new Float64Array(classes);
  labels.forEach((label, row) => {
    of[label]++;
    if (guesses[row] === label) right[label]++;
  });
  return right.reduce((sum, count, c) => sum + count / of[c], 0) / classes;
}

function filledIn({ values, dimensions }: AlikeBars): Float64Array {
  const filled = values.slice();
  for (let d = 0; d < dimensions; d++) {
    let [sum, n] = [0, 0];
    for (let at = d; at < values.length; at += dimensions) {
      if (Number.isNaN(values[at])) continue;
      sum += values[at];
      n++;
    }
    for (let at = d; at < values.length; at += dimensions)
      if (Number.isNaN(values[at])) filled[at] = n === 0 ? 0 : sum / n;
  }
  return filled;
}
