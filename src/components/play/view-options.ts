import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { figureNames } from '../../take/live/figures';
import { type FigureChoice, plainView, type ViewOptions } from '../../state/view';
import { fire } from '../shared/events';
import { figureTitles } from './figure-words';
import { look } from '../shared/look';

/** What is drawn in the bar, and what it means. */
const signs: readonly (readonly [string, string])[] = [
  ['filled, open', 'a stroke of the right hand, of the left, at its level; the last eight passes faint'],
  ['left or right of the middle', 'early or late; 30 ms fills the slot'],
  ['a thick line to its band', 'too loud or too soft, by that much'],
  ['a hatched band', 'nothing was heard where a stroke was due'],
  ['a thin upright tick', 'a stroke where none was due'],
  ['a line straight through', 'struck with the other hand'],
  ['struck out', 'struck on another drum than was due: its level counts for nothing'],
  ['a small one ahead', 'a grace note'],
];

/**
 * What the bar view shows: the one number, early and late, the hands mirrored, numbers at all; and the way to the far view.
 * @fires action figure {figure, by} the one number, or `report`: what the last report found weakest
 * @fires action view {change} what is shown
 */
@customElement('evenhand-view-options')
export class ViewOptionsPanel extends LitElement {
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
      summary {
        min-height: 44px;
        padding: 9px 0;
        cursor: pointer;
      }
      dl {
        display: grid;
        gap: 4px;
        margin: 0 0 12px;
      }
      dl div {
        display: grid;
        grid-template-columns: minmax(0, 15em) minmax(0, 1fr);
        gap: 0 18px;
      }
      dt {
        font-weight: 600;
      }
      dd {
        margin: 0;
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
      </div>
      <details>
        <summary>How to read the bar</summary>
        <dl>
          ${signs.map(
            ([sign, means]) =>
              html`<div>
                <dt>${sign}</dt>
                <dd>${means}</dd>
              </div>`,
          )}
        </dl>
      </details>`;
  }

  #tick(name: keyof ViewOptions, words: string) {
    const changed = (event: Event): void => {
      if (event.target instanceof HTMLInputElement)
        fire(this, { kind: 'view', change: { [name]: event.target.checked } });
    };
    return html`<label class="tick">
      <input type="checkbox" .checked=${this.view[name]} @change=${changed} />${words}
    </label>`;
  }

  #chosen(event: Event): void {
    if (!(event.target instanceof HTMLSelectElement)) return;
    const { value } = event.target;
    fire(this, {
      kind: 'figure',
      figure: figureNames.find((name) => name === value) ?? 'report',
      by: 'player',
    });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-view-options': ViewOptionsPanel;
  }
}
