import { gridOf } from '../../exercises/grid';
import { tempoPlayed } from '../../exercises/tempo';
import type { Phrase, Tempo } from '../../exercises/types';
import { findingOf, type Finding } from '../finding';
import { mostly, type WrongKind } from '../../words/wrong';
import { reasonWords } from '../reasons';
import type { Remedy, RemedyEvidence } from './types';
import { remedyPhrase } from './phrase';
import { stopFigure, stopRuleOf } from './stop';
import { A_STEP_DOWN, type RemedyRow, type RemedyRule } from './rules';
import { remedyFor } from './table';
import { purposeOf, remedyWords } from './words';
import { tellingOf } from '../sayings';
import type { Figure, Report, Weakest } from '../types';
import { measuresOver, weakestFirst } from '../weakest';
import { measureUnit } from '../words';
import type { Bpm, Ms } from '../../units';

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
 * @param first what was chosen to come first instead
 * @returns undefined where nothing is out, and where nothing could be judged: then there is nothing to mend
 */
export function remedyOf(
  report: Report,
  phrase: Phrase,
  bpm: Bpm,
  ceilings: CeilingTempos = {},
  first?: Weakest,
): Remedy | undefined {
  const found = findingOf(report, first);
  if (found === undefined) return undefined;
  const row = remedyFor(found.reason, found.figure);
  const finding = row.rule === 'in turn' ? ofChange(found) : found;
  const { bar, hand, reason, figure, variations } = finding;
  const standings = weakestFirst(report.variations);
  const best = standings.at(-1)?.variation.name ?? bar;
  const rule = ruleFor(row, finding, phrase);
  const slower = tempoOf(row, rule, bpm, ceilings[bar]);
  const made = remedyPhrase(phrase, {
    rule,
    weak: bar,
    best,
    ...(hand === undefined ? {} : { hand }),
    variations,
    bpm: slower,
  });
  if (made === undefined) return undefined;
  const telling = tellingOf(report, true);
  const practised = {
    soft: telling.soft,
    softest: telling.softest,
    ...(hand === undefined ? {} : { hand }),
    ...wrongIn(figure),
  };
  return {
    rule,
    reason,
    sentence: remedyWords({ rule, finding, best, bpm: slower, made, practised }),
    purpose: purposeOf(reason, practised),
    evidence: evidenceOf(finding, report),
    phrase: made,
    bpm: slower,
    stop: stopRuleOf(finding, report, telling, [
      smallestGapMs(phrase, tempoPlayed({ bpm: bpm * rateOf(report) }, report)),
      smallestGapMs(made, { bpm: slower }),
    ]),
  };
}

/** What lies between bars is practised between bars: some of them only would have other changes. */
function ofChange(finding: Finding): Finding {
  return finding.variations.length < 2 ? finding : { ...finding, variations: [finding.bar] };
}

function wrongIn(figure: Figure | null): { wrong?: WrongKind } {
  const wrong = mostly(figure?.wrong);
  return wrong === undefined ? {} : { wrong };
}

/** How many times as fast as the click it was played, and graded. */
const rateOf = ({ course }: Report): number =>
  course.reduce((rate, one) => (one.kind === 'rate' ? one.rate : rate), 1);

const smallestGapMs = (phrase: Phrase, tempo: Tempo): Ms =>
  gridOf(phrase, tempo, 0, phrase.bars.length).smallestGapMs;

/** A bar without accents has none to take off or to play alone. */
function ruleFor(row: RemedyRow, { bar, variations, hand }: Finding, phrase: Phrase): RemedyRule {
  const own = phrase.bars.filter(
    ({ variation }) => variations.length === 0 || variation === bar || variations.includes(variation),
  );
  const hasAccents = own.some(({ sticking }) => /[RL]/.test(sticking));
  const needsNone = row.rule === 'in turn' || (row.rule === 'accenting hand alone' && hand === undefined);
  return hasAccents || needsNone ? row.rule : 'slower';
}

const SLOWEST: Bpm = 20;

/** What is to be slower is slower. */
function tempoOf({ tempoShare }: RemedyRow, rule: RemedyRule, bpm: Bpm, ceiling: Bpm | undefined): Bpm {
  const wanted = Math.round(bpm * (rule === 'slower' ? Math.min(tempoShare, A_STEP_DOWN) : tempoShare));
  return Math.max(SLOWEST, Math.min(wanted, Math.floor(ceiling ?? wanted)));
}

function evidenceOf({ reason, variation, figure }: Finding, report: Report): RemedyEvidence {
  const measure = reason === 'slip' ? 'complete' : reason;
  const own = report.variations.find(({ name }) => name === variation)?.measures;
  const measures = own ?? measuresOver(report, measure, figure?.hand);
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
