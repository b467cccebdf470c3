import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { NamedRig } from '../../sessions/rig-file';
import type { Rig } from '../../sessions/types';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { rigStyles } from './rig-styles';

/**
 * The rigs kept here: name the one in use, take up another, begin a new one, out and in as files.
 * @fires action name rig {name, newId} @fires action choose rig {id} @fires action delete rig {id} @fires action new rig
 * @fires action export rig {id} @fires action add files {files}
 */
@customElement('evenhand-kept-rigs')
export class KeptRigs extends LitElement {
  @property({ attribute: false }) rigs: readonly NamedRig[] = [];
  @property({ attribute: false }) rig: Rig | null = null;

  static override styles = [
    look,
    rigStyles,
    css`
      label span {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      ul {
        margin: 12px 0 0;
        padding: 0;
        list-style: none;
      }
      li {
        display: flex;
        flex-wrap: wrap;
        justify-content: space-between;
        gap: 4px 16px;
        padding: 6px 0;
        border-top: 1px solid var(--line);
      }
      li[aria-current] button:first-child {
        font-weight: 700;
      }
      .file {
        display: inline-block;
        position: relative;
        border: var(--thick) solid var(--ink);
        border-radius: 3px;
        font-weight: 600;
      }
      .file:focus-within {
        outline: 3px solid var(--ink);
        outline-offset: 2px;
      }
      .file input {
        position: absolute;
        inset: 0;
        opacity: 0;
        cursor: pointer;
      }
    `,
  ];

  override render() {
    return html`<section aria-label="Rigs">
      <h2>Rigs</h2>
      <p class="words quiet">Each take keeps the rig it was played with; changing a rig changes no take.</p>
      <div class="row">
        ${
          this.rig === null
            ? nothing
            : html`<label
                ><span>Name of the rig in use</span
                ><input
                  type="text"
                  maxlength="60"
                  .value=${this.rig.name ?? ''}
                  placeholder="without a name"
                  @change=${(event: Event) => {
                    if (event.target instanceof HTMLInputElement)
                      fire(this, { kind: 'name rig', name: event.target.value, newId: crypto.randomUUID() });
                  }}
              /></label>`
        }
        ${
          // Where none is in use the next strike begins one anyhow.
          this.rig === null
            ? nothing
            : html`<button @click=${() => fire(this, { kind: 'new rig' })}>New rig</button>`
        }
        <label class="button file"
          >Open a rig file
          <input
            type="file"
            accept=".json"
            aria-label="Open a rig file"
            @change=${(event: Event) => {
              if (!(event.target instanceof HTMLInputElement)) return;
              fire(this, { kind: 'add files', files: [...(event.target.files ?? [])] });
              event.target.value = '';
            }}
        /></label>
      </div>
      ${
        this.rigs.length === 0
          ? nothing
          : html`<ul aria-label="Rigs kept here">
              ${this.rigs.map((one) => this.#row(one))}
            </ul>`
      }
    </section>`;
  }

  #row({ id, name, surfaces }: NamedRig) {
    const inUse = id === this.rig?.id;
    return html`<li aria-current=${inUse ? 'true' : nothing}>
      <button class="plain" @click=${() => fire(this, { kind: 'choose rig', id })}>
        ${name}${inUse ? ' (in use)' : ''}
      </button>
      <span class="quiet small">${surfaces.map((surface) => surface.name).join(', ')}</span>
      <span>
        <button
          class="plain"
          aria-label="Download the rig ${name}"
          @click=${() => fire(this, { kind: 'export rig', id })}
        >
          Download
        </button>
        <button
          class="plain quiet"
          aria-label="Delete the rig ${name}"
          @click=${() => fire(this, { kind: 'delete rig', id })}
        >
          Delete
        </button>
      </span>
    </li>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-kept-rigs': KeptRigs;
  }
}
