import { rudimentPhrase } from '../../src/exercises/rudiment-phrase';
import { rudiments } from '../../src/exercises/rudiments';
import { bundledPhrases } from '../../src/exercises/phrase';
import type { Phrase } from '../../src/exercises/types';
import type { Fault } from '../../src/model/faults';
import { modelTake } from '../../src/model/model-player';
import { seeded } from '../../src/model/random';
import { withFirst } from '../../src/sessions/take-first';
import type { Take } from '../../src/sessions/types';
import { gradeTake } from '../../src/take/grade-take';
import { choiceOf } from '../../src/grading/chosen';
import type { Reviewed } from '../../src/take/reviewed';

const LIMITS = ['first year', 'working', 'recital'] as const;

/** Phrases of every kind: all that are bundled, and the rudiments with either lead. */
const phrases: readonly Phrase[] = [
  ...bundledPhrases.map(({ phrase }) => phrase),
  ...rudiments.flatMap(({ kind, number }) =>
    kind === 'unmeasured' ? [] : (['right', 'left'] as const).map((lead) => rudimentPhrase(number, lead)),
  ),
];

/**
 * A model take of any kind, the same for a seed: a good player, a loose one or one at fault, once or twice, in one
 * variation or all, of the hands or of what happens to a take; with few bars or broken off; with a click or without; under
 * all limits; and with something else chosen to come first.
 */
export function takeOfKind(seed: number): Reviewed {
  const random = seeded(seed);
  const one = <Item>(items: readonly Item[]): Item => items[Math.floor(random() * items.length)];
  const phrase = one(random() < 0.6 ? phrases.slice(0, bundledPhrases.length) : phrases);
  const bpm = 60 + Math.floor(60 * random());
  const cycles = one([1, 2, 3, 4, 6, 8]);
  const faults = Array.from({ length: one([0, 1, 1, 1, 2]) }, () => faultOf(one, random, phrase, cycles));
  const { take } = modelTake({
    phrase,
    bpm,
    seed,
    cycles,
    faults,
    timingSdMs: one([4, 6, 9, 14]),
    levelSdDb: one([0.8, 1.2, 1.8]),
    surfaces: one([1, 2] as const),
    missed: one([0, 0, 0.01]),
    added: one([0, 0, 0.005]),
    limits: one(LIMITS),
    id: `agreement-${seed}`,
  });
  const whole = random() < 0.1 ? withoutClick(take, bpm) : take;
  const played = random() < 0.15 ? brokenOff(whole, random()) : whole;
  const report = gradeTake(played);
  const choice = random() < 0.3 && report.others.length > 0 ? choiceOf(one(report.others)) : null;
  return { take: withFirst(played, choice), report };
}

function withoutClick(take: Take, bpm: number): Take {
  return { ...take, click: 'none', downbeatMs: null, tempo: { bpm } };
}

function brokenOff(take: Take, share: number): Take {
  return {
    ...take,
    hits: take.hits.slice(0, Math.max(8, Math.floor(take.hits.length * share))),
  };
}

function faultOf(
  one: <Item>(items: readonly Item[]) => Item,
  random: () => number,
  { bars }: Phrase,
  cycles: number,
): Fault {
  const hand = one(['R', 'L'] as const);
  const size = 1 + 7 * random();
  const sign = one([1, -1]);
  const where = random() < 0.5 ? {} : { variation: one(bars).variation };
  const bar = Math.floor(random() * bars.length * cycles);
  const barOfPhrase = Math.floor(random() * bars.length);
  return one<Fault>([
    { kind: 'leak-before', hand, db: size, ...where },
    { kind: 'leak-after', hand, db: size, ...where },
    { kind: 'spill', hand, db: size, ...where },
    { kind: 'fade', db: -size, ...where },
    { kind: 'balance', hand, db: size, ...where },
    { kind: 'late', hand, ms: 4 * size, ...where },
    { kind: 'arrival', ms: 6 * size * sign, ...where },
    { kind: 'double-gap', ms: 4 * size * sign, ...where },
    { kind: 'accents', db: -1.5 * size, ...where },
    { kind: 'softs', db: 1.5 * size, ...where },
    { kind: 'scatter', ms: 4 + 4 * size, ...where },
    { kind: 'flam-gap', ms: 15 + 10 * size, ...where },
    { kind: 'flam-uneven', ms: 3 * size, ...where },
    { kind: 'graces', db: 2 * size, ...where },
    { kind: 'seam', ms: 4 * size * sign },
    { kind: 'slip', bar, slot: 2, slots: 20 },
    { kind: 'echo', share: 0.03 * size, ratio: 0.2 },
    { kind: 'latency', ms: 40 * size },
    { kind: 'late-start', partials: 4, inBars: false },
    { kind: 'pause', bar, slot: 4, slots: 24 },
    { kind: 'restart', bar, slot: 4, slots: 24 },
    { kind: 'cable', bar, slot: 4, slots: 24 },
    { kind: 'played-as', bar: barOfPhrase, as: (barOfPhrase + 1) % bars.length },
    { kind: 'mirror' },
    { kind: 'tempo', percent: 0.1 * size * sign },
    { kind: 'step', bar, ms: 12 * size * sign },
    { kind: 'rate', rate: one([2, 1 / 2]) },
    { kind: 'twice', share: 0.02 * size, ms: 25, db: -6 },
    { kind: 'velocities', count: one([1, 3]) },
    { kind: 'swing', percent: 52 + 2 * size },
    { kind: 'wander', ms: 2 * size },
    { kind: 'missed', share: 0.01 * size },
    { kind: 'added', share: 0.01 * size },
    { kind: 'wrong-hand', share: 0.01 * size },
    { kind: 'curve', exponent: one([0.5, 2]) },
    { kind: 'jitter', of: 'bluetooth' },
  ]);
}
