import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { FileTold } from '../../state/library';
import { tell } from '../shared/events';
import { look } from '../shared/look';

/**
 * What became of the files that were dropped or chosen together: which were taken, and why the others were not.
 * @fires dismiss-files the list has been read
 */
@customElement('evenhand-taken-files')
export class TakenFiles extends LitElement {
  @property({ attribute: false }) files: readonly FileTold[] = [];

  static override styles = [
    look,
    css`
      .files {
        padding: 12px 0 12px 16px;
        border-left: 6px solid var(--line);
        margin-top: 12px;
      }
      ul {
        margin: 4px 0 0;
        padding: 0;
        list-style: none;
      }
      li {
        padding: 3px 0;
        overflow-wrap: anywhere;
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  override render() {
    return html`<div role="status">${this.files.length === 0 ? nothing : this.#list()}</div>`;
  }

  #list() {
    const refused = this.files.filter(({ taken }) => !taken).length;
    return html`<div class="files">
      <p>
        ${this.files.length - refused} taken, ${refused} refused.
        <button class="plain" @click=${() => tell(this, 'dismiss-files')}>Close the list</button>
      </p>
      <ul>
        ${this.files.map(
          ({ name, taken, words }) =>
            html`<li>
              ${taken ? 'Taken: ' : html`<strong class="out">Refused:</strong> `}${name}${taken ? ', ' : ': '}${words}
            </li>`,
        )}
      </ul>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-taken-files': TakenFiles;
  }
}
