import { InputError } from '../errors';
import { bundledPhrases } from '../exercises/phrase';
import { checkedBpm } from '../exercises/tempo';
import type { Grid } from '../exercises/types';
import type { Report } from '../grading/types';
import { rigFromStrikes } from '../midi/rig';
import type { MidiStatus } from '../midi/types';
import type { Rig, Take } from '../sessions/types';
import type { Limits } from '../settings';
import type { RawHit } from '../stroke';
import type { Bpm, Db } from '../units';
import type { PhraseFile } from '../sessions/phrase-file';
import {
  builtAnew,
  chosen,
  chosenByName,
  inBarsOf,
  typedIn,
  type Build,
  type PhraseChoice,
} from './phrase-choice';
import type { TakePlan } from './run-take';
import type { LiveState, Position, Strikes } from './types';

export type Screen = 'phrase' | 'play' | 'review';

/** A take kept in this browser, as the list shows it. */
export interface KeptTake {
  readonly id: string;
  readonly recordedAt: string;
  readonly title: string;
  readonly bpm: Bpm | null;
  readonly sentence: string;
}

/** A take that comes with the app, played by the model player; `take` is null until it was asked for. */
export interface BundledTake {
  readonly name: string;
  /** What is to be seen in it, in words. */
  readonly words: string;
  readonly title: string;
  readonly bpm: Bpm;
  readonly sentence: string;
  readonly take: Take | null;
}

/** What is being played. */
export interface Running {
  readonly grid: Grid;
  readonly takeId: string;
}

/** All that the page shows. Streams, sound and storage live elsewhere; this is what they have said so far. */
export interface Sitting extends PhraseChoice {
  readonly screen: Screen;
  /** Phrases the player saved, newest first. */
  readonly saved: readonly PhraseFile[];
  readonly bpm: Bpm;
  readonly limits: Limits;
  readonly midi: MidiStatus;
  /** Name of a MIDI port, `take:NAME` for a bundled take, empty for none. */
  readonly input: string;
  /** Empty for the computer's sound, else the id of a MIDI output. */
  readonly output: string;
  readonly strikes: Strikes;
  /** The rig made from the strikes, kept from last time where it still fits the input. */
  readonly rig: Rig | null;
  readonly running: Running | null;
  readonly live: LiveState | null;
  /** The one number, contrast of the last two cycles in dB: renewed with each beat, so that it can be read. */
  readonly contrastDb: Db | null;
  readonly position: Position | null;
  readonly reviewed: { readonly take: Take; readonly report: Report } | null;
  readonly kept: readonly KeptTake[];
  readonly bundled: readonly BundledTake[];
  /** True while the phrase is sounded. */
  readonly hearing: boolean;
  /** True while the phrase is shown as a sheet to print. */
  readonly sheetOpen: boolean;
  readonly message: string;
  readonly problem: string;
}

/** What may happen in a sitting: commands of the player, and news from the streams. */
export type Said =
  | { readonly kind: 'go'; readonly screen: Screen }
  | { readonly kind: 'phrase'; readonly name: string }
  | { readonly kind: 'typed'; readonly text: string }
  | { readonly kind: 'build'; readonly change: Partial<Build> }
  | {
      readonly kind: 'bars';
      readonly change: { readonly partialsPerBeat?: number; readonly beatsPerBar?: number };
    }
  | { readonly kind: 'saved'; readonly saved: readonly PhraseFile[] }
  | { readonly kind: 'open phrase'; readonly file: PhraseFile }
  | { readonly kind: 'tempo'; readonly bpm: number }
  | { readonly kind: 'cycles'; readonly cycles: number }
  | { readonly kind: 'limits'; readonly limits: Limits }
  | { readonly kind: 'midi'; readonly status: MidiStatus }
  | { readonly kind: 'input'; readonly input: string }
  | { readonly kind: 'output'; readonly output: string }
  | { readonly kind: 'struck'; readonly hit: RawHit }
  | { readonly kind: 'strike anew' }
  | { readonly kind: 'rig'; readonly rig: Rig }
  | { readonly kind: 'started'; readonly running: Running }
  | { readonly kind: 'live'; readonly live: LiveState }
  | { readonly kind: 'position'; readonly position: Position }
  | { readonly kind: 'ended'; readonly message: string }
  | { readonly kind: 'reviewed'; readonly take: Take; readonly report: Report }
  | { readonly kind: 'again'; readonly take: Take }
  | { readonly kind: 'kept'; readonly kept: readonly KeptTake[] }
  | { readonly kind: 'bundled'; readonly name: string; readonly take: Take }
  | { readonly kind: 'hearing'; readonly hearing: boolean }
  | { readonly kind: 'sheet'; readonly open: boolean }
  | { readonly kind: 'message'; readonly message: string }
  | { readonly kind: 'problem'; readonly problem: string };

/** Two strikes closer than this are one hand's bounce, not the other hand. */
const STRIKE_REST_MS = 150;
const noStrikes: Strikes = { first: null, second: null, firstHand: 'R' };
const PRACTICE_BPM: Bpm = 84;

export const firstSitting: Sitting = {
  ...chosen(bundledPhrases[0].phrase, bundledPhrases[0].name),
  screen: 'phrase',
  saved: [],
  bpm: PRACTICE_BPM,
  limits: 'working',
  midi: { kind: 'off' },
  input: '',
  output: '',
  strikes: noStrikes,
  rig: null,
  running: null,
  live: null,
  contrastDb: null,
  position: null,
  reviewed: null,
  kept: [],
  bundled: [],
  hearing: false,
  sheetOpen: false,
  message: '',
  problem: '',
};

/** The sitting after something was said. Bad input becomes the problem line and changes nothing else. */
export function next(sitting: Sitting, said: Said): Sitting {
  try {
    return heard(sitting, said);
  } catch (error) {
    if (error instanceof InputError) return { ...sitting, problem: error.message };
    throw error;
  }
}

function heard(sitting: Sitting, said: Said): Sitting {
  switch (said.kind) {
    case 'go':
      return { ...sitting, screen: said.screen, sheetOpen: false, problem: '', message: '' };
    case 'phrase':
      return withChoice(ownInput(sitting), namedChoice(sitting, said.name));
    case 'typed':
      return withChoice(ownInput(sitting), typedIn(sitting, said.text));
    case 'build':
      return withChoice(ownInput(sitting), builtAnew(sitting, said.change));
    case 'bars':
      return withChoice(ownInput(sitting), inBarsOf(sitting, said.change));
    case 'saved':
      return { ...sitting, saved: said.saved };
    case 'open phrase':
      return {
        ...withChoice(ownInput(sitting), chosen(said.file.phrase, said.file.name)),
        bpm: said.file.bpm,
        screen: 'phrase',
      };
    case 'tempo':
      return { ...ownInput(sitting), bpm: checkedBpm(said.bpm, 'Tempo'), problem: '' };
    case 'cycles':
      return { ...sitting, phrase: { ...sitting.phrase, cycles: checkedCycles(said.cycles) }, problem: '' };
    case 'limits':
      return { ...sitting, limits: said.limits };
    case 'midi':
      return withMidi(sitting, said.status);
    case 'input':
      return withInput(sitting, said.input);
    case 'output':
      return { ...sitting, output: said.output };
    case 'struck':
      return withStrike(sitting, said.hit);
    case 'strike anew':
      return { ...sitting, strikes: noStrikes, rig: null };
    case 'rig':
      return { ...sitting, rig: said.rig };
    case 'started':
      return {
        ...sitting,
        running: said.running,
        live: null,
        contrastDb: null,
        position: null,
        message: '',
        problem: '',
      };
    case 'live':
      return { ...sitting, live: said.live };
    case 'position':
      return { ...sitting, position: said.position, contrastDb: sitting.live?.contrastDb ?? null };
    case 'ended':
      return { ...sitting, running: null, position: null, message: said.message };
    case 'reviewed':
      return {
        ...sitting,
        reviewed: { take: said.take, report: said.report },
        screen: 'review',
        problem: '',
      };
    case 'again':
      return againWith(sitting, said.take);
    case 'kept':
      return { ...sitting, kept: said.kept };
    case 'bundled':
      return { ...sitting, bundled: withTake(sitting.bundled, said.name, said.take) };
    case 'hearing':
      return { ...sitting, hearing: said.hearing };
    case 'sheet':
      return { ...sitting, sheetOpen: said.open };
    case 'message':
      return { ...sitting, message: said.message };
    case 'problem':
      return { ...sitting, problem: said.problem };
  }
}

const TAKE_INPUT = 'take:';
export const inputOfTake = (name: string): string => `${TAKE_INPUT}${name}`;
/** Name of the bundled take that an input is, undefined for a MIDI port. */
export const bundledNameOf = (input: string): string | undefined =>
  input.startsWith(TAKE_INPUT) ? input.slice(TAKE_INPUT.length) : undefined;

/** The bundled take that is chosen as the input, or undefined where a MIDI port is, or nothing. */
export function takeAsInput(sitting: Pick<Sitting, 'bundled' | 'input'>): Take | undefined {
  return sitting.bundled.find(({ name }) => inputOfTake(name) === sitting.input)?.take ?? undefined;
}

/** What the chosen input is played on: a bundled take's own rig, or the one struck. Null: strike first. */
export function rigInUse(sitting: Pick<Sitting, 'bundled' | 'input' | 'rig'>): Rig | null {
  const take = takeAsInput(sitting);
  if (take !== undefined) return take.rig;
  const { rig, input } = sitting;
  return rig?.surfaces.some((surface) => surface.port === input) === true ? rig : null;
}

/** The take about to be played. A bundled take's strokes stay the model player's, whoever pressed Start. */
export function planOf(sitting: Sitting, rig: Rig, stamp: { id: string; recordedAt: string }): TakePlan {
  const { phrase, bpm, limits } = sitting;
  const source = takeAsInput(sitting);
  return {
    format: 'evenhand-take',
    version: 1,
    ...stamp,
    player: source?.player ?? '',
    source: source === undefined ? 'played' : 'model',
    phrase,
    tempo: { bpm },
    click: 'on',
    limits,
    settings: source?.settings ?? {},
    rig,
    notes: source?.notes ?? '',
  };
}

/** The strikes as Play asks for them: none for a bundled take, the kept rig's where it was struck another day. */
export function strikesAsked(
  sitting: Pick<Sitting, 'bundled' | 'input' | 'rig' | 'strikes'>,
): Strikes | null {
  if (takeAsInput(sitting) !== undefined) return null;
  const rig = rigInUse(sitting);
  if (rig === null || sitting.strikes.second !== null) return sitting.strikes;
  const strikes = rig.surfaces.map((surface): RawHit => ({
    ...surface,
    atMs: 0,
    note: surface.notes[0],
    velocity: 64,
  }));
  return { first: strikes[0], second: strikes[strikes.length - 1], firstHand: rig.surfaces[0].hand ?? 'R' };
}

function withTake(bundled: readonly BundledTake[], name: string, take: Take): readonly BundledTake[] {
  return bundled.map((one) => (one.name === name ? { ...one, take } : one));
}

/** Another phrase on the desk: what was shown of the one before is gone. */
function withChoice(sitting: Sitting, choice: PhraseChoice): Sitting {
  const { phraseName, phrase, typed, typedError, partialsPerBeat, beatsPerBar, pattern, build } = choice;
  return {
    ...sitting,
    phraseName,
    phrase,
    typed,
    typedError,
    partialsPerBeat,
    beatsPerBar,
    pattern,
    build,
    live: null,
    problem: '',
  };
}

/** A saved phrase goes before a bundled one of the same name. */
function namedChoice({ saved, phrase }: Sitting, name: string): PhraseChoice {
  const own = saved.find((file) => file.name === name);
  return own === undefined ? chosenByName(name, phrase.cycles) : chosen(own.phrase, name);
}

function checkedCycles(cycles: number): number {
  if (!Number.isInteger(cycles) || cycles < 1 || cycles > 999) {
    throw new InputError('Cycles', 'must be a whole number from 1 to 999', cycles);
  }
  return cycles;
}

/** A phrase or tempo of one's own is not what a bundled take plays: the input goes back to the kit. */
function ownInput(sitting: Sitting): Sitting {
  return takeAsInput(sitting) === undefined ? sitting : { ...sitting, input: firstPort(sitting.midi) };
}

function firstPort(midi: MidiStatus): string {
  return midi.kind === 'on' ? (midi.inputs.find((port) => port.connected)?.name ?? '') : '';
}

function withMidi(sitting: Sitting, midi: MidiStatus): Sitting {
  const input = sitting.input === '' ? firstPort(midi) : sitting.input;
  return {
    ...sitting,
    midi,
    input,
    message: sitting.running === null ? sitting.message : portWords(midi, input),
  };
}

/** What a player must know of the port while playing; empty where all is well. */
function portWords(midi: MidiStatus, input: string): string {
  if (bundledNameOf(input) !== undefined) return '';
  const there = midi.kind === 'on' && midi.inputs.some(({ name, connected }) => name === input && connected);
  return there ? '' : `${input} is not connected. The take goes on; strokes count again when it is back.`;
}

function withInput(sitting: Sitting, input: string): Sitting {
  const chosen = { ...sitting, input, live: null, problem: '' };
  const take = takeAsInput(chosen);
  return take === undefined ? chosen : withTakeOf(chosen, take);
}

/** Phrase, tempo and limits as a take has them. */
function withTakeOf(sitting: Sitting, take: Take): Sitting {
  const bundled = bundledPhrases.find(({ phrase }) => phrase.title === take.phrase.title);
  return {
    ...withChoice(sitting, chosen(take.phrase, bundled?.name ?? null)),
    bpm: 'bpm' in take.tempo ? take.tempo.bpm : sitting.bpm,
    limits: take.limits,
  };
}

function againWith(sitting: Sitting, take: Take): Sitting {
  return { ...withTakeOf(ownInput(sitting), take), screen: 'play', live: null };
}

/** Strikes count on Play, before a take, from the chosen port. */
function withStrike(sitting: Sitting, hit: RawHit): Sitting {
  const { strikes } = sitting;
  const asked = sitting.screen === 'play' && sitting.running === null && rigInUse(sitting) === null;
  if (!asked || hit.port !== sitting.input) return sitting;
  if (strikes.first === null) return { ...sitting, strikes: { ...strikes, first: hit } };
  if (hit.atMs - strikes.first.atMs < STRIKE_REST_MS) return sitting;
  const both = { ...strikes, second: hit };
  return { ...sitting, strikes: both, rig: rigFromStrikes(both) ?? null };
}
