import { html, type TemplateResult } from 'lit';
import type { NumberAsked } from '../../insight/strokes-behind';

/** What is done when a number is pressed. */
export type Ask = (asked: NumberAsked) => void;

/** A number that opens the strokes it was made from. */
export function numberButton(words: string, of: string, press: () => void): TemplateResult {
  return html`<button class="number-button" aria-description="${of}: show its strokes" @click=${press}>
    ${words}
  </button>`;
}
