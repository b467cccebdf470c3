import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { playerName, type Player } from '../../sessions/player';
import { fire } from '../shared/events';
import { look } from '../shared/look';

/**
 * Gives the open take to another player: one that was played while it was still someone else's turn.
 * @fires action give take {id, playerId}
 */
@customElement('evenhand-give-take')
export class GiveTake extends LitElement {
  @property() takeId = '';
  /** Everyone but whose take it is. */
  @property({ attribute: false }) others: readonly Player[] = [];

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
      ><span class="visually-hidden">Give this take to another player</span>
      <select
        @change=${({ target }: Event) => {
          if (!(target instanceof HTMLSelectElement) || target.value === '') return;
          fire(this, { kind: 'give take', id: this.takeId, playerId: target.value });
          target.value = '';
        }}
      >
        <option value="">Give this take to …</option>
        ${this.others.map((player) => html`<option value=${player.id}>${playerName(player)}</option>`)}
      </select></label
    >`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-give-take': GiveTake;
  }
}
