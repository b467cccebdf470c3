import { InputError } from '../errors';
import { feetText, type FootStroke } from './feet';
import { barSticking, partialsOfBeats } from './phrase';
import { stickingText } from './sticking';
import type { Note, PartialNotes, Phrase } from './types';

/**
 * Which surface a stroke goes to, as the `voicing` of a phrase says it. Keys: `R`, `L` a hand's strokes; `accents`,
 * `accentsR`, `accentsL` its accents, the narrower before the wider. Other keys mean nothing and are kept in files.
 * Values are names of surfaces, those of `surfaceNotes` or the player's own.
 */
type Voicing = Readonly<Record<string, string>>;

/** General MIDI notes of the surfaces the bundled voicings name (GM level 1 percussion map, channel 10). */
export const surfaceNotes: Readonly<Record<string, number>> = {
  'bass drum': 36,
  'side stick': 37,
  snare: 38,
  'hi-hat': 42,
  'floor tom': 43,
  'hi-hat foot': 44,
  'low tom': 45,
  'open hi-hat': 46,
  tom: 48,
  crash: 49,
  'high tom': 50,
  ride: 51,
  'ride bell': 53,
};

/** A way to take a phrase to the kit. */
interface BundledVoicing {
  readonly name: string;
  readonly voicing: Voicing;
  /** Under accents: a bass drum with each. Beats 1 and 3: a bass drum there. */
  readonly feet: 'none' | 'bass drum under accents' | 'bass drum on 1 and 3';
  /** Groove: the left hand's taps become ghost notes. Backbeat: so do its accents, save on beats 2 and 4, which get one. */
  readonly kinds: 'as they are' | 'groove' | 'backbeat';
  /** The pattern it is meant for, where it is meant for one. */
  readonly suits?: string;
}

/** Common practice, no source. */
export const bundledVoicings: readonly BundledVoicing[] = [
  {
    name: 'accents to toms',
    voicing: { R: 'snare', L: 'snare', accentsR: 'floor tom', accentsL: 'high tom' },
    feet: 'none',
    kinds: 'as they are',
  },
  {
    name: 'accents to crash with bass drum',
    voicing: { R: 'snare', L: 'snare', accents: 'crash' },
    feet: 'bass drum under accents',
    kinds: 'as they are',
  },
  {
    name: 'ghost-note groove with backbeat',
    voicing: { R: 'hi-hat', L: 'snare' },
    feet: 'bass drum on 1 and 3',
    kinds: 'backbeat',
    suits: 'Rlrr Lrll',
  },
  {
    name: 'groove with bass drum under accents',
    voicing: { R: 'hi-hat', L: 'snare' },
    feet: 'bass drum under accents',
    kinds: 'groove',
    suits: 'Rllr Lrrl',
  },
  { name: 'two surfaces', voicing: { R: 'floor tom', L: 'snare' }, feet: 'none', kinds: 'as they are' },
];

/**
 * The surface a stroke goes to; undefined where the voicing leaves it to the player.
 * @example surfaceOfNote({ R: 'snare', accents: 'crash' }, { hand: 'R', kind: 'accent' }) // => crash
 */
export function surfaceOfNote(voicing: Voicing, { hand, kind }: Note): string | undefined {
  const keys = kind === 'accent' ? [`accents${hand}`, 'accents', hand] : [hand];
  const key = keys.find((one) => Object.hasOwn(voicing, one));
  return key === undefined ? undefined : voicing[key];
}

/**
 * A phrase on the kit: with the voicing, its feet, and its kinds of stroke. Takes the place of a voicing and of feet
 * the phrase had.
 * @throws InputError for no such voicing, and for a bar that does not parse
 */
export function voiced(phrase: Phrase, name: string): Phrase {
  const found = bundledVoicings.find((bundled) => bundled.name === name.trim().toLowerCase());
  if (found === undefined) {
    throw new InputError(
      'voicing',
      `must be one of: ${bundledVoicings.map((one) => one.name).join(', ')}`,
      name,
    );
  }
  const bars = phrase.bars.map((bar, index) => {
    if (found.kinds === 'as they are') return bar;
    const beats = partialsOfBeats(phrase, bar);
    const backbeats = found.kinds === 'backbeat' ? startsOfBeats(beats, 1) : undefined;
    const sticking = barSticking(phrase, index).map((partial, at) =>
      grooved(partial, backbeats === undefined ? undefined : backbeats.has(at)),
    );
    return { ...bar, sticking: stickingText(sticking, beats) };
  });
  const kit: Omit<Phrase, 'feet'> & { feet?: string } = { ...phrase, bars, voicing: found.voicing };
  delete kit.feet;
  return found.feet === 'none' ? kit : { ...kit, feet: feetUnder(kit, found.feet) };
}

/** @param backbeat true on beats 2 and 4, false elsewhere, undefined where accents stay where they are */
function grooved(partial: PartialNotes, backbeat: boolean | undefined): PartialNotes {
  return {
    ...partial,
    notes: partial.notes.map((note) => {
      if (note.hand === 'R') return note;
      const accented = backbeat ?? note.kind === 'accent';
      return { ...note, kind: accented ? 'accent' : 'ghost' };
    }),
  };
}

/** Partials on which every second beat starts, from beat `first` (from 0) on. */
function startsOfBeats(partialsPerBeat: readonly number[], first: 0 | 1): ReadonlySet<number> {
  const starts = new Set<number>();
  partialsPerBeat.reduce((start, partials, beat) => {
    if (beat % 2 === first) starts.add(start);
    return start + partials;
  }, 0);
  return starts;
}

function feetUnder(phrase: Phrase, rule: 'bass drum under accents' | 'bass drum on 1 and 3'): string {
  const kick: readonly FootStroke[] = [{ foot: 'K', soft: false }];
  const line = phrase.bars.flatMap((bar, index) => {
    const onBeats = startsOfBeats(partialsOfBeats(phrase, bar), 0);
    return barSticking(phrase, index).map(({ notes }, partial) => {
      const struck =
        rule === 'bass drum on 1 and 3' ? onBeats.has(partial) : notes.some(({ kind }) => kind === 'accent');
      return struck ? kick : [];
    });
  });
  const text = line.map((strokes) => strokes.length);
  const period = text.findIndex(
    (_, length) =>
      length > 0 &&
      line.length % length === 0 &&
      text.every((strokes, partial) => strokes === text[partial % length]),
  );
  return feetText(period < 0 ? line : line.slice(0, period), partialsOfBeats(phrase, phrase.bars[0]));
}
