/**
 * Sends a command up: the only way an element says anything. Crosses shadow roots and bubbles to `main.ts`.
 * Native names that bubble by themselves (`input`, `change`) are never used.
 */
export function tell<Detail>(from: HTMLElement, name: string, detail?: Detail): void {
  from.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
}

/** What the elements fire, by name, with their details. */
export interface EvenhandEvents {
  go: { readonly screen: Screen };
  files: { readonly files: readonly File[] };
  dismiss: undefined;
  phrase: { readonly name: string };
  sticking: { readonly text: string };
  build: { readonly change: Partial<import('../practice/phrase-choice').Build> };
  bars: { readonly partialsPerBeat?: number; readonly beatsPerBar?: number };
  'save-phrase': { readonly name: string };
  'open-phrase': { readonly name: string };
  'delete-phrase': { readonly name: string };
  'share-phrase': undefined;
  tempo: { readonly bpm: number };
  cycles: { readonly cycles: number };
  limits: { readonly limits: import('../settings').Limits };
  play: undefined;
  hear: { readonly hand: 'both' | 'R' | 'L'; readonly speed: 'full' | 'half' };
  'hear-stop': undefined;
  sheet: undefined;
  'sheet-close': undefined;
  connect: undefined;
  'choose-input': { readonly id: string };
  'choose-click': { readonly id: string };
  'strike-anew': undefined;
  start: undefined;
  stop: undefined;
  download: { readonly id: string };
  'play-again': { readonly id: string };
  'open-take': { readonly id: string };
  'delete-take': { readonly id: string };
}

export type Screen = 'phrase' | 'play' | 'review';
