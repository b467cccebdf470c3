import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Unreadable } from '../../sessions/store-types';
import { fire } from '../shared/events';
import { look } from '../shared/look';

/**
 * What is kept here and can't be read: named, with why, to be downloaded as it lies there and to be removed.
 * @fires action download unreadable {unreadable} @fires action remove unreadable {unreadable}
 */
@customElement('evenhand-unreadable')
export class UnreadableList extends LitElement {
  @property({ attribute: false }) unreadable: readonly Unreadable[] = [];

  static override styles = [
    look,
    css`
      section {
        margin-top: 26px;
      }
      ul {
        margin: 8px 0 0;
        padding: 0;
        list-style: none;
      }
      li {
        display: flex;
        flex-wrap: wrap;
        justify-content: space-between;
        align-items: baseline;
        gap: 4px 24px;
        padding: 10px 0;
        border-top: 1px solid var(--line);
      }
      p {
        max-width: 52em;
        overflow-wrap: anywhere;
      }
      .do {
        display: flex;
        gap: 18px;
      }
    `,
  ];

  override render() {
    if (this.unreadable.length === 0) return nothing;
    return html`<section aria-labelledby="unreadable">
      <h2 id="unreadable">What can’t be read</h2>
      <p class="quiet">
        All else works without it. Nothing of it is changed; a backup that has it sound brings it back.
      </p>
      <ul>
        ${this.unreadable.map((one) => this.#row(one))}
      </ul>
    </section>`;
  }

  #row(unreadable: Unreadable) {
    const name = `${KINDS[unreadable.from]} “${nameOf(unreadable)}”`;
    return html`<li>
      <p><strong>${name}</strong>: ${unreadable.reason}</p>
      <div class="do">
        <button
          class="plain"
          aria-label="Download ${name}"
          @click=${() => fire(this, { kind: 'download unreadable', unreadable })}
        >
          Download
        </button>
        <button
          class="plain quiet"
          aria-label="Remove ${name}"
          @click=${() => fire(this, { kind: 'remove unreadable', unreadable })}
        >
          Remove
        </button>
      </div>
    </li>`;
  }
}

const KINDS: Readonly<Record<Unreadable['from'], string>> = {
  players: 'Player',
  phrases: 'Phrase',
  rigs: 'Rig',
  sheets: 'Week sheet',
  notes: 'Note',
  takes: 'Take',
};

/** Its own name or title where it has one, else what it is kept under. */
function nameOf({ key, value }: Unreadable): string {
  const { name, title, phrase } = (value ?? {}) as Readonly<Record<string, unknown>>;
  const inner = (phrase ?? {}) as Readonly<Record<string, unknown>>;
  const named = [name, title, inner['title']].find((one) => typeof one === 'string' && one !== '');
  return named === undefined ? (typeof key === 'string' ? key : JSON.stringify(key)) : (named as string);
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-unreadable': UnreadableList;
  }
}
