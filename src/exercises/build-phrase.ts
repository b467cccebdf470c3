import { InputError } from '../errors';
import type { Hand } from '../stroke';
import { shuffled } from './draw';
import { variationsBy, type Variation, type VariationRule } from './rules';
import { stickingText } from './sticking';
import type { Phrase, PhraseBar, Sticking } from './types';
import { leadOf, mirror, patternLength } from './variations';

/** Which hand leads; with both, all of one lead and then the other, or in turn. */
export const leads = ['right', 'left', 'both, a cycle each', 'both, a bar each'] as const;
export type Lead = (typeof leads)[number];

/**
 * How long each variation lasts. Learn: 4 bars; join: 2; walk: 1; test: half a bar, written as a bar of half the beats;
 * shuffle: 1, in an order drawn anew for every cycle, so that all cycles are written out.
 */
export const stages = ['learn', 'join', 'walk', 'test', 'shuffle'] as const;
export type Stage = (typeof stages)[number];

/** What a phrase is built from. */
export interface PhrasePlan {
  /** Default: said from the pattern and the rules. */
  readonly title?: string;
  /** What the title calls the pattern; default: its sticking. */
  readonly subject?: string;
  readonly pattern: Sticking;
  readonly partialsPerBeat: number;
  readonly beatsPerBar: number;
  readonly rule: VariationRule;
  readonly lead: Lead;
  readonly stage: Stage;
  /** Any integer; only a shuffle asks it. */
  readonly seed: number;
  readonly cycles: number;
}

const MOST_PARTIALS = 12;
const MOST_BEATS = 16;
const MOST_CYCLES = 1000;
/** More would not be practised, and would be slow to show. */
const MOST_BARS = 4096;

const BARS_OF: Readonly<Record<Stage, number>> = { learn: 4, join: 2, walk: 1, test: 1, shuffle: 1 };

/**
 * A phrase from a pattern by a rule, a lead and a stage. Grace notes and unisons are kept.
 * @throws InputError for a number out of its range, a pattern with no stroke in it or longer than its bar (save where it
 *   runs on), half bars of an odd number of beats, and phrases over 4096 bars
 */
export function buildPhrase(plan: PhrasePlan): Phrase {
  const beatsPerBar = checkedBeats(plan);
  const { partialsPerBeat, cycles } = plan;
  const variations = ledBy(plan, beatsPerBar * partialsPerBeat);
  const bars = staged(plan, variations);
  if (bars.length > MOST_BARS) {
    throw new InputError('phrase', `must have at most ${MOST_BARS} bars`, bars.length);
  }
  return {
    title: plan.title ?? titleOf(plan),
    beatsPerBar,
    partialsPerBeat,
    cycles: plan.stage === 'shuffle' ? 1 : cycles,
    bars,
  };
}

/** Beats of a bar as the stage wants them. */
function checkedBeats({
  pattern,
  partialsPerBeat,
  beatsPerBar,
  cycles,
  seed,
  stage,
  rule,
}: PhrasePlan): number {
  checkWhole('partialsPerBeat', partialsPerBeat, MOST_PARTIALS);
  checkWhole('beatsPerBar', beatsPerBar, MOST_BEATS);
  checkWhole('cycles', cycles, MOST_CYCLES);
  if (!Number.isSafeInteger(seed)) throw new InputError('seed', 'must be a whole number', seed);
  if (pattern.every(({ notes }) => notes.length === 0)) {
    throw new InputError('pattern', 'must have at least one stroke');
  }
  if (stage === 'test' && beatsPerBar % 2 !== 0) {
    throw new InputError('beatsPerBar', 'must be even where each variation lasts half a bar', beatsPerBar);
  }
  const beats = stage === 'test' ? beatsPerBar / 2 : beatsPerBar;
  const runsOn = rule === 'as written' || rule === 'another subdivision';
  if (!runsOn && pattern.length > beats * partialsPerBeat) {
    throw new InputError(
      'pattern',
      `must fit its bar: ${pattern.length} partials in ${stage === 'test' ? 'half a bar' : 'a bar'} of ${beats * partialsPerBeat}`,
    );
  }
  return beats;
}

function checkWhole(place: string, value: number, most: number): void {
  if (!(Number.isInteger(value) && value >= 1 && value <= most)) {
    throw new InputError(place, `must be a whole number from 1 to ${most}`, value);
  }
}

function ledBy({ pattern, partialsPerBeat, rule, lead }: PhrasePlan, partials: number): Variation[] {
  const led = (hand: Hand): Variation[] => {
    const other = leadOf(pattern) !== undefined && leadOf(pattern) !== hand;
    const turned = other ? mirror(pattern) : pattern;
    return variationsBy(rule, turned, { partialsPerBeat, partials }, hand === 'L' ? ', left lead' : '');
  };
  switch (lead) {
    case 'right':
      return led('R');
    case 'left':
      return led('L');
    case 'both, a cycle each':
      return [...led('R'), ...led('L')];
    case 'both, a bar each': {
      const left = led('L');
      return led('R').flatMap((variation, index) => [variation, left[index]]);
    }
  }
}

function staged(plan: PhrasePlan, variations: readonly Variation[]): PhraseBar[] {
  const { stage, seed, cycles } = plan;
  const barsOf = (variation: Variation): PhraseBar[] => writtenBars(variation, plan.partialsPerBeat);
  if (stage === 'shuffle') {
    return Array.from({ length: cycles }, (_, cycle) => shuffled(variations, seed + cycle)).flatMap((drawn) =>
      drawn.flatMap(barsOf),
    );
  }
  return variations.flatMap((variation) => {
    const bars = barsOf(variation);
    return Array.from({ length: BARS_OF[stage] }, () => bars).flat();
  });
}

function writtenBars(variation: Variation, partialsPerBeat: number): PhraseBar[] {
  return variation.map(({ name, sticking }) => ({
    variation: name,
    sticking: stickingText(sticking, [partialsPerBeat]),
  }));
}

function titleOf({ subject, pattern, partialsPerBeat, rule, lead, stage, seed }: PhrasePlan): string {
  const whole = pattern.slice(0, patternLength(pattern));
  const leadWords: Readonly<Record<Lead, string>> = {
    right: '',
    left: ', left lead',
    'both, a cycle each': ', both leads, a cycle each',
    'both, a bar each': ', both leads, a bar each',
  };
  const stageWords = stage === 'walk' ? '' : stage === 'shuffle' ? `, shuffle ${seed}` : `, ${stage}`;
  return `${subject ?? stickingText(whole, [partialsPerBeat])}, ${rule}${leadWords[lead]}${stageWords}`;
}
