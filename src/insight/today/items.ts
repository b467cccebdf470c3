import { bundledPhrases, phrasesLedBy } from '../../exercises/phrase';
import { isSticking } from '../../exercises/sticking';
import type { Phrase } from '../../exercises/types';
import { bundledVoicings, voiced } from '../../exercises/voicings';
import type { JudgedKey } from '../../grading/types';
import { distributionOf, median } from '../../grading/numbers/statistics';
import { measureName } from '../../grading/words';
import { settingsOf } from '../../settings';
import type { BarsHeld, TakeSummary } from '../../sessions/take-record';
import type { Bpm } from '../../units';
import type { Ceiling } from '../ceiling/ceiling';
import { standingWords } from '../ceiling/words';
import { progressNow } from '../history/ceilings';
import { dateOf, dayOf } from '../history/weeks';
import { barsIn, barsKnown } from './bars-known';
import type { TodayFacts, TodayItem } from './types';
import { capital } from '../../text';

type Item = Omit<TodayItem, 'minutes'>;

const DAY_MS = 86_400_000;
/** "Last week's": what was played in these days; where nothing was, what was played last of all. */
const LAST_WEEK_DAYS = 7;
const FIRST_BPM: Bpm = 72;
/** About the step down and up of a climb. */
const [SLOWER, FASTER, EASY] = [0.93, 1.03, 0.8];
const SLOWEST_BPM: Bpm = 40;

interface Judged {
  readonly take: TakeSummary;
  readonly margin: number;
  readonly variation: string;
  readonly measure: JudgedKey;
  /** Bars of the variation that was played least. */
  readonly fewestBars: number;
}

/** Of what was played in the last week the phrase that stands worst, by what the last takes of it found. */
export function weakestItem({ takes, nowMs, eastMinutes, lead }: TodayFacts): Item {
  const [worst] = standing(takes, nowMs);
  if (worst === undefined) {
    const [{ phrase, name }] = phrasesLedBy(lead);
    return item('weakest', phrase, name, FIRST_BPM, 'Where to begin: nothing has been graded yet.');
  }
  const { take, margin, variation, measure, fewestBars } = worst;
  const progress = progressNow(sameAs(take, takes), eastMinutes);
  const { ceiling } = progress;
  const reached = reachedOf(ceiling);
  const isClean = take.bpm <= reached;
  const isGood = margin >= 0 && isClean;
  const isEarly = isGood && fewestBars < settingsOf(take.limits)['verdict.fewestBars'];
  const bpm = tempo(isEarly ? take.bpm : isGood ? take.bpm * FASTER : Math.min(take.bpm * SLOWER, reached));
  const at = dayOf(take.recordedAt, eastMinutes);
  const day = dateOf(at);
  const today = dayOf(new Date(nowMs).toISOString(), eastMinutes);
  const lately = standingWords({ ...progress, days: progress.days ?? [at, at] }, today);
  const found = isEarly
    ? `Too few bars were played at ${take.bpm} bpm on ${day} to say that it is clean. As fast again, and longer.`
    : isGood
      ? `It was clean at ${take.bpm} bpm on ${day}: a little faster, eyes on ${variation}.`
      : margin >= 0
        ? `At ${take.bpm} bpm on ${day} too few bars were clean. Slower, until four of five are.`
        : `${begun(variation)} was weakest on ${day} at ${take.bpm} bpm, ${byWords(measure)}. Slower, until it holds.`;
  return {
    kind: 'weakest',
    title: `${take.title}, ${bpm} bpm`,
    why: lately === '' ? found : `${found} ${lately}`,
    opening: { kind: 'take', takeId: take.id, bpm },
  };
}

/** The fastest tempo at which four bars of five are clean, as far as is known. */
function reachedOf(ceiling: Ceiling): Bpm {
  switch (ceiling.kind) {
    case 'at':
      return Math.floor(ceiling.clean.value);
    case 'below':
      return ceiling.bpm * SLOWER;
    case 'above':
    case 'too few bars':
      return Infinity;
  }
}

/** A take's tempo, or the fastest that is clean where that is slower. */
function reachedBy(take: TakeSummary, { takes, eastMinutes }: TodayFacts): Bpm {
  return Math.min(take.bpm, reachedOf(progressNow(sameAs(take, takes), eastMinutes).ceiling));
}

const byWords = (measure: JudgedKey): string =>
  measure === 'complete' ? 'by strokes left out or added' : `by its ${measureName(measure)}`;

/** A player's takes of the same phrase on the same rig. */
const sameAs = ({ phraseKey, rigId }: TakeSummary, takes: readonly TakeSummary[]): readonly TakeSummary[] =>
  takes.filter((one) => one.phraseKey === phraseKey && one.rigId === rigId);

/**
 * The first phrase of the app's own that has a bar which this player has not played, beginning with the lead they use. A
 * bar without its accents is nothing new to who has played it with them.
 */
export function newItem({ takes, lead }: TodayFacts): Item {
  const known = barsKnown(new Set(takes.map(({ title }) => title)));
  const isUnknown = ({ phrase }: { readonly phrase: Phrase }): boolean =>
    barsIn(phrase).some((bar) => !known.has(bar));
  const own = phrasesLedBy(lead).filter((one) => isUnknown(one) && !one.name.includes('both leads'));
  const unknown = bundledPhrases.filter(isUnknown);
  const fresh = own.slice(takes.length === 0 ? 1 : 0)[0] ?? unknown[0];
  if (fresh === undefined) {
    const [{ phrase, name }] = bundledPhrases;
    return item('new', phrase, name, FIRST_BPM, 'You know them all: write a sticking of your own in Phrase.');
  }
  return item(
    'new',
    fresh.phrase,
    fresh.name,
    FIRST_BPM,
    'New to you. Learn it slowly; a few cycles are enough.',
  );
}

/** What stands best goes to the kit, where the rig has one; else the other hand leads. */
export function kitItem(facts: TodayFacts): Item {
  const { takes, nowMs, surfaces, lead } = facts;
  const best = standing(takes, nowMs).at(-1)?.take;
  const reached = best === undefined ? FIRST_BPM : reachedBy(best, facts);
  const { phrase } = bundledPhrases.find((one) => one.phrase.title === best?.title) ?? phrasesLedBy(lead)[0];
  const bpm = tempo(reached * SLOWER);
  const voicing = bundledVoicings.find((one) =>
    Object.values(one.voicing).every((surface) => surfaces.includes(surface)),
  );
  if (voicing === undefined || voicing.feet !== 'none') {
    const [turned] = phrasesLedBy(lead === 'R' ? 'L' : 'R');
    const why =
      'This rig has no drums to go round: let the other hand lead. On a kit, accents go to the toms.';
    return item('kit', turned.phrase, turned.name, bpm, why);
  }
  const taken = voiced(phrase, voicing.name);
  const title = `${phrase.title}, ${voicing.name}`;
  return item(
    'kit',
    { ...taken, title },
    null,
    bpm,
    'The same strokes, further apart. Let the sound be even.',
  );
}

/** What stands best, well within reach. */
export function easyItem(facts: TodayFacts): Item {
  const { takes, nowMs } = facts;
  const best = standing(takes, nowMs).at(-1)?.take;
  const why = 'Finish easy: low, even, as quiet as it will go. Then stop.';
  if (best === undefined) {
    const plain = bundledPhrases.find(({ name }) => name.endsWith('accents off')) ?? bundledPhrases[0];
    return item('easy', plain.phrase, plain.name, tempo(FIRST_BPM * EASY), why);
  }
  const bpm = tempo(reachedBy(best, facts) * EASY);
  return {
    kind: 'easy',
    title: `${best.title}, ${bpm} bpm`,
    why,
    opening: { kind: 'take', takeId: best.id, bpm },
  };
}

/**
 * Phrases by rig, worst first: of the last week, else of any time. Each by the graded takes of the day it was last played:
 * by their middle margin, and by the variation and measure that most of them found weakest.
 */
function standing(takes: readonly TakeSummary[], nowMs: number): readonly Judged[] {
  const lastDays = new Map<string, Judged[]>();
  for (const take of [...takes].sort((a, b) => (a.recordedAt < b.recordedAt ? -1 : 1))) {
    const weakest = take.graded?.weakest;
    // A remedy is a way to a phrase, not one to plan for.
    if (weakest === undefined || weakest === null || take.remedy !== '') continue;
    const key = `${take.phraseKey} ${take.rigId}`;
    const before = lastDays.get(key) ?? [];
    const isSameDay = before.at(-1)?.take.recordedAt.slice(0, 10) === take.recordedAt.slice(0, 10);
    const fewestBars = fewestIn(take.graded?.bars ?? []);
    lastDays.set(key, [...(isSameDay ? before : []), { take, ...weakest, fewestBars }]);
  }
  const all = [...lastDays.values()].map(judgedTogether);
  const sinceMs = nowMs - LAST_WEEK_DAYS * DAY_MS;
  const recent = all.filter(({ take }) => Date.parse(take.recordedAt) >= sinceMs);
  return (recent.length > 0 ? recent : all).sort((a, b) => a.margin - b.margin);
}

/** Takes of one day, oldest first: the newest take with what they found together. */
function judgedTogether(takes: readonly Judged[]): Judged {
  const newest = takes[takes.length - 1];
  const findings = new Map<string, Judged[]>();
  // Newest first: of as many, what was found last.
  for (const one of takes.toReversed()) {
    const key = `${one.variation} ${one.measure}`;
    findings.set(key, [...(findings.get(key) ?? []), one]);
  }
  const [found] = [...findings.values()].sort((a, b) => b.length - a.length)[0];
  const margin = median(distributionOf(takes.map((one) => one.margin))) ?? newest.margin;
  const { variation, measure } = found;
  const fewestBars = fewestIn(takes.flatMap(({ take }) => take.graded?.bars ?? []));
  return { take: newest.take, margin, variation, measure, fewestBars };
}

/** Bars of the variation that has fewest, at all tempi together. */
function fewestIn(rows: readonly BarsHeld[]): number {
  const byName = new Map<string, number>();
  for (const { variation, bars } of rows) byName.set(variation, (byName.get(variation) ?? 0) + bars);
  return Math.min(...byName.values());
}

/** A name as a sentence begins with it; sticking as it stands. */
function begun(name: string): string {
  return isSticking(name) ? name : capital(name);
}

function item(kind: Item['kind'], phrase: Phrase, name: string | null, bpm: Bpm, why: string): Item {
  return { kind, title: `${phrase.title}, ${bpm} bpm`, why, opening: { kind: 'phrase', phrase, name, bpm } };
}

const tempo = (bpm: number): Bpm => Math.max(SLOWEST_BPM, Math.round(bpm));
