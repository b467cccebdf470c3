import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { fire } from '../shared/events';
import { look } from '../shared/look';

/**
 * The player's own phrases: keep the chosen one under a name, take one up again, share one as a file.
 * @fires action save phrase {name} @fires action phrase {name} @fires action delete phrase {name} @fires action share phrase
 */
@customElement('evenhand-kept-phrases')
export class KeptPhrases extends LitElement {
  /** Names of the saved phrases, newest first. */
  @property({ attribute: false }) saved: readonly string[] = [];
  /** The name it would be saved under if none is typed. */
  @property() suggested = '';
  @property({ type: Boolean }) disabled = false;
  @state() private typed = '';

  static override styles = [
    look,
    css`
      .row {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 10px;
      }
      label {
        flex: 1 1 180px;
      }
      label span {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      input {
        width: 100%;
      }
      ul {
        margin: 12px 0 0;
        padding: 0;
        list-style: none;
      }
      li {
        display: flex;
        justify-content: space-between;
        gap: 16px;
        padding: 6px 0;
        border-top: 1px solid var(--line);
      }
      li button {
        text-align: left;
      }
    `,
  ];

  override render() {
    return html`
      <form
        class="row"
        @submit=${(event: Event) => {
          event.preventDefault();
          this.#save();
        }}
      >
        <label>
          <span>Keep this phrase as</span>
          <input
            type="text"
            .value=${this.typed}
            placeholder=${this.suggested}
            maxlength="80"
            @input=${(event: Event) => {
              if (event.target instanceof HTMLInputElement) this.typed = event.target.value;
            }}
          />
        </label>
        <button type="submit" ?disabled=${this.disabled}>Save</button>
        <button type="button" ?disabled=${this.disabled} @click=${() => fire(this, { kind: 'share phrase' })}>
          Download as a file
        </button>
      </form>
      ${
        this.saved.length === 0
          ? nothing
          : html`<ul aria-label="Saved phrases">
              ${this.saved.map(
                (name) =>
                  html`<li>
                    <button class="plain" @click=${() => fire(this, { kind: 'phrase', name })}>
                      ${name}
                    </button>
                    <button
                      class="plain quiet"
                      aria-label="Delete the phrase ${name}"
                      @click=${() => fire(this, { kind: 'delete phrase', name })}
                    >
                      Delete
                    </button>
                  </li>`,
              )}
            </ul>`
      }
    `;
  }

  #save(): void {
    const name = this.typed.trim() === '' ? this.suggested : this.typed.trim();
    this.typed = '';
    fire(this, { kind: 'save phrase', name });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-kept-phrases': KeptPhrases;
  }
}
