import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { UnkeptTake } from '../../state/unkept';
import { fire } from './events';
import { look } from './look';
import { capital, dayAndTime } from './numbers';

/**
 * What could not be kept in this browser, each take with its way out as a file; and that the running take is not being kept.
 * @fires action download take {id}
 */
@customElement('evenhand-unkept-takes')
export class UnkeptTakes extends LitElement {
  @property({ attribute: false }) takes: readonly UnkeptTake[] = [];
  /** Why the take that is running is not being kept; empty where it is. */
  @property() failing = '';
  /** True where the sentence stands beside it, or is not to be told yet. */
  @property({ type: Boolean }) brief = false;

  static override styles = [
    look,
    css`
      .unkept {
        display: flex;
        justify-content: space-between;
        align-items: center;
        gap: 8px 24px;
        padding: 10px 0 10px 16px;
        border-left: 6px solid var(--out);
        margin-top: 12px;
      }
      p {
        max-width: 75ch;
      }
      .now {
        max-width: none;
      }
      strong {
        color: var(--out);
      }
      button {
        flex: none;
      }
      @media (max-width: 600px) {
        .unkept {
          flex-direction: column;
        }
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  override render() {
    return html`<div role="status">
      ${
        this.failing === ''
          ? nothing
          : html`<div class="unkept">
              <p class="now">
                <strong>This take is not being kept</strong>: ${this.failing}. Play on: it is in memory.
              </p>
            </div>`
      }
      ${this.takes.map((one) => this.#unkept(one))}
    </div>`;
  }

  #unkept({ take, sentence, why, from }: UnkeptTake) {
    const { id, phrase, recordedAt } = take;
    return html`<div class="unkept">
      <p>
        <strong>Not kept</strong
        >${this.brief ? '.' : `: ${phrase.title}, ${dayAndTime(recordedAt)}. ${sentence}`}
        <span class="quiet">${capital(why)}. ${WHERE[from]}</span>
      </p>
      <button @click=${() => fire(this, { kind: 'download take', id })}>Download it</button>
    </div>`;
  }
}

const WHERE = {
  played:
    'The take is in this page’s memory alone: it is kept as soon as that can be, and lost when the page closes.',
  file: 'Your file still has it.',
} as const;

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-unkept-takes': UnkeptTakes;
  }
}
