import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { LastTake } from '../../state/takes';
import { fire } from '../shared/events';
import { look } from '../shared/look';

/**
 * The take just played, in a line: its sentence, and what becomes of it. A line to rest stands under it where one is due.
 * @fires action open last @fires action throw away @fires action put back @fires action annotate last {text}
 */
@customElement('evenhand-last-take')
export class LastTakeLine extends LitElement {
  @property({ attribute: false }) last: LastTake | null = null;
  @property() rest = '';

  static override styles = [
    look,
    css`
      .last {
        display: grid;
        grid-template-columns: minmax(280px, 1fr) auto;
        gap: 6px 24px;
        align-items: center;
      }
      /* Read from the stool. */
      .sentence {
        font-size: 24px;
        font-weight: 600;
        line-height: 1.25;
      }
      .do {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 18px;
        align-items: center;
      }
      input {
        width: 260px;
      }
      .rest {
        margin-top: 10px;
      }
      @media (max-width: 900px) {
        .last {
          grid-template-columns: 1fr;
        }
      }
    `,
  ];

  override render() {
    return html`${this.last === null ? nothing : this.#last(this.last)}
    ${this.rest === '' ? nothing : html`<p class="rest quiet" role="status">${this.rest}</p>`}`;
  }

  #last({ take, sentence, kept }: LastTake) {
    return html`<div class="last">
      <div>
        <p class="quiet">${kept ? lastWords(take) : 'Thrown away:'}</p>
        <p class="sentence">${sentence}</p>
      </div>
      <div class="do">
        ${
          kept
            ? html`<button class="plain" @click=${() => fire(this, { kind: 'open last' })}>
                  Open in Review
                </button>
                <button class="plain" @click=${() => fire(this, { kind: 'throw away' })}>Throw away</button>
                <input
                  type="text"
                  aria-label="Note on this take"
                  placeholder="A note on it"
                  .value=${take.notes}
                  @change=${(event: Event) => {
                    if (event.target instanceof HTMLInputElement)
                      fire(this, { kind: 'annotate last', text: event.target.value });
                  }}
                />`
            : html`<button class="plain" @click=${() => fire(this, { kind: 'put back' })}>
                Put it back
              </button>`
        }
      </div>
    </div>`;
  }
}

function lastWords({ cold, teacher }: LastTake['take']): string {
  if (teacher === true) return 'Last take, the teacher’s:';
  return cold === true ? 'Last take, cold:' : 'Last take:';
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-last-take': LastTakeLine;
  }
}
