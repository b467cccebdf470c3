import { gridOf } from '../../exercises/grid';
import type { Phrase } from '../../exercises/types';
import { findingOf, type Finding } from '../finding';
import { reasonWords } from '../reasons';
import type { Remedy, RemedyEvidence } from './types';
import { remedyPhrase } from './phrase';
import { stopFigure, stopRuleOf } from './stop';
import { A_STEP_DOWN, type RemedyRow, type RemedyRule } from './rules';
import { remedyFor } from './table';
import { purposeOf, remedyWords } from './words';
import { tellingOf } from '../sayings';
import type { Measures, Report } from '../types';
import { weakestFirst } from '../weakest';
import { measureUnit } from '../words';
import type { Bpm } from '../../units';

export { isReached } from './stop';
export { remedyOutcome } from './outcome';
export type { Remedy } from './types';

/** A tempo at which each variation holds, by name; what isn't known is left out. */
export type CeilingTempos = Readonly<Record<string, Bpm>>;

/**
 * The remedy for the first thing a report says is out, by the rule of its measure's file.
 * @param phrase the one the take was played from
 * @param bpm the take's tempo
 * @param ceilings a known ceiling under the remedy's tempo takes its place
 * @returns undefined where nothing is out, and where nothing could be judged: then there is nothing to mend
 */
export function remedyOf(
  report: Report,
  phrase: Phrase,
  bpm: Bpm,
  ceilings: CeilingTempos = {},
): Remedy | undefined {
  const finding = findingOf(report);
  if (finding === undefined) return undefined;
  const row = remedyFor(finding.reason);
  const standings = weakestFirst(report.variations);
  const best = standings.at(-1)?.variation.name ?? finding.bar;
  const rule = ruleFor(row, finding, phrase);
  const slower = tempoOf(row, rule, bpm, ceilings[finding.bar]);
  const hand = finding.hand;
  const made = remedyPhrase(phrase, {
    rule,
    weak: finding.bar,
    best,
    ...(hand === undefined ? {} : { hand }),
    isWhole: finding.isWhole,
    bpm: slower,
  });
  if (made === undefined) return undefined;
  const telling = tellingOf(report, true);
  const { smallestGapMs } = gridOf(made, { bpm: slower }, 0, made.bars.length);
  return {
    rule,
    reason: finding.reason,
    sentence: remedyWords(rule, finding, best, slower, telling, made),
    purpose: purposeOf(finding.reason, hand, telling),
    evidence: evidenceOf(finding, report),
    phrase: made,
    bpm: slower,
    stop: stopRuleOf(finding, report, telling, smallestGapMs),
  };
}

/** A bar without accents has none to take off or to play alone. */
function ruleFor(row: RemedyRow, { bar, isWhole }: Finding, phrase: Phrase): RemedyRule {
  const own = phrase.bars.filter(({ variation }) => isWhole || variation === bar);
  const hasAccents = own.some(({ sticking }) => /[RL]/.test(sticking));
  return hasAccents || row.rule === 'in turn' ? row.rule : 'slower';
}

const SLOWEST: Bpm = 20;

/** What is to be slower is slower. */
function tempoOf({ tempoShare }: RemedyRow, rule: RemedyRule, bpm: Bpm, ceiling: Bpm | undefined): Bpm {
  const wanted = Math.round(bpm * (rule === 'slower' ? Math.min(tempoShare, A_STEP_DOWN) : tempoShare));
  return Math.max(SLOWEST, Math.min(wanted, Math.floor(ceiling ?? wanted)));
}

function evidenceOf({ reason, variation, figure }: Finding, report: Report): RemedyEvidence {
  const measure = reason === 'slip' ? 'complete' : reason;
  const measures: Measures =
    (variation === null
      ? report.measures
      : report.variations.find(({ name }) => name === variation)?.measures) ?? report.measures;
  const shown = figure ?? stopFigure({ measure }, report);
  return {
    variation,
    measure,
    ...(shown?.hand === undefined ? {} : { hand: shown.hand }),
    value: shown?.value ?? null,
    interval: shown?.interval ?? null,
    n: shown?.n ?? [],
    unit: measureUnit(measure),
    words: reason === 'slip' ? 'the pattern slipped' : reasonWords(reason, measures, tellingOf(report, true)),
  };
}
