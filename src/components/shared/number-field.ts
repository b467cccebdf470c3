import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { InputError } from '../../errors';
import { fireParent } from './events';
import { look } from './look';

/**
 * A number by typing, by the arrow keys (with shift in steps of ten) or by its two buttons. What is typed is checked when it is
 * entered: a bad number is left standing with its rule beside it, and nothing is fired.
 * @fires number {value} a checked number
 */
@customElement('evenhand-number-field')
export class NumberField extends LitElement {
  @property() label = '';
  /** What a screen reader calls it where no label is to be seen. */
  @property() name = '';
  @property() unit = '';
  @property({ type: Number }) value = 0;
  /** Range the arrows stay in; what typed numbers must keep to is the rule's business. */
  @property({ type: Number }) least = 0;
  @property({ type: Number }) most = 1;
  /** What one press of an arrow or button adds. */
  @property({ type: Number }) step = 1;
  /** Gives the number back, or throws InputError with the rule. */
  @property({ attribute: false }) rule: (value: number) => number = (value) => value;
  /** What is being typed, until it is entered; null where the value stands. */
  @state() private typed: string | null = null;
  @state() private error = '';

  static override styles = [
    look,
    css`
      label {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      .field {
        display: flex;
        align-items: center;
        gap: 6px;
      }
      input {
        width: 4.6em;
        font-size: 21px;
        font-weight: 600;
        text-align: right;
      }
      button {
        width: 44px;
        padding: 0;
        border: 1px solid var(--quiet);
        font-size: 21px;
      }
      .error {
        max-width: 17em;
        margin-top: 4px;
        color: var(--out);
        font-size: 15px;
        font-weight: 600;
      }
    `,
  ];

  override willUpdate(changed: Map<PropertyKey, unknown>): void {
    if (!changed.has('value')) return;
    this.typed = null;
    this.error = '';
  }

  override render() {
    const bad = this.error !== '';
    return html`
      <label for="number" class=${this.label === '' ? 'heard' : ''}>${this.label || this.name}</label>
      <div class="field">
        <button tabindex="-1" aria-label="${this.label || this.name} down" @click=${() => this.#step(-1)}>
          −
        </button>
        <input
          id="number"
          type="text"
          inputmode="decimal"
          autocomplete="off"
          role="spinbutton"
          aria-valuenow=${this.value}
          aria-valuemin=${this.least}
          aria-valuemax=${this.most}
          aria-valuetext="${this.value} ${this.unit}"
          aria-invalid=${bad ? 'true' : nothing}
          aria-describedby=${bad ? 'error' : nothing}
          .value=${this.typed ?? String(this.value)}
          @input=${this.#type}
          @change=${this.#enter}
          @keydown=${this.#key}
        />
        <button tabindex="-1" aria-label="${this.label || this.name} up" @click=${() => this.#step(1)}>
          +
        </button>
        <span class="quiet">${this.unit}</span>
      </div>
      ${bad ? html`<p class="error" id="error" role="alert">${this.error}</p>` : nothing}
    `;
  }

  #type(event: Event): void {
    if (event.target instanceof HTMLInputElement) this.typed = event.target.value;
  }

  #key(event: KeyboardEvent): void {
    const steps = event.shiftKey ? 10 : 1;
    if (event.key === 'ArrowUp') this.#step(steps);
    else if (event.key === 'ArrowDown') this.#step(-steps);
    else if (event.key === 'Escape') this.#take(this.value);
    else return;
    event.preventDefault();
  }

  #step(by: number): void {
    this.#take(Math.min(this.most, Math.max(this.least, Math.round(this.value) + by * this.step)));
  }

  #enter(): void {
    const text = (this.typed ?? String(this.value)).trim().replace(',', '.');
    this.#take(text === '' ? Number.NaN : Number(text));
  }

  #take(value: number): void {
    try {
      const checked = this.rule(value);
      this.typed = null;
      this.error = '';
      if (checked !== this.value) fireParent(this, 'number', { value: checked });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.error = error.message;
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-number-field': NumberField;
  }
}
