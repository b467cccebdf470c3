import type { SoftName } from '../words/measures';
import { reasonWords as wordsOf, type Reason } from '../words/measures';
import type { HeightLines } from './evidence/heights';
import { judgedMeasureOf } from './measures';
import type { LikeSwing } from './models/time-model/types';
import type { Figure, JudgedKey, Measures, Report } from './types';
import { figureOf } from './weakest';

/** What a reason needs to know beside its figure. */
export interface Telling {
  /** True where the surfaces say which hand struck; else hands are those the sticking has due. */
  readonly handsKnown: boolean;
  /** True where the aim belongs beside the figure: not where it is reached. */
  readonly aims: boolean;
  /** What the phrase's soft strokes are. */
  readonly soft: SoftName;
  /** What `softness` and `softSpread` speak of: the ghost notes where the phrase has both. */
  readonly softest: SoftName;
  /** What of hands and doubles may as well be swing. */
  readonly mayBeSwing: readonly LikeSwing[];
  /** Variations in the phrase. */
  readonly variations: number;
  readonly settings: Report['settings'];
  /** Where the rig has learned them: then softness and contrast speak of them first. */
  readonly heights?: HeightLines;
}

/** Why a variation stands where it does. @throws Error where the measure has no value there: then it is no reason */
export function reasonOf(key: JudgedKey, measures: Measures, telling: Telling): Reason {
  const figure = figureOf(measures, key);
  if (figure?.value === undefined || figure.value === null) throw new Error(`${key} has no value to be said`);
  const { value, hand, atLeast, accentDb, wrong } = figure;
  const { aims, mayBeSwing, handsKnown, soft, softest, variations, heights } = telling;
  return {
    measure: key,
    facts: {
      value,
      ...(hand === undefined ? {} : { hand }),
      ...(atLeast ? { atLeast } : {}),
      ...(accentDb === undefined ? {} : { accentDb }),
      ...(heights === undefined ? {} : { heights }),
      ...limitFacts(key, measures, figure, telling.settings, aims),
      handsKnown,
      ...(wrong === undefined ? {} : { wrong }),
      soft,
      softest,
      ...(mayBeSwing.some((one) => one === key) ? { mayBeSwing: true as const } : {}),
      variations,
    },
  };
}

/** The same in English; '' where there is none. */
export function reasonWords(key: JudgedKey, measures: Measures, telling: Telling): string {
  const value = figureOf(measures, key)?.value;
  return value === undefined || value === null ? '' : wordsOf(reasonOf(key, measures, telling));
}

/** Which of a measure's figures it is, the aim, and the ideal of a limit with two sides. */
function limitFacts(
  key: JudgedKey,
  measures: Measures,
  figure: Figure,
  settings: Report['settings'],
  aims: boolean,
): { part?: 'ms' | 'dB'; aim?: number; ideal?: number } {
  const { figures } = judgedMeasureOf(key);
  const found = measures[key];
  const part = found !== undefined && 'ms' in found ? (found.ms === figure ? 'ms' : 'dB') : null;
  const { limit, limitGoesBy } = figures.find((one) => one.part === part) ?? figures[0];
  if (limitGoesBy === 'the gap') return part === null ? {} : { part };
  const { beforeMs } = figure;
  const { holds, ideal } = limit(settings, { gapMs: 0, ...(beforeMs === undefined ? {} : { beforeMs }) });
  return {
    ...(part === null ? {} : { part }),
    ...(aims && limitGoesBy === undefined ? { aim: holds } : {}),
    ...(limitGoesBy === 'the side' ? { ideal } : {}),
  };
}
