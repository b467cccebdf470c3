import type { Settings } from '../settings';
import { judgedWords, measureWords } from '../words/measures';
import { count, dB, fixed, ms, percent } from '../words/numbers';
import { findingOf } from './finding';
import type { HeightLines } from './evidence/heights';
import { isJudged } from './verdict';
import type { VariationBand, Figure, JudgedKey, MeasureKey, PartedFigure, Report, Weakest } from './types';
import { weakestFirst } from './weakest';
import { capital, counted } from '../text';

export { figureOf } from './weakest';

/** What a measure is called. The same on pages and in the terminal. */
export function measureName(key: MeasureKey): string {
  return measureWords[key].name;
}

/** Unit of a measure's words; '' where it has none. */
export function measureUnit(key: MeasureKey): string {
  return measureWords[key].unit;
}

/**
 * Where a measure holds, as an aim.
 * @param heights the report's, where the rig has learned them
 * @example measureAim('leakBefore', settingsOf('working')) // => aim under 2 dB
 */
export function measureAim(key: JudgedKey, settings: Settings, heights?: HeightLines): string {
  return judgedWords[key].aim(settings, heights);
}

/**
 * A figure with its unit, and its hand or direction; its band where there is no value.
 * @example figureWords('leakBefore', { value: 5.12, interval: null, n: [16], hand: 'L' }) // => L 5.1 dB
 * @example figureWords('lag', { value: -12, interval: null, n: [64, 64] }) // => R 12 ms earlier
 */
export function figureWords(key: MeasureKey, figure: Figure | PartedFigure): string {
  if ('ms' in figure) return `${seamTime(figure.ms)}, ${seamLevel(figure.dB)}`;
  const { value, hand } = figure;
  if (value === null) return figure.band ?? 'not measured';
  const ofHand = hand === undefined ? '' : `${hand} `;
  switch (key) {
    case 'complete':
      return percent(100 * value, 1);
    case 'clarity':
      return fixed(value, 3);
    case 'doubleGap':
      return isNought(value, 0) ? percent(0) : `${percent(Math.abs(value))} ${value < 0 ? 'narrow' : 'wide'}`;
    case 'accentStretch':
      return `${percent(Math.abs(value), 1)} ${value < 0 ? 'shorter' : 'longer'}`;
    case 'balanceSoft':
    case 'balanceAccent':
      return isNought(value, 1) ? dB(0) : `${value < 0 ? 'L' : 'R'} ${dB(Math.abs(value))} louder`;
    case 'lag':
      return isNought(value, 0) ? ms(0) : `R ${ms(Math.abs(value))} ${value < 0 ? 'earlier' : 'later'}`;
    case 'feel':
      return isNought(value, 0)
        ? percent(0)
        : `off-beats ${percent(Math.abs(value))} ${value < 0 ? 'early' : 'late'}`;
    case 'graceHands':
      return isNought(value, 0) ? ms(0) : `${value < 0 ? 'L' : 'R'} ${ms(Math.abs(value))} farther ahead`;
    case 'arrival':
    case 'asynchrony':
      return isNought(value, 0) ? ms(0) : `${ms(Math.abs(value))} ${value < 0 ? 'early' : 'late'}`;
    case 'scatter':
    case 'shape':
    case 'seam':
    case 'graceEvenness':
    case 'flamGap':
    case 'dragGap':
      return ms(value);
    default:
      return `${figure.atLeast ? 'at least ' : ''}${ofHand}${dB(value)}`;
  }
}

/**
 * The verdict word, and whether the interval lies in it.
 * @example bandWords('close', false) // => close, not sure
 */
export function bandWords(band: VariationBand, sure?: boolean): string {
  if (sure === undefined || !isJudged(band)) return band;
  return `${band}, ${sure ? 'sure' : 'not sure'}`;
}

/**
 * From how many strokes the sentence speaks and how sure; how hands are known; what the levels are.
 * @param lead what was chosen to lead in the place of the report's own
 * For instance: From 32 strokes, sure. Hands assumed from the sticking. Levels are dB re velocity 127, not set to this rig.
 */
export function strengthWords(report: Report, lead?: Weakest): string {
  const parts = [basis(report, lead), handsWords[report.hands]];
  if (report.slipsNotToldBecause !== null) parts.push(`Slips not looked for: ${report.slipsNotToldBecause}.`);
  if (report.counts.unmapped > 0) {
    parts.push(`${capital(count(report.counts.unmapped, 'hit'))} on notes that no surface owns.`);
  }
  if (report.counts.notMeasured > 0) {
    parts.push(
      report.closestPairs === undefined
        ? `${capital(count(report.counts.notMeasured, 'slot'))} of unisons not measured: on one surface both hands are one stroke.`
        : `${capital(count(report.counts.notMeasured, 'slot'))} not measured: two strokes so close are one on this pad.`,
    );
  }
  if (report.surfaces !== undefined) {
    parts.push(`Levels compared only within each of: ${report.surfaces.join(', ')}.`);
  }
  parts.push(...padWords(report));
  parts.push(
    `Levels are dB re velocity 127, ${report.heights === undefined ? 'not set to this rig' : 'set to this rig’s low, half and full'}.`,
  );
  return parts.join(' ');
}

/** What the rig cannot tell. */
function padWords({ clumped, balanceLeftDb, afterAccent, closestPairs }: Report): readonly string[] {
  const words = clumped ? ['Time stamps came in clumps, as over wireless MIDI: timing is not graded.'] : [];
  if (balanceLeftDb !== undefined)
    words.push(`A balance finer than ${dB(balanceLeftDb)} is not told by this rig.`);
  for (const { surface, closestPairMs } of closestPairs ?? []) {
    words.push(
      `On ${surface} strokes closer than ${ms(closestPairMs)} may arrive as one: tighter flams and doubles are not measured.`,
    );
  }
  for (const { surface, withinMs, db } of afterAccent ?? []) {
    words.push(
      `At this tempo leak after is pad and hand in one: on ${surface} a tap within ${ms(withinMs)} after an accent reads ${dB(Math.abs(db))} ${db < 0 ? 'softer' : 'louder'} than a low stroke.`,
    );
  }
  return words;
}

const handsWords: Readonly<Record<Report['hands'], string>> = {
  known: 'Hands known from the surfaces.',
  assumed: 'Hands assumed from the sticking.',
  mixed: 'Hands known on some surfaces, elsewhere assumed from the sticking.',
};

const strokeNouns: Partial<Record<JudgedKey, string>> = {
  fade: 'double',
  doubleGap: 'double',
  seam: 'change',
};

function basis(report: Report, lead: Weakest | undefined): string {
  const leading = lead === undefined && !isOfFault(report) ? undefined : findingOf(report, lead);
  if (leading?.reason === 'slip') return `From ${counted(report.counts.matched, 'stroke')}.`;
  if (leading?.figure) return `${fromWords(leading.reason, leading.figure)}: ${certaintyOf(leading.figure)}.`;
  const [first, ...others] = weakestFirst(report.variations);
  if (first === undefined) return `From ${counted(report.counts.matched, 'stroke')}.`;
  const from = fromWords(first.key, first.figure);
  // From too few bars nothing is certain, whatever each figure is.
  if (report.variations.every(({ band }) => band !== 'holds')) return `${from}.`;
  // "every variation holds" is as sure as the least sure of them
  const sure = [first, ...others].every(({ figure }) => figure.sure);
  return `${from}: ${sure ? 'certain' : 'some doubt is left'}.`;
}

/** True where the sentence ends with what is out: what a swing is told by is no second fault. */
function isOfFault({ saying }: Report): boolean {
  const last = saying.at(-1);
  const key = last?.key === 'rig first' ? last.args.then.key : last?.key;
  return key !== 'holds' && key !== 'good so far';
}

function fromWords(key: JudgedKey, { n }: Figure): string {
  const strokes = n.reduce((sum, group) => sum + group, 0);
  return `From ${counted(strokes, strokeNouns[key] ?? 'stroke')}`;
}

/** What is certain of a fault: its band, or only that there is one. */
function certaintyOf({ sure, surelyOut, band }: Figure): string {
  if (sure) return `${band ?? 'out'}, for certain`;
  return surelyOut ? 'a fault for certain, but not how large' : 'it may be chance';
}

function seamTime(figure: Figure): string {
  if (figure.value === null) return figure.band ?? 'not measured';
  return isNought(figure.value, 0)
    ? ms(0)
    : `${ms(Math.abs(figure.value))} ${figure.value < 0 ? 'early' : 'late'}`;
}

function seamLevel(figure: Figure): string {
  if (figure.value === null) return figure.band ?? 'not measured';
  return isNought(figure.value, 1)
    ? dB(0)
    : `${dB(Math.abs(figure.value))} ${figure.value < 0 ? 'softer' : 'louder'}`;
}

function isNought(value: number, digits: number): boolean {
  return Number(value.toFixed(digits)) === 0;
}
