import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { AddedFile, Library } from '../../state/library';
import { fire } from '../shared/events';
import { look } from '../shared/look';

/**
 * What became of the files that were dropped or chosen together: which were taken, and why the others were not.
 * @fires action dismiss files the list has been read @fires action stop reading
 */
@customElement('evenhand-added-files')
export class AddedFiles extends LitElement {
  @property({ attribute: false }) files: readonly AddedFile[] = [];
  /** The file that is being read; null where none is. */
  @property({ attribute: false }) reading: Library['reading'] = null;

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
      /* What is read at once need not be told of. */
      .late {
        animation: late 0.4s step-end;
      }
      @keyframes late {
        from {
          display: none;
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
      ${this.reading === null ? nothing : this.#reading(this.reading)}
      ${this.files.length === 0 ? nothing : this.#list()}
    </div>`;
  }

  #reading({ name, index, of }: NonNullable<Library['reading']>) {
    return html`<div class="files late">
      <p>
        Reading ${name}${of === 1 ? '' : `, ${index + 1} of ${of}`} …
        <button class="plain" @click=${() => fire(this, { kind: 'stop reading' })}>Stop</button>
      </p>
    </div>`;
  }

  #list() {
    const refused = this.files.filter(({ added }) => !added).length;
    return html`<div class="files">
      <p>
        ${this.files.length - refused} taken, ${refused} refused.
        <button class="plain" @click=${() => fire(this, { kind: 'dismiss files' })}>Close the list</button>
      </p>
      <ul>
        ${this.files.map(
          ({ name, added, words }) =>
            html`<li>
              ${added ? 'Taken: ' : html`<strong class="out">Refused:</strong> `}${name}${added ? ', ' : ': '}${words}
            </li>`,
        )}
      </ul>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-added-files': AddedFiles;
  }
}
