import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { LONGEST_NAME, playerName, type Player } from '../../sessions/player';
import { limitsNames, type Limits } from '../../settings';
import type { Hand } from '../../stroke';
import { fire } from '../shared/events';
import { look } from '../shared/look';

/**
 * One player: name, lead hand and limits; and under "More" what cannot be undone lightly.
 * @fires action choose player {id} @fires action change player {id, change} @fires action merge players {fromId, intoId}
 * @fires action backup {playerId} @fires action forget player {id}
 */
@customElement('evenhand-player-row')
export class PlayerRow extends LitElement {
  @property({ attribute: false }) player: Player | null = null;
  @property({ attribute: false }) others: readonly Player[] = [];
  @property({ type: Boolean }) isCurrent = false;
  @state() private into = '';

  static override styles = [
    look,
    css`
      .row {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 10px 14px;
        padding: 12px 0;
      }
      label span {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      .turn {
        min-width: 7.5em;
        min-height: 44px;
        align-content: center;
      }
      summary {
        min-height: 32px;
        cursor: pointer;
      }
      details .row {
        padding-top: 4px;
      }
    `,
  ];

  override render() {
    const { player } = this;
    if (player === null) return nothing;
    const name = playerName(player);
    return html`
      <div class="row">
        <label>
          <span>Name</span>
          <input
            type="text"
            autocomplete="off"
            maxlength=${LONGEST_NAME}
            placeholder="You"
            .value=${player.name}
            @change=${(event: Event) => {
              if (event.target instanceof HTMLInputElement) this.#change({ name: event.target.value });
            }}
          />
        </label>
        <label>
          <span>Lead hand</span>
          <select @change=${(event: Event) => this.#change({ lead: chosen(event) as Hand })}>
            <option value="R" ?selected=${player.lead === 'R'}>right</option>
            <option value="L" ?selected=${player.lead === 'L'}>left</option>
          </select>
        </label>
        <label>
          <span>Limits</span>
          <select @change=${(event: Event) => this.#change({ limits: chosen(event) as Limits })}>
            ${limitsNames.map(
              (limits) =>
                html`<option value=${limits} ?selected=${player.limits === limits}>${limits}</option>`,
            )}
          </select>
        </label>
        ${
          this.isCurrent
            ? html`<p class="turn quiet">has the turn</p>`
            : html`<button
                aria-label="${name}’s turn"
                @click=${() => fire(this, { kind: 'choose player', id: player.id })}
              >
                Their turn
              </button>`
        }
      </div>
      <details>
        <summary class="quiet small">More about ${name}</summary>
        <div class="row">
          <button @click=${() => fire(this, { kind: 'backup', playerId: player.id })}>
            Download all that is ${player.name === '' ? 'yours' : 'theirs'}
          </button>
          ${this.others.length === 0 ? nothing : this.#merge(player)}
          <button @click=${() => fire(this, { kind: 'forget player', id: player.id })}>
            Delete ${name} and every take
          </button>
        </div>
      </details>
    `;
  }

  #merge(player: Player) {
    const into = this.into === '' ? this.others[0].id : this.into;
    return html`<label>
        <span>Is the same person as</span>
        <select @change=${(event: Event) => (this.into = chosen(event))}>
          ${this.others.map(
            (other) =>
              html`<option value=${other.id} ?selected=${other.id === into}>${playerName(other)}</option>`,
          )}
        </select>
      </label>
      <button @click=${() => fire(this, { kind: 'merge players', fromId: player.id, intoId: into })}>
        Merge
      </button>`;
  }

  #change(change: Partial<Pick<Player, 'name' | 'lead' | 'limits'>>): void {
    if (this.player !== null) fire(this, { kind: 'change player', id: this.player.id, change });
  }
}

const chosen = (event: Event): string =>
  event.target instanceof HTMLSelectElement ? event.target.value : '';

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-player-row': PlayerRow;
  }
}
