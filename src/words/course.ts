import { count, percent } from './numbers';

/** A stretch of slots, and how many make a bar and a beat. */
export interface Length {
  readonly slots: number;
  readonly perBar: number;
  readonly perBeat: number;
}

/** Sentences of what happened to a take as a whole, each with what to do. Bars count from 0. */
export const courseSentences = {
  latency: ({ ms: late }: { readonly ms: number }) =>
    `Everything comes ${ms(late)} late: wireless headphones? It was taken off; play over a cable, or set the rig’s delays.`,
  /** @param ms where nobody can know whether it was a latency instead */
  'late start': ({ length, ms: late }: { readonly length: Length; readonly ms?: number }) =>
    late === undefined
      ? `You began ${lengthWords(length)} late. Count the bar in aloud.`
      : `You began ${lengthWords(length)} late, or everything comes ${ms(late)} late: wireless headphones would do that. Play to the last stroke and it can be told.`,
  'early start': ({ length }: { readonly length: Length }) =>
    `You began ${lengthWords(length)} early. Count the bar in aloud.`,
  mirror: () => 'You led with the other hand, or the pads are swapped: it was graded as you led it.',
  'joined in': ({ length }: { readonly length: Length }) =>
    `You joined in ${lengthWords(length)} after the beginning; what came before is not counted.`,
  /** @param from bar of the phrase from whose beginning it went on; left out where it went on in its place */
  pause: ({ bar, length, from }: { readonly bar: number; readonly length: Length; readonly from?: number }) =>
    `You stopped in bar ${bar + 1} and went on ${lengthWords(length)} later${wentOn(from)}; what was not played is not counted. Slow down until you get through it.`,
  /** @param at variation that most stops lie in or right before, and how many; left out where none has two */
  pauses: ({
    times,
    at,
  }: {
    readonly times: number;
    readonly at?: { readonly name: string; readonly times: number };
  }) =>
    at === undefined
      ? `You stopped ${count(times, 'time')}; what was not played is not counted. Slow down until you get through.`
      : `You stop at ${at.name}, ${at.times === times ? count(times, 'time') : `${at.times} of ${times} times`}; what was not played is not counted. Play that bar alone, slower, until it comes.`,
  cable: ({ bar, length }: { readonly bar: number; readonly length: Length }) =>
    `The cable was out from bar ${bar + 1} on, for ${lengthWords(length)}; what was not heard is not counted. See to the plug.`,
  /** @param percent faster than the click where positive @param bare only where the click was silent */
  tempo({ percent: by, bare }: { readonly percent: number; readonly bare?: true }) {
    const size = `${Math.abs(by).toFixed(1)} %`;
    if (bare === true) {
      return by > 0
        ? `You rush when the click stops, by ${size}. Say the beats aloud through the silent bars.`
        : `You fall behind when the click stops, by ${size}. Say the beats aloud through the silent bars.`;
    }
    return by > 0
      ? `You rush: ${size} faster than the click. Play softer than the click and let it lead.`
      : `You drag: ${size} slower than the click. Play softer than the click and let it lead.`;
  },
  /** @param from @param to bpm, in free time */
  drift({ from, to }: { readonly from: number; readonly to: number }) {
    const [before, after] = [Math.round(from), Math.round(to)];
    return to > from
      ? `You rush: from ${before} to ${after} bpm by the end. Count aloud, and keep the count where it began.`
      : `You drag: from ${before} to ${after} bpm by the end. Count aloud, and keep the count where it began.`;
  },
  rate: ({ rate }: { readonly rate: number }) =>
    `You played at ${rateWords(rate)} the tempo of the click, and it was graded so. Set the click to it, or count the beat with your foot.`,
  step: ({ bar, ms: by }: { readonly bar: number; readonly ms: number }) =>
    `From bar ${bar + 1} on you were ${ms(Math.abs(by))} ${by < 0 ? 'ahead of' : 'behind'} where you had been. Listen for the click on the bar’s first beat.`,
  /** @param others bars beside this one that were played as others too */
  'other bar': ({
    bar,
    played,
    others,
  }: {
    readonly bar: number;
    readonly played: string;
    readonly others: number;
  }) =>
    `Bar ${bar + 1} was played as ${played}${others === 0 ? '' : `; so were ${count(others, 'other bar')}`}. Name each bar aloud before it comes.`,
  /** @param played the one bar that was played all along; left out where there were several */
  'other bars': ({ played }: { readonly played?: string }) =>
    `${played === undefined ? 'Most bars were played as others' : `You played ${played} all along`}. Play the phrase two bars of each first.`,
  doubles: ({ share, ms: apart }: { readonly share: number; readonly ms: number }) =>
    `${percent(100 * share)} of the strokes came twice, ${ms(apart)} apart: the pad or the stick bounces. Raise the pad’s retrigger time.`,
  'one loudness': () =>
    'The pad reports one loudness for every stroke, so only time was graded. Look for a velocity curve in its settings.',
  'few loudnesses': () =>
    'The pad reports only a few loudnesses, so of levels just accents against the rest were graded. Look for a velocity curve in its settings.',
  swing: ({ percent: at }: { readonly percent: number }) =>
    at < 50
      ? `Every second note comes early, at ${percent(at)} of its pair.`
      : `You swing: every second note falls at ${percent(at)} of its pair.`,
} as const;

const ms = (value: number): string => `${Math.round(value)} ms`;

function wentOn(from: number | undefined): string {
  if (from === undefined) return '';
  return from === 0 ? ', from the beginning' : `, from bar ${from + 1} of the phrase`;
}

/** So many slots as bars or beats where they are whole ones. */
function lengthWords({ slots, perBar, perBeat }: Length): string {
  if (slots % perBar === 0) return count(slots / perBar, 'bar');
  if (slots % perBeat === 0) return count(slots / perBeat, 'beat');
  return slots > perBar ? `about ${count(Math.round(slots / perBar), 'bar')}` : count(slots, 'partial');
}

function rateWords(rate: number): string {
  if (rate === 2) return 'twice';
  if (rate === 1 / 2) return 'half';
  return rate > 1 ? 'one and a half times' : 'two thirds of';
}
