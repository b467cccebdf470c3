import type { Foot } from '../exercises/types';
import { dB, ms } from '../words/numbers';
import type { FeetReport, Figure, FootReport } from './types';

const names: Readonly<Record<Foot, string>> = { K: 'Bass drum foot', H: 'Hi-hat foot' };

/**
 * The feet in sentences: each foot's strokes, scatter, time and level, then what they do to the hands.
 * For instance: Bass drum foot: 31 of 32 strokes, scatter 6 ms, 4 ms early, −8.1 dB. Where a foot falls the hands come
 * 3 ms later and 0.4 dB louder than elsewhere.
 */
export function feetWords(feet: FeetReport): string {
  const each = (['K', 'H'] as const).flatMap((foot) => {
    const of = feet[foot];
    return of === undefined ? [] : [`${names[foot]}: ${footWords(of)}.`];
  });
  const extra =
    feet.counts.extra === 0 ? [] : [`Strokes of the feet that were not due: ${feet.counts.extra}.`];
  return [...each, ...extra, ...handsWords(feet.hands)].join(' ');
}

function footWords({ slots, matched, scatter, asynchrony, softness, softStrokes }: FootReport): string {
  return [
    `${matched} of ${slots} strokes`,
    ...spoken(scatter, (value) => `scatter ${ms(value)}`),
    ...spoken(asynchrony, (value) => `${ms(Math.abs(value))} ${value < 0 ? 'early' : 'late'}`),
    ...spoken(softness, dB),
    ...spoken(softStrokes, (value) => `soft ones ${dB(value)}`),
  ].join(', ');
}

function handsWords({ deviationMs, levelDb }: FeetReport['hands']): string[] {
  const parts = [
    ...spoken(deviationMs, (value) => `${ms(Math.abs(value))} ${value < 0 ? 'earlier' : 'later'}`),
    ...spoken(levelDb, (value) => `${dB(Math.abs(value))} ${value < 0 ? 'softer' : 'louder'}`),
  ];
  return parts.length === 0
    ? []
    : [`Where a foot falls the hands come ${parts.join(' and ')} than elsewhere.`];
}

function spoken(figure: Figure | undefined, words: (value: number) => string): string[] {
  return figure === undefined || figure.value === null ? [] : [words(figure.value)];
}
