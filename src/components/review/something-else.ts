import { html, nothing, type TemplateResult } from 'lit';
import { choiceOf } from '../../grading/chosen';
import type { Report, Weakest } from '../../grading/types';
import { CHOSEN, ofItself } from '../../words/findings';
import { fire } from '../shared/events';

/** That what leads was chosen, what the report itself leads with, and the way back to it. */
export function chosenFirst(host: HTMLElement, { sentence }: Report): TemplateResult {
  return html`<p class="chosen">
    <strong>${CHOSEN}</strong> <span class="quiet">${ofItself(sentence)}</span>
    <button class="plain" @click=${() => fire(host, { kind: 'choose first', choice: null })}>
      Lead with that again
    </button>
  </p>`;
}

/** What else is out, each to be chosen to lead; nothing where nothing else is. */
export function somethingElse(
  host: HTMLElement,
  { others }: Report,
  lead: Weakest | undefined,
): TemplateResult | typeof nothing {
  const left = others.filter((one) => one !== lead);
  if (left.length === 0) return nothing;
  return html`<details class="else">
    <summary>Something else first</summary>
    <ul>
      ${left.map(
        (one) =>
          html`<li>
            <span>${one.sentence}</span>
            <button
              class="plain"
              aria-label="This first: ${one.sentence}"
              @click=${() => fire(host, { kind: 'choose first', choice: choiceOf(one) })}
            >
              This first
            </button>
          </li>`,
      )}
    </ul>
  </details>`;
}
