import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { figureNames } from '../practice/room/figures';
import { plainView, type FigureChoice, type ViewOptions } from '../practice/sitting/room';
import { tell } from './events';
import { figureTitles } from './figure-words';
import { look } from './look';

/**
 * What the bar view shows: the one number, early and late, the hands mirrored, numbers at all; and the way to the far view.
 * @fires choose-figure {figure} the one number, or `report`: what the last report found weakest
 * @fires view {change} what is shown
 */
@customElement('evenhand-room-options')
export class RoomOptions extends LitElement {
  @property({ attribute: false }) figure: FigureChoice = 'report';
  @property({ attribute: false }) view: ViewOptions = plainView;

  static override styles = [
    look,
    css`
      .options {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 6px 24px;
      }
      .label {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      .tick {
        display: flex;
        align-items: center;
        gap: 8px;
        min-height: 44px;
      }
      input {
        width: 20px;
        height: 20px;
        min-height: 0;
        accent-color: var(--ink);
      }
      a {
        color: inherit;
        line-height: 44px;
        text-underline-offset: 4px;
      }
    `,
  ];

  override render() {
    const option = (value: FigureChoice, words: string) =>
      html`<option value=${value} ?selected=${value === this.figure}>${words}</option>`;
    return html`<div class="options">
      <label>
        <span class="label">One number</span>
        <select .value=${this.figure} @change=${this.#chosen}>
          ${option('report', 'As the last report asks')}
          ${figureNames.map((name) => option(name, figureTitles[name]))}
        </select>
      </label>
      ${this.#tick('timing', 'Early and late')} ${this.#tick('mirrored', 'Hands mirrored')}
      ${this.#tick('numbers', 'Numbers')}
      <a href="?far" target="evenhand-far">Open the far view</a>
    </div>`;
  }

  #tick(name: keyof ViewOptions, words: string) {
    const changed = (event: Event): void => {
      if (event.target instanceof HTMLInputElement)
        tell(this, 'view', { change: { [name]: event.target.checked } });
    };
    return html`<label class="tick">
      <input type="checkbox" .checked=${this.view[name]} @change=${changed} />${words}
    </label>`;
  }

  #chosen(event: Event): void {
    if (!(event.target instanceof HTMLSelectElement)) return;
    const { value } = event.target;
    tell(this, 'choose-figure', { figure: figureNames.find((name) => name === value) ?? 'report' });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-room-options': RoomOptions;
  }
}
