import type { Course } from '../alignment/course/types';
import type { Grid } from '../exercises/types';
import type { Length } from '../words/course';
import type { Saying } from '../words/en';

/**
 * What happened to a take as a whole, a sentence a finding, each with what to do; empty where it was played as it was due.
 * Bars that were played as others are one sentence where three in four or more were.
 */
export function courseSayings(course: readonly Course[], { bars, slots }: Grid): readonly Saying[] {
  const others = course.filter((one): one is Other => one.kind === 'other bar');
  const stops = course.filter((one): one is Stop => one.kind === 'pause');
  const found: Saying[] = [];
  const toPlay = bars.filter(({ role }) => role === 'play').length;
  const perBar = partialsOf(bars[0]);
  const lengthOf = (count: number): Length => ({ slots: count, perBar, perBeat: perBar / bars[0].beats });
  for (const one of course) {
    if (one.kind === 'other bar' || (one.kind === 'pause' && stops.length > 1)) continue;
    found.push(sayingOf(one, lengthOf));
  }
  if (stops.length > 1) found.push(stopsSaying(stops, bars, slots));
  if (others.length > 0 && others.length >= MOST * toPlay) found.push(allOthers(others));
  else if (others.length > 2) found.push(otherSaying(others[0], others.length - 1));
  else found.push(...others.map((one) => otherSaying(one, 0)));
  return found;
}

const MOST = 0.75;

type Other = Extract<Course, { kind: 'other bar' }>;
type Stop = Extract<Course, { kind: 'pause' }>;

const partialsOf = ({ partialsPerBeat }: Grid['bars'][number]): number =>
  partialsPerBeat.reduce((sum, partials) => sum + partials, 0);

function sayingOf(one: Exclude<Course, Other>, lengthOf: (slots: number) => Length): Saying {
  switch (one.kind) {
    case 'latency':
      return { key: one.kind, args: { ms: one.ms } };
    case 'late start':
      return {
        key: one.kind,
        args: { length: lengthOf(one.slots), ...(one.ms === undefined ? {} : { ms: one.ms }) },
      };
    case 'early start':
      return { key: one.kind, args: { length: lengthOf(one.slots) } };
    case 'mirror':
    case 'one loudness':
    case 'few loudnesses':
      return { key: one.kind, args: {} };
    case 'pause':
      return one.bar === 0 && one.slot === 0
        ? { key: 'joined in', args: { length: lengthOf(one.slots) } }
        : {
            key: one.kind,
            args: {
              bar: one.bar,
              length: lengthOf(one.slots),
              ...(one.from === undefined ? {} : { from: one.from }),
            },
          };
    case 'cable':
      return { key: one.kind, args: { bar: one.bar, length: lengthOf(one.slots) } };
    case 'tempo':
      return {
        key: one.kind,
        args: { percent: one.percent, ...(one.bare === true ? { bare: one.bare } : {}) },
      };
    case 'drift':
      return { key: one.kind, args: { from: one.from, to: one.to } };
    case 'rate':
      return { key: one.kind, args: { rate: one.rate } };
    case 'step':
      return { key: one.kind, args: { bar: one.bar, ms: one.ms } };
    case 'doubles':
      return { key: one.kind, args: { share: one.share, ms: one.ms } };
    case 'swing':
      return { key: one.kind, args: { percent: one.percent } };
  }
}

function otherSaying({ bar, played }: Other, others: number): Saying {
  return { key: 'other bar', args: { bar, played, others } };
}

function allOthers(others: readonly Other[]): Saying {
  const names = [...new Set(others.map(({ played }) => played))];
  return { key: 'other bars', args: names.length === 1 ? { played: names[0] } : {} };
}

/** Two stops or more in, or right before, one variation name it. */
function stopsSaying(stops: readonly Stop[], bars: Grid['bars'], slots: Grid['slots']): Saying {
  const at = new Map<string, number>();
  for (const { bar, slot } of stops) {
    const here = bars[bar];
    const isAtEnd = slot === 0 || here === undefined || slot >= here.slots;
    const name = (slot === 0 ? here : isAtEnd ? bars[bar + 1] : here)?.variation ?? slots[0].variation;
    at.set(name, (at.get(name) ?? 0) + 1);
  }
  const [name, times] = [...at].reduce((most, one) => (one[1] > most[1] ? one : most));
  return {
    key: 'pauses',
    args: { times: stops.length, ...(times < 2 ? {} : { at: { name, times } }) },
  };
}
