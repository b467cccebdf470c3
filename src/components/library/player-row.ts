import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { groupsFrom, LONGEST_NAME, playerName, type Player } from '../../sessions/player';
import { playerLabels } from '../../sessions/player-code';
import type { Action } from '../../state/actions';
import { limitsNames, type Limits } from '../../settings';
import type { Hand } from '../../stroke';
import { fire } from '../shared/events';
import { look } from '../shared/look';

/**
 * One player: name, lead hand, limits and groups; and under "More" what cannot be undone lightly.
 * @fires action choose player {id} @fires action change player {id, change} @fires action merge players {fromId, intoId}
 * @fires action backup {playerId} @fires action forget player {id}
 * @fires action archive player {id}
 */
@customElement('evenhand-player-row')
export class PlayerRow extends LitElement {
  @property({ attribute: false }) player: Player | null = null;
  @property({ attribute: false }) others: readonly Player[] = [];
  /** Their short code; empty where there is nobody else. */
  @property() code = '';
  /** One line, where there are many: what can be changed lies behind a fold. */
  @property({ type: Boolean }) compact = false;
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
      .line {
        align-items: center;
        justify-content: space-between;
        padding: 6px 0 0;
      }
      .who {
        flex: 1 1 12em;
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
    const called = this.code === '' ? name : `${name}, ${this.code}`;
    if (!this.compact) {
      return html`<div class="row">${this.#fields(player)} ${this.#turn(called)}</div>
        <details>
          <summary class="quiet small">More about ${called}</summary>
          ${this.#more(player)}
        </details>`;
    }
    return html`<div class="row line">
        <p class="who">
          <strong>${name}</strong>
          <span class="quiet">${[this.code, ...(player.groups ?? [])].join(' · ')}</span>
        </p>
        ${this.#turn(called)}
      </div>
      <details>
        <summary class="quiet small">Change ${called}</summary>
        <div class="row">${this.#fields(player)}</div>
        ${this.#more(player)}
      </details>`;
  }

  #turn(called: string) {
    return this.isCurrent
      ? html`<p class="turn quiet">has the turn</p>`
      : html`<button
          aria-label="${called}’s turn"
          @click=${() => fire(this, { kind: 'choose player', id: this.player?.id ?? '' })}
        >
          Their turn
        </button>`;
  }

  #fields(player: Player) {
    const text = (of: string, value: string, hint: string, change: (typed: string) => Changes) =>
      html`<label>
        <span>${of}</span>
        <input
          type="text"
          autocomplete="off"
          maxlength=${LONGEST_NAME}
          placeholder=${hint}
          .value=${value}
          @change=${(event: Event) => {
            if (event.target instanceof HTMLInputElement) this.#change(change(event.target.value));
          }}
        />
      </label>`;
    return html`${text('Name', player.name, 'You', (name) => ({ name }))}
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
        this.others.length === 0
          ? nothing
          : text('Groups', (player.groups ?? []).join(', '), 'a day, a school', (typed) => ({
              groups: [...groupsFrom(typed)],
            }))
      }`;
  }

  #more(player: Player) {
    const name = playerName(player);
    return html`<div class="row">
      <button @click=${() => fire(this, { kind: 'backup', playerId: player.id })}>
        Download all that is ${player.name === '' ? 'yours' : 'theirs'}
      </button>
      ${
        this.others.length === 0
          ? nothing
          : html`<button @click=${() => fire(this, { kind: 'archive player', id: player.id })}>
                Put ${name} in the archive
              </button>
              ${this.#merge(player)}`
      }
      <button @click=${() => fire(this, { kind: 'forget player', id: player.id })}>
        Delete ${name} and every take
      </button>
    </div>`;
  }

  #merge(player: Player) {
    const labels = playerLabels([...this.others, player]);
    const into = this.into === '' ? this.others[0].id : this.into;
    return html`<label>
        <span>Is the same person as</span>
        <select @change=${(event: Event) => (this.into = chosen(event))}>
          ${this.others.map(
            (other) =>
              html`<option value=${other.id} ?selected=${other.id === into}>${labels.get(other.id)}</option>`,
          )}
        </select>
      </label>
      <button @click=${() => fire(this, { kind: 'merge players', fromId: player.id, intoId: into })}>
        Merge
      </button>`;
  }

  #change(change: Changes): void {
    if (this.player !== null) fire(this, { kind: 'change player', id: this.player.id, change });
  }
}

type Changes = Extract<Action, { readonly kind: 'change player' }>['change'];

const chosen = (event: Event): string =>
  event.target instanceof HTMLSelectElement ? event.target.value : '';

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-player-row': PlayerRow;
  }
}
