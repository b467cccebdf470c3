import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { PageKeys } from '../shared/page-keys';
import { capital } from '../shared/numbers';

/**
 * Which bar was weakest? Asked before the sentence says it: the variations as plain choices, by press or by figure; `0` or
 * the last choice says that all hold. Escape skips.
 * @fires action guess {choice} @fires action skip guess
 */
@customElement('evenhand-guess-first')
export class GuessFirst extends LitElement {
  /** Names of the variations, in phrase order. */
  @property({ attribute: false }) variations: readonly string[] = [];

  static override styles = [
    look,
    css`
      h1 {
        margin: 4px 0 14px;
        font-size: 30px;
      }
      .choices {
        display: flex;
        flex-wrap: wrap;
        gap: 12px;
      }
      .skip {
        margin-top: 16px;
      }
      kbd {
        color: var(--quiet);
        font: inherit;
        font-weight: 400;
      }
    `,
  ];

  protected readonly keys = new PageKeys(this, (event) => {
    if (event.key === 'Escape') this.#skip();
    else if (event.key === '0') this.#guess(null);
    else {
      const choice = this.variations[Number(event.key) - 1];
      if (choice === undefined || event.key.length > 1) return;
      this.#guess(choice);
    }
    event.preventDefault();
  });

  override render() {
    return html`<h1>Which bar was weakest?</h1>
      <div class="choices">
        ${this.variations.map(
          (name, index) =>
            html`<button @click=${() => this.#guess(name)}>
              ${index < 9 ? html`<kbd>${index + 1}</kbd> ` : ''}${capital(name)}
            </button>`,
        )}
        <button @click=${() => this.#guess(null)}><kbd>0</kbd> None: all hold</button>
      </div>
      <p class="skip quiet">
        Answer by ear. <button class="plain quiet" @click=${() => this.#skip()}>Skip (Esc)</button>
      </p>`;
  }

  #guess(choice: string | null): void {
    fire(this, { kind: 'guess', choice });
  }

  #skip(): void {
    fire(this, { kind: 'skip guess' });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-guess-first': GuessFirst;
  }
}
