import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { grade } from '../../src/cli/grade';
import { note } from '../../src/cli/note';
import { chosenOf, ledBy } from '../../src/grading/chosen';
import { isCleanShare } from '../../src/grading/clean-share';
import { findingOf } from '../../src/grading/finding';
import { isReached } from '../../src/grading/remedy/remedy';
import { slowestBpm } from '../../src/exercises/tempo';
import type { Report, VariationReport } from '../../src/grading/types';
import { isFault } from '../../src/grading/verdict';
import { bandWords, measureName, strengthWords } from '../../src/grading/words';
import { takeHeld } from '../../src/insight/climb';
import { gradedRecord } from '../../src/insight/graded-record';
import { termOf } from '../../src/insight/history/term';
import { ceilingsBeside } from '../../src/insight/take-ceilings';
import { noteHtml, proposedTarget } from '../../src/sessions/paper/lesson-note';
import { stripsOf } from '../../src/sessions/paper/strip/strip';
import { summaryOf } from '../../src/sessions/take-record';
import { writeTake } from '../../src/sessions/take';
import { proposedTargets } from '../../src/sessions/week/proposed-targets';
import { targetsMet } from '../../src/sessions/week/targets-met';
import { firstReviewing } from '../../src/state/reviewing';
import { nextStep, remedyFor } from '../../src/state/selectors/review';
import type { Reviewed } from '../../src/take/reviewed';
import { takeOfKind } from './takes';

/** Two lines of one take that can't both be true, by name; and what they say. */
export interface Contradiction {
  readonly name: string;
  readonly words: string;
}

const PRINTED_EVERY = 3;

/** The contradictions of the take of a seed, of one in three through the command line too. */
export function saidOf(seed: number): readonly Contradiction[] {
  const reviewed = takeOfKind(seed);
  return [
    ...contradictionsIn(reviewed),
    ...(seed % PRINTED_EVERY === 0 ? contradictionsPrinted(reviewed) : []),
  ];
}

/** All that Review, lesson note and term report say of a take, held against each other. */
function contradictionsIn(reviewed: Reviewed): readonly Contradiction[] {
  return [
    ...ofSentence(reviewed),
    ...ofCertainty(reviewed),
    ...ofBars(reviewed),
    ...ofRemedy(reviewed),
    ...ofTargets(reviewed),
    ...ofPictures(reviewed),
    ...ofPapers(reviewed),
  ];
}

type Checked = readonly Contradiction[];

const unless = (isSo: boolean, name: string, ...words: readonly unknown[]): Checked =>
  isSo
    ? []
    : [
        {
          name,
          words: words.map((one) => (typeof one === 'string' ? one : JSON.stringify(one))).join(' | '),
        },
      ];

const rowsWords = ({ variations }: Report): string =>
  variations
    .map(
      ({ name, band, measure, supported }) =>
        `${name}: ${band} ${measure ?? ''} ${supported?.toFixed(2) ?? ''}`,
    )
    .join(', ');

const all = ({ variations }: Report, is: (one: VariationReport) => boolean): boolean => variations.every(is);

/** Sentence and table of variations. */
function ofSentence({ report }: Reviewed): Checked {
  const { sentence, weakest, variations, fits, others } = report;
  const rows = rowsWords(report);
  const finding = findingOf(report);
  const claims = /\bholds\b/.test(sentence.replaceAll(/holds by itself|bar by bar/g, 'holds'));
  const own = variations.find(({ name }) => name === weakest?.variation);
  const weak = /^(.*?)(?:^|\. |; then )?([^.;]*) is the weak bar: /.exec(sentence);
  const forAll = /[Ii]n every variation (?:that has them )?/.test(sentence) && !/holds/.test(sentence);
  const having = variations.filter(({ measures }) => weakest !== null && valued(measures[weakest.measure]));
  return [
    ...unless(
      fits ||
        (weakest === null &&
          variations.every(
            ({ band }) => band === 'not measured' || band === 'too few strokes' || band === 'not played',
          )),
      'no grade, yet a verdict',
      sentence,
      rows,
    ),
    ...unless(
      !claims || !all(report, ({ band }) => isFault(band)),
      'said to hold where nothing does',
      sentence,
      rows,
    ),
    ...unless(
      !claims || variations.every(({ band }) => !isFault(band)),
      'said to hold beside a variation that is out',
      sentence,
      rows,
    ),
    ...unless(
      !/good so far/.test(sentence) || variations.every(({ band }) => band !== 'holds' && !isFault(band)),
      'good so far beside a verdict',
      sentence,
      rows,
    ),
    ...unless(
      weak === null ||
        (own !== undefined &&
          isFault(own.band) &&
          own.measure === weakest?.measure &&
          weakest?.scope === 'variation'),
      'the weak bar is not the table’s',
      sentence,
      rows,
    ),
    ...unless(
      !forAll ||
        having.every(({ band }) => isFault(band) || band === 'too few strokes' || band === 'not measured'),
      'in every variation, yet one holds',
      sentence,
      rows,
    ),
    ...unless(
      finding !== undefined || !fits || !variations.some(({ band }) => isFault(band)),
      'a verdict of the table that nothing tells',
      sentence,
      rows,
    ),
    ...unless(
      variations.every(({ band, bars }) => band !== 'holds' || bars >= 3),
      'holds from under three bars',
      rows,
    ),
    ...unless(
      others.every((one) => one.sentence !== sentence),
      'what else is out is what leads',
      sentence,
    ),
    ...unless(
      new Set(others.map((one) => one.sentence)).size === others.length,
      'what else is out is said twice',
      others.map((one) => one.sentence),
    ),
    ...unless(
      others.filter((one) => / weak bar/.test(one.sentence)).length <= (report.slips.length > 0 ? 1 : 0),
      'two weak bars',
      sentence,
      others.map((one) => one.sentence),
    ),
  ];
}

const swung = ({ course }: Report): boolean => course.some(({ kind }) => kind === 'swing');

const valued = (of: VariationReport['measures'][keyof VariationReport['measures']]): boolean =>
  of !== undefined && ('ms' in of ? of.ms.value !== null : of.value !== null);

/** How certain it is, of what leads. */
function ofCertainty({ take, report }: Reviewed): Checked {
  const lead = chosenOf(report, take.first);
  const words = strengthWords(report, lead);
  const holding = lead === undefined && /\bholds[^.]*\.[^.]*$|To polish: [^.]*\.[^.]*$/.test(report.sentence);
  // what a swing is told by is no second fault
  const finding = holding && swung(report) ? undefined : findingOf(report, lead);
  const said = lead?.sentence ?? report.sentence;
  const holds = /^From [^.]*: (certain|some doubt is left)\./.test(words);
  const isOut = /^From [^.]*: (?:(close|not yet), for certain|a fault for certain|it may be chance)/.exec(
    words,
  );
  return [
    ...unless(!holds || finding === undefined, 'certain that it holds, beside what is out', said, words),
    ...unless(
      isOut === null || (finding !== undefined && finding.figure !== null),
      'certain of a fault that isn’t told',
      said,
      words,
    ),
    ...unless(
      isOut?.[1] === undefined || isOut[1] === finding?.figure?.band,
      'another band is certain',
      said,
      words,
    ),
    ...unless(
      !holds || /leave some doubt/.test(said) === /some doubt is left/.test(words) || !/ holds/.test(said),
      'two certainties',
      said,
      words,
    ),
    ...unless(
      !/for certain/.test(words) || (finding?.figure?.n ?? []).every((n) => n >= 8),
      'certain from under eight strokes',
      words,
    ),
  ];
}

/** Clean bars, and the climb that goes by them. */
function ofBars({ report }: Reviewed): Checked {
  const bars = report.bars.filter(({ role }) => role === undefined);
  const clean = bars.filter((bar) => bar.clean).length;
  const went = takeHeld(report);
  const notYet = report.variations.some(({ band }) => band === 'not yet');
  return [
    ...unless(
      report.bars.every((bar) => bar.clean === (bar.broke.length === 0)),
      'a clean bar that something broke',
    ),
    ...unless(
      bars.every((bar) => !bar.clean || bar.complete),
      'a clean bar that is not complete',
    ),
    ...unless(
      went !== 'held' || (isCleanShare(clean, bars.length) && !notYet),
      'a take that is clean for the climb alone',
      went,
      clean,
      bars.length,
    ),
    ...unless(!notYet || went !== 'held', 'clean for the climb, not yet in the table', rowsWords(report)),
  ];
}

function ofRemedy(reviewed: Reviewed): Checked {
  const { take, report } = reviewed;
  const lead = chosenOf(report, take.first);
  const said = lead?.sentence ?? report.sentence;
  const finding = findingOf(report, lead);
  const remedy = remedyFor(reviewed);
  const bpm = slowestBpm(take.tempo);
  const step = nextStep(firstReviewing, reviewed);
  const reason = finding === undefined ? undefined : finding.reason === 'slip' ? 'complete' : finding.reason;
  if (remedy === undefined) {
    return unless(step.kind === 'again' || step.kind === 'rig', 'a step without a remedy', said, step.kind);
  }
  const { evidence, stop, sentence } = remedy;
  const asked = /at (\d+) bpm/.exec(sentence)?.[1];
  return [
    ...unless(finding !== undefined, 'a remedy where nothing is out', said, sentence),
    ...unless(evidence.measure === reason, 'a remedy of another measure', said, sentence),
    ...unless(
      evidence.variation === (finding?.variation ?? null) || remedy.rule === 'in turn',
      'a remedy of another variation',
      said,
      sentence,
    ),
    ...unless(
      evidence.hand === finding?.figure?.hand,
      'a remedy of another hand',
      said,
      sentence,
      evidence.hand,
      finding?.figure?.hand,
    ),
    ...unless(
      isReached(stop, report) !== true,
      'a stop rule that is met already',
      said,
      stop.words,
      evidence.value,
    ),
    ...unless(Number(asked) === remedy.bpm, 'two tempi of a remedy', sentence, remedy.bpm),
    ...unless(
      !/\bslower\b/.test(sentence) || remedy.bpm < bpm || remedy.bpm <= 20,
      'slower at the same tempo',
      sentence,
      bpm,
    ),
    ...unless(handAgrees(said, evidence.hand), 'a sentence of the other hand', said, evidence.hand),
  ];
}

/** Where a sentence names one hand alone, it is the one. */
function handAgrees(said: string, hand: 'R' | 'L' | undefined): boolean {
  if (hand === undefined) return true;
  const [clause] = said.split(/ comes next: |; /).slice(-1);
  const [right, left] = [/\bright\b/.test(said), /\bleft\b/.test(said)];
  if (right === left || clause === undefined) return true;
  return hand === 'R' ? right : left;
}

function ofTargets({ take, report }: Reviewed): Checked {
  if (!('bpm' in take.tempo)) return [];
  const { bpm } = take.tempo;
  const targets = proposedTargets({ take, report }, bpm);
  const sheet = { targets, phrase: take.phrase, bpm, limits: take.limits };
  const met = targetsMet(sheet, [{ take, report }]).filter(({ outcome }) => outcome === 'met');
  const lead = chosenOf(report, take.first);
  const finding = findingOf(report, lead);
  const measures = targets.flatMap((target) => (target.kind === 'measure' ? [target.measure] : []));
  const reason = finding?.reason === 'slip' ? 'complete' : finding?.reason;
  return [
    ...unless(
      met.length === 0,
      'a target that is met already',
      met.map(({ target }) => target),
      lead?.sentence ?? report.sentence,
    ),
    ...unless(
      measures.every((measure) => measure === reason),
      'a target of another measure',
      measures,
      reason ?? 'none',
    ),
    ...unless(
      finding !== undefined || !report.fits || measures.length === 0,
      'a target where nothing is out',
      measures,
    ),
  ];
}

/** Strips: the band, and the mark and number of what leads. */
function ofPictures({ take, report }: Reviewed): Checked {
  const led = ledBy(report, chosenOf(report, take.first));
  const strips = stripsOf(led, take.phrase, 'figure');
  const { weakest } = led;
  return strips.flatMap((strip) => {
    const row = report.variations.find(({ name }) => name === strip.variation);
    const isMarked = strip.slots.some(({ named }) => named);
    return [
      ...unless(strip.band === row?.band, 'a strip of another verdict', strip.variation),
      ...unless(
        !isMarked || (isFault(row?.band) && strip.variation === weakest?.variation),
        'a mark where nothing is out',
        strip.variation,
        led.sentence,
      ),
    ];
  });
}

function ofPapers(reviewed: Reviewed): Checked {
  const { take, report } = reviewed;
  const lead = chosenOf(report, take.first);
  const target = proposedTarget(reviewed);
  const text = { student: '', date: '2026-11-30', words: '', target };
  const page = textOf(noteHtml(text, [reviewed]));
  const said = lead?.sentence ?? report.sentence;
  const graded = gradedRecord(take, report);
  const term = termOf([{ ...summaryOf(take), graded }], { fromDay: '', toDay: '' }, 0).rows[0];
  const ceilings = ceilingsBeside(reviewed, []);
  const bars = report.bars.filter(({ role }) => role === undefined);
  const cleanAll = bars.length > 0 && bars.every(({ clean }) => clean);
  const cleanNone = bars.every(({ clean }) => !clean);
  const ceiling = ceilings?.progress.ceiling;
  return [
    ...unless(page.includes(said), 'a note with another sentence', said),
    ...unless(
      !report.fits ||
        report.variations.every(({ name, band }) => page.includes(name) && page.includes(bandWords(band))),
      'a note with another verdict',
      rowsWords(report),
    ),
    ...unless(
      !(
        lead !== undefined ||
        isFault(report.variations.find(({ name }) => name === report.weakest?.variation)?.band)
      ) || page.includes(measureName((lead ?? report.weakest)!.measure)),
      'a note without its reason',
      said,
    ),
    ...unless(!cleanAll || ceiling?.kind !== 'below', 'all bars clean, yet not clean at anything', ceiling),
    ...unless(
      !cleanNone || ceiling === undefined || ceiling.kind === 'below' || ceiling.kind === 'too few bars',
      'no bar clean, yet a ceiling',
      ceiling,
    ),
    ...unless(
      term === undefined || ceiling === undefined || termKind(term.steady) === ceiling.kind,
      'term and Review have two ceilings',
      term?.steady,
      ceiling,
    ),
    ...unless(
      !/holds/.test(report.sentence) || takeHeld(report) !== 'not held' || ceiling?.kind !== 'above',
      'a ceiling above what was not clean',
      ceiling,
    ),
  ];
}

function termKind(steady: string): string {
  if (/too few bars/.test(steady)) return 'too few bars';
  if (/not yet/.test(steady)) return 'below';
  return /or more/.test(steady) ? 'above' : 'at';
}

const textOf = (page: string): string =>
  page
    .replaceAll(/<style[\s\S]*?<\/style>/g, '')
    .replaceAll(/<[^>]*>/g, '')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');

/** What the command line says of it, held against its report: slower, through files. */
function contradictionsPrinted({ take, report }: Reviewed): readonly Contradiction[] {
  const folder = mkdtempSync(join(tmpdir(), 'agreement-'));
  try {
    const file = join(folder, 'a.take.json');
    writeFileSync(file, writeTake(take));
    const printed = grade([file]);
    const summary = grade([file, '--summary']).split('\n')[1];
    const out = join(folder, 'note.md');
    note([file, '--out', out]);
    const lead = chosenOf(report, take.first);
    const bars = report.bars.filter(({ role }) => role === undefined);
    const clean = bars.filter((bar) => bar.clean).length;
    const finding = findingOf(report);
    const isNothing = /\snothing\s/.test(summary);
    return [
      ...unless(
        printed.startsWith(report.sentence.slice(0, 40)),
        'the command line has another sentence',
        printed,
      ),
      ...unless(
        lead === undefined || printed.includes(lead.sentence),
        'the command line leaves out what was chosen',
        printed,
      ),
      ...unless(summary.includes(`${clean} of ${bars.length}`), 'the summary counts other bars', summary),
      ...unless(
        !isNothing || (finding === undefined && report.course.length === 0),
        'the summary has no reason',
        report.sentence,
        summary,
      ),
      ...unless(
        isNothing || finding !== undefined || report.course.length > 0 || !report.fits,
        'the summary has a reason where nothing is out',
        report.sentence,
        summary,
      ),
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
}
