import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { blindWords } from '../../grading/apart/words';
import { blindScore, nextBlind, type Listening } from '../../grading/apart/listen-blind';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { PageKeys } from '../shared/page-keys';
import { capital } from '../shared/numbers';

/**
 * A round of listening: bars of the take by their real levels and times, in random order; the listener names the
 * variation by press or figure. Space sounds the bar again, Escape ends the round.
 * @fires action blind answer {answer} @fires action blind again @fires action stop listening
 */
@customElement('evenhand-listen-blind')
export class ListenBlind extends LitElement {
  @property({ attribute: false }) listening: Listening | null = null;

  static override styles = [
    look,
    css`
      .choices {
        display: flex;
        flex-wrap: wrap;
        gap: 12px;
        margin: 12px 0;
      }
      kbd {
        color: var(--quiet);
        font: inherit;
        font-weight: 400;
      }
    `,
  ];

  protected readonly keys = new PageKeys(this, (event) => {
    if (this.listening === null) return;
    const choice = /^[1-9]$/.test(event.key) ? this.listening.choices[Number(event.key) - 1] : undefined;
    if (event.key === 'Escape') fire(this, { kind: 'stop listening' });
    else if (event.key === ' ') fire(this, { kind: 'blind again' });
    else if (choice !== undefined) fire(this, { kind: 'blind answer', answer: choice });
    else return;
    event.preventDefault();
  });

  override render() {
    if (this.listening === null) return nothing;
    const { choices, bars, answers } = this.listening;
    const over = nextBlind(this.listening) === undefined;
    return html`<h2>Listen blind</h2>
      ${
        over
          ? nothing
          : html`<p>
                Bar ${answers.length + 1} of ${bars.length}:
                ${bars.some(({ take }) => take > 0) ? 'which take is it' : 'which is it'}?
              </p>
              <div class="choices">
                ${choices.map(
                  (answer, index) =>
                    html`<button @click=${() => fire(this, { kind: 'blind answer', answer })}>
                      ${index < 9 ? html`<kbd>${index + 1}</kbd> ` : nothing}${capital(answer)}
                    </button>`,
                )}
              </div>`
      }
      <p role="status">${over || answers.length > 0 ? blindWords(blindScore(this.listening)) : nothing}</p>
      <p class="quiet">
        ${over ? nothing : html`<button class="plain" @click=${() => fire(this, { kind: 'blind again' })}>Hear it again (space)</button>`}
        <button class="plain" @click=${() => fire(this, { kind: 'stop listening' })}>
          ${over ? 'Close' : 'End the round (Esc)'}
        </button>
      </p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-listen-blind': ListenBlind;
  }
}
