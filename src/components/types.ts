import type { Bpm } from '../units';

/** Where strokes may come from: a MIDI port, or a bundled take that a model player plays. */
export interface InputChoice {
  readonly id: string;
  readonly name: string;
  readonly kind: 'midi' | 'take';
}

/** Where the click may sound: this computer's sound, or a MIDI output of the kit. */
export interface OutputChoice {
  readonly id: string;
  readonly name: string;
}

/** A take that can be opened: saved here, or bundled and played by the model player. */
export interface TakeChoice {
  readonly id: string;
  /** ISO 8601. */
  readonly recordedAt: string;
  readonly title: string;
  readonly bpm: Bpm | null;
  readonly sentence: string;
}

/** The one number being worked on. `value` is null before there is one. */
export interface LiveFigure {
  readonly value: number | null;
  readonly unit: string;
  readonly words: string;
  readonly aim: string;
}

/** Median and spread (1.4826·MAD) of one hand's strokes in a row of a picture. */
export interface ChartPoint {
  readonly median: number;
  readonly spread: number;
  readonly n: number;
  /** True for what the sentence is about: drawn in the colour of what is out, and heavier. */
  readonly out: boolean;
}

export interface ChartRow {
  readonly label: string;
  readonly R: ChartPoint | null;
  readonly L: ChartPoint | null;
}

/** One picture, chosen by the reason. `title` says the finding. */
export interface ChartPicture {
  readonly title: string;
  readonly of: string;
  readonly unit: 'dB' | 'ms';
  /** A row a stroke of the bar, with one hand each; else a row a kind of stroke, with both hands. */
  readonly byPlace: boolean;
  readonly rows: readonly ChartRow[];
}
