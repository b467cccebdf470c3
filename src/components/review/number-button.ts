import { html, type TemplateResult } from 'lit';
import type { NumberAsked } from '../../insight/strokes-behind';
import type { NamedFigure } from '../../grading/named-figures';

/** What is done when a number is pressed. */
export type Ask = (asked: NumberAsked) => void;

/** A number that opens the strokes it was made from. */
export function numberButton(words: string, of: string, press: () => void): TemplateResult {
  return html`<button class="number-button" aria-description="${of}: show its strokes" @click=${press}>
    ${words}
  </button>`;
}

/** A figure as what is asked for. */
export function numberAsked({ key, figure }: NamedFigure, of: NumberAsked['of']): NumberAsked {
  return { measure: key, of, ...(figure.hand === undefined ? {} : { hand: figure.hand }) };
}
