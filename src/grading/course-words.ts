import type { Course } from '../alignment/course/types';
import type { Grid } from '../exercises/types';
import { count, percent } from './number-words';

/**
 * What happened to a take as a whole, a sentence a finding, each with what to do; empty where it was played as it was due.
 * Bars that were played as others are one sentence where three in four or more were.
 */
export function courseWords(course: readonly Course[], { bars, slots }: Grid): readonly string[] {
  const others = course.filter((one): one is Other => one.kind === 'other bar');
  const stops = course.filter((one): one is Stop => one.kind === 'pause');
  const told: string[] = [];
  const toPlay = bars.filter(({ role }) => role === 'play').length;
  const barMs = bars[0].endMs - bars[0].startMs;
  const beats = bars[0].beats;
  for (const one of course) {
    if (one.kind === 'other bar' || (one.kind === 'pause' && stops.length > 1)) continue;
    told.push(sentenceOf(one, { barMs, beats, partials: partialsOf(bars[0]) }));
  }
  if (stops.length > 1) told.push(stopsWords(stops, bars, slots));
  if (others.length > 0 && others.length >= MOST * toPlay) told.push(allOthersWords(others));
  else if (others.length > 2) {
    const [first] = others;
    told.push(
      `${otherWords(first)}; so were ${count(others.length - 1, 'other bar')}. Name each bar aloud before it comes.`,
    );
  } else told.push(...others.map((one) => `${otherWords(one)}. Name each bar aloud before it comes.`));
  return told;
}

const MOST = 0.75;

type Other = Extract<Course, { kind: 'other bar' }>;
type Stop = Extract<Course, { kind: 'pause' }>;

const partialsOf = ({ partialsPerBeat }: Grid['bars'][number]): number =>
  partialsPerBeat.reduce((sum, partials) => sum + partials, 0);

interface BarShape {
  readonly barMs: number;
  readonly beats: number;
  readonly partials: number;
}

function sentenceOf(one: Exclude<Course, Other>, shape: BarShape): string {
  switch (one.kind) {
    case 'latency':
      return `Everything comes ${ms(one.ms)} late: wireless headphones? It was taken off; play over a cable, or set the rig’s delays.`;
    case 'late start':
      return one.ms === undefined
        ? `You began ${length(one.slots, shape)} late. Count the bar in aloud.`
        : `You began ${length(one.slots, shape)} late, or everything comes ${ms(one.ms)} late: wireless headphones would do that. Play to the last stroke and it can be told.`;
    case 'early start':
      return `You began ${length(one.slots, shape)} early. Count the bar in aloud.`;
    case 'mirror':
      return 'You led with the other hand, or the pads are swapped: it was graded as you led it.';
    case 'pause':
      return one.bar === 0 && one.slot === 0
        ? `You joined in ${length(one.slots, shape)} after the beginning; what came before is not counted.`
        : `You stopped in bar ${one.bar + 1} and went on ${length(one.slots, shape)} later${wentOn(one.from)}; what was not played is not counted. Slow down until you get through it.`;
    case 'cable':
      return `The cable was out from bar ${one.bar + 1} on, for ${length(one.slots, shape)}; what was not heard is not counted. See to the plug.`;
    case 'tempo': {
      const by = `${Math.abs(one.percent).toFixed(1)} %`;
      if (one.bare === true) {
        return one.percent > 0
          ? `You rush when the click stops, by ${by}. Say the beats aloud through the silent bars.`
          : `You fall behind when the click stops, by ${by}. Say the beats aloud through the silent bars.`;
      }
      return one.percent > 0
        ? `You rush: ${by} faster than the click. Play softer than the click and let it lead.`
        : `You drag: ${by} slower than the click. Play softer than the click and let it lead.`;
    }
    case 'rate':
      return `You played at ${rateWords(one.rate)} the tempo of the click, and it was graded so. Set the click to it, or count the beat with your foot.`;
    case 'step':
      return `From bar ${one.bar + 1} on you were ${ms(Math.abs(one.ms))} ${one.ms < 0 ? 'ahead of' : 'behind'} where you had been. Listen for the click on the bar’s first beat.`;
    case 'doubles':
      return `${percent(100 * one.share)} of the strokes came twice, ${ms(one.ms)} apart: the pad or the stick bounces. Raise the pad’s retrigger time.`;
    case 'one loudness':
      return 'The pad reports one loudness for every stroke, so only time was graded. Look for a velocity curve in its settings.';
    case 'few loudnesses':
      return 'The pad reports only a few loudnesses, so of levels just accents against the rest were graded. Look for a velocity curve in its settings.';
    case 'swing':
      return one.percent < 50
        ? `Every second note comes early, at ${percent(one.percent)} of its pair.`
        : `You swing: every second note falls at ${percent(one.percent)} of its pair.`;
  }
}

const ms = (value: number): string => `${Math.round(value)} ms`;

function wentOn(from: number | undefined): string {
  if (from === undefined) return '';
  return from === 0 ? ', from the beginning' : `, from bar ${from + 1} of the phrase`;
}

/** So many partials as bars or beats where they are whole ones. */
function length(slots: number, { beats, partials }: BarShape): string {
  if (slots % partials === 0) return count(slots / partials, 'bar');
  const aBeat = partials / beats;
  if (slots % aBeat === 0) return count(slots / aBeat, 'beat');
  return slots > partials ? `about ${count(Math.round(slots / partials), 'bar')}` : count(slots, 'partial');
}

function rateWords(rate: number): string {
  if (rate === 2) return 'twice';
  if (rate === 1 / 2) return 'half';
  return rate > 1 ? 'one and a half times' : 'two thirds of';
}

function otherWords({ bar, played }: Other): string {
  return `Bar ${bar + 1} was played as ${played}`;
}

function allOthersWords(others: readonly Other[]): string {
  const names = [...new Set(others.map(({ played }) => played))];
  return names.length === 1
    ? `You played ${names[0]} all along. Play the phrase two bars of each first.`
    : 'Most bars were played as others. Play the phrase two bars of each first.';
}

/** Two stops or more in, or right before, one variation name it. */
function stopsWords(stops: readonly Stop[], bars: Grid['bars'], slots: Grid['slots']): string {
  const at = new Map<string, number>();
  for (const { bar, slot } of stops) {
    const here = bars[bar];
    const isAtEnd = slot === 0 || here === undefined || slot >= here.slots;
    const name = (slot === 0 ? here : isAtEnd ? bars[bar + 1] : here)?.variation ?? slots[0].variation;
    at.set(name, (at.get(name) ?? 0) + 1);
  }
  const [name, times] = [...at].reduce((most, one) => (one[1] > most[1] ? one : most));
  const what = `You stopped ${count(stops.length, 'time')}; what was not played is not counted.`;
  if (times < 2) return `${what} Slow down until you get through.`;
  return `You stop at ${name}, ${times} of ${count(stops.length, 'time')}; what was not played is not counted. Play that bar alone, slower, until it comes.`;
}
