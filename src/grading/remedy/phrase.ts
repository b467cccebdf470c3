import { barSticking, partialsOfBeats } from '../../exercises/phrase';
import { stickingText } from '../../exercises/sticking';
import type { Phrase, PhraseBar, Sticking } from '../../exercises/types';
import { accentsOff, oneHand } from '../../exercises/variations';
import { otherHand, type Hand } from '../../stroke';
import { beatMs, type Bpm, type Ms } from '../../units';
import { listed } from '../../text';
import { alone, madeName, resting, type Making } from './made-bars';
import type { RemedyRule } from './rules';

/** Takes of a remedy are this long. */
const REMEDY_MS: Ms = 30_000;

/** What a remedy's phrase is made from. */
interface RemedyPlan {
  readonly rule: RemedyRule;
  /** Name of the variation to work on, and of the best one. */
  readonly weak: string;
  readonly best: string;
  /** The hand that is at fault; left out where both or neither are. */
  readonly hand?: Hand;
  /** Variations to be worked on, where they are several; empty for the whole phrase. */
  readonly variations: readonly string[];
  readonly bpm: Bpm;
}

/**
 * The phrase of a remedy, as many cycles as 30 s hold, two at least: made from bars of the take's phrase. Feet rest.
 * @returns undefined where the phrase has no bar to play of that name
 */
export function remedyPhrase(phrase: Phrase, plan: RemedyPlan): Phrase | undefined {
  const index = barNamed(phrase, plan.weak);
  if (index < 0) return undefined;
  const isOne = isOfOne(plan);
  const bars = isOne ? barsOf(phrase, index, plan) : severalBars(phrase, plan);
  const { beatsPerBar, partialsPerBeat, swing, voicing } = phrase;
  const made: Phrase = {
    title: titleOf(plan),
    beatsPerBar,
    partialsPerBeat,
    cycles: 1,
    bars,
    ...(swing === undefined ? {} : { swing }),
    ...(voicing === undefined ? {} : { voicing }),
  };
  return { ...made, cycles: Math.max(isOne ? 2 : 1, Math.ceil(REMEDY_MS / lengthMs(made, plan.bpm))) };
}

/** True where one bar is worked on; a change from bar to bar is of the whole phrase. */
const isOfOne = ({ variations }: RemedyPlan): boolean => variations.length === 1;

/** Length of a phrase's one cycle. */
function lengthMs(phrase: Phrase, bpm: Bpm): Ms {
  const beats = phrase.bars.reduce((sum, bar) => sum + (bar.beatsPerBar ?? phrase.beatsPerBar), 0);
  return beats * beatMs(bpm);
}

/** Bars of one of the phrase's variations that a remedy plays as written after the one without accents. */
const AS_WRITTEN = 3;

function barsOf(phrase: Phrase, index: number, { rule, best, hand, bpm }: RemedyPlan): PhraseBar[] {
  const { bar, sticking, partials, made } = barToChange(phrase, index);
  const plain = made('accents off', accentsOff(sticking));
  const byItself = (one: Hand): PhraseBar => made(alone(one), oneHand(sticking, one));
  switch (rule) {
    case 'accents off':
      return [plain];
    case 'that bar alone':
      return [plain, ...Array.from({ length: AS_WRITTEN }, () => bar)];
    case 'accenting hand alone':
      return hand === undefined
        ? [byItself('R'), byItself('L'), bar]
        : [made('accents off', oneHand(accentsOff(sticking), hand)), byItself(hand), byItself(hand), bar];
    case 'other hand resting':
      return [plain, made(resting(hand), restingOnAccents(sticking, partials, hand)), bar, bar];
    case 'slower':
      return aroundIt(phrase, index, bpm);
    case 'in turn': {
      const other = barNamed(phrase, best);
      return [phrase.bars[other < 0 ? index : other], phrase.bars[index]];
    }
  }
}

/** A bar of the phrase, and how one is made from it. */
function barToChange(phrase: Phrase, index: number) {
  const { variation, sticking: written, beatsPerBar, partialsPerBeat } = phrase.bars[index];
  const bar: PhraseBar = {
    variation,
    sticking: written,
    ...(beatsPerBar === undefined ? {} : { beatsPerBar }),
    ...(partialsPerBeat === undefined ? {} : { partialsPerBeat }),
  };
  const partials = partialsOfBeats(phrase, phrase.bars[index]);
  const made = (making: Making, changed: Sticking): PhraseBar => ({
    ...bar,
    variation: madeName(variation, making),
    sticking: stickingText(changed, partials),
  });
  return { bar, sticking: barSticking(phrase, index), partials, made };
}

/** Several bars or the whole phrase, changed by the rule where it changes anything, then as written. */
function severalBars(phrase: Phrase, { rule, hand, variations }: RemedyPlan): PhraseBar[] {
  const toPlay = phrase.bars.flatMap(({ variation, role = 'play' }, index) => {
    const isWanted = variations.length === 0 || variations.includes(variation);
    return role === 'play' && isWanted ? [barToChange(phrase, index)] : [];
  });
  const written = toPlay.map(({ bar }) => bar);
  const byItself = (one: Hand): PhraseBar[] =>
    toPlay.map(({ sticking, made }) => made(alone(one), oneHand(sticking, one)));
  const plain = toPlay.map(({ sticking, made }) => made('accents off', accentsOff(sticking)));
  switch (rule) {
    case 'accents off':
      return plain;
    case 'accenting hand alone':
      return [...(hand === undefined ? [...byItself('R'), ...byItself('L')] : byItself(hand)), ...written];
    case 'other hand resting':
      return [
        ...toPlay.map(({ sticking, partials, made }) =>
          made(resting(hand), restingOnAccents(sticking, partials, hand)),
        ),
        ...written,
      ];
    case 'that bar alone':
      return [...plain.slice(0, 1), ...written];
    case 'slower':
    case 'in turn':
      return written;
  }
}

/** Whole where two cycles fit into 30 s; else the bar between its neighbours. */
function aroundIt(phrase: Phrase, index: number, bpm: Bpm): PhraseBar[] {
  const n = phrase.bars.length;
  if (n <= AS_WRITTEN || 2 * lengthMs(phrase, bpm) <= REMEDY_MS) return [...phrase.bars];
  return [-1, 0, 1].map((step) => phrase.bars[(index + step + n) % n]);
}

/** The hand's strokes (both hands' where none is named) become rests in the beats that the other hand accents. */
function restingOnAccents(sticking: Sticking, partials: readonly number[], hand: Hand | undefined): Sticking {
  const changed = [...sticking];
  let from = 0;
  for (const count of partials) {
    const beat = sticking.slice(from, from + count);
    for (const accenting of ['R', 'L'] as const) {
      if (hand !== undefined && otherHand(hand) !== accenting) continue;
      const accents = beat.some(({ notes }) =>
        notes.some((note) => note.hand === accenting && note.kind === 'accent'),
      );
      if (!accents) continue;
      for (let i = from; i < from + count; i++) changed[i] = withoutTaps(changed[i], otherHand(accenting));
    }
    from += count;
  }
  return changed;
}

/** A partial without a hand's taps; its accents stay. */
function withoutTaps({ notes, graces }: Sticking[number], hand: Hand): Sticking[number] {
  const left = notes.filter((note) => note.hand !== hand || note.kind === 'accent');
  return { notes: left, graces: left.length === 0 ? [] : graces };
}

function barNamed({ bars }: Phrase, name: string): number {
  return bars.findIndex(({ variation, role }) => variation === name && (role ?? 'play') === 'play');
}

function titleOf(plan: RemedyPlan): string {
  const { rule, best, hand, variations } = plan;
  const isOne = isOfOne(plan);
  const weak = isOne ? plan.weak : variations.length === 0 ? 'The whole phrase' : listed(variations);
  if (!isOne && (rule === 'that bar alone' || rule === 'in turn')) return weak;
  switch (rule) {
    case 'accents off':
      return madeName(weak, rule);
    case 'that bar alone':
      return `${weak}, alone`;
    case 'accenting hand alone':
      return hand === undefined ? `${weak}, each hand alone` : madeName(weak, alone(hand));
    case 'other hand resting':
      return madeName(weak, resting(hand));
    case 'slower':
      return `${weak}, slower`;
    case 'in turn':
      return `${best} and ${weak} in turn`;
  }
}
