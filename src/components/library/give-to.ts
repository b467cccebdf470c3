import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Filed } from '../../state/library';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import type { PlayerChoice } from '../shared/types';

/**
 * Gives a take or a week sheet to another player: one that was played while it was still someone else's turn, say.
 * @fires action give {what, id, playerId}
 */
@customElement('evenhand-give-to')
export class GiveTo extends LitElement {
  @property() what: Filed['kind'] = 'take';
  @property({ attribute: 'item-id' }) itemId = '';
  /** Everyone but whose it is. */
  @property({ attribute: false }) others: readonly PlayerChoice[] = [];

  static override styles = [
    look,
    css`
      :host {
        display: inline-block;
      }
      select {
        max-width: 14em;
      }
    `,
  ];

  override render() {
    if (this.others.length === 0) return nothing;
    return html`<label
      ><span class="visually-hidden">Give this ${this.what} to another player</span>
      <select
        @change=${({ target }: Event) => {
          if (!(target instanceof HTMLSelectElement) || target.value === '') return;
          fire(this, { kind: 'give', what: this.what, id: this.itemId, playerId: target.value });
          target.value = '';
        }}
      >
        <option value="">Give this ${this.what} to …</option>
        ${this.others.map((player) => html`<option value=${player.id}>${player.name}</option>`)}
      </select></label
    >`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-give-to': GiveTo;
  }
}
