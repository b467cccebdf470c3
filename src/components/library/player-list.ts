import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { activePlayers, deletedAt, LONGEST_NAME, type Player } from '../../sessions/player';
import { codesOf, playerLabels } from '../../sessions/player-code';
import { archiveTerms } from '../../state/library';
import { counted } from '../../text';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import './player-row';

/** Up to so many stand open, each with all that can be changed. */
const FEW = 6;
const A_PAGE = 20;

/**
 * Players: searched, by group, twenty a page where there are many; and the archive.
 * @fires action new player {name} @fires action bring back {id} @fires action archive keeps {months} @fires action forget player {id}
 */
@customElement('evenhand-player-list')
export class PlayerList extends LitElement {
  /** All of them, in their order. */
  @property({ attribute: false }) players: readonly Player[] = [];
  @property() playerId = '';
  /** For how many months the archive keeps them; null for ever. */
  @property({ attribute: false }) archiveMonths: number | null = null;
  @state() private typed = '';
  @state() private sought = '';
  @state() private group = '';
  @state() private page = 0;

  static override styles = [
    look,
    css`
      ul {
        margin: 8px 0 0;
        padding: 0;
        list-style: none;
      }
      li {
        border-top: 1px solid var(--line);
      }
      form,
      .find,
      .pages,
      .archived {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 10px 14px;
        padding: 12px 0;
      }
      .pages,
      .archived {
        align-items: center;
      }
      .archived span {
        flex: 1 1 12em;
      }
      form span,
      .find span {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      summary {
        min-height: 44px;
        align-content: center;
        cursor: pointer;
      }
    `,
  ];

  override render() {
    const active = activePlayers(this.players);
    const isMany = active.length > FEW;
    const found = isMany ? this.#found(active) : active;
    const pages = Math.max(1, Math.ceil(found.length / A_PAGE));
    const page = Math.min(this.page, pages - 1);
    const codes = codesOf(this.players);
    return html`${isMany ? this.#find(active, found.length) : nothing}
      <ul>
        ${found.slice(page * A_PAGE, (page + 1) * A_PAGE).map(
          (player) =>
            html`<li>
              <evenhand-player-row
                .player=${player}
                .code=${this.players.length < 2 || player.name === '' ? '' : (codes.get(player.id) ?? '')}
                .others=${active.filter(({ id }) => id !== player.id)}
                .isCurrent=${player.id === this.playerId}
                .compact=${isMany}
              ></evenhand-player-row>
            </li>`,
        )}
      </ul>
      ${pages === 1 ? nothing : this.#pages(page, pages)} ${this.#add()} ${this.#archive()}`;
  }

  /** By a part of the name or the code, and by group. */
  #found(active: readonly Player[]): readonly Player[] {
    const codes = codesOf(this.players);
    const sought = this.sought.trim().toLowerCase();
    return active.filter(
      ({ id, name, groups = [] }) =>
        (this.group === '' || groups.includes(this.group)) &&
        `${name} ${codes.get(id) ?? ''}`.toLowerCase().includes(sought),
    );
  }

  #find(active: readonly Player[], found: number) {
    const groups = [...new Set(active.flatMap((player) => player.groups ?? []))].sort();
    return html`<div class="find" role="search">
      <label>
        <span>Find a player</span>
        <input
          type="search"
          autocomplete="off"
          .value=${this.sought}
          @input=${({ target }: Event) => {
            if (target instanceof HTMLInputElement) this.sought = target.value;
            this.page = 0;
          }}
        />
      </label>
      ${
        groups.length === 0
          ? nothing
          : html`<label>
              <span>Group</span>
              <select
                @change=${({ target }: Event) => {
                  if (target instanceof HTMLSelectElement) this.group = target.value;
                  this.page = 0;
                }}
              >
                <option value="">all groups</option>
                ${groups.map((one) => html`<option value=${one} ?selected=${one === this.group}>${one}</option>`)}
              </select>
            </label>`
      }
      <p class="quiet small" role="status">${found} of ${counted(active.length, 'player')}</p>
    </div>`;
  }

  #pages(page: number, pages: number) {
    return html`<nav class="pages" aria-label="Pages of players">
      <button ?disabled=${page === 0} @click=${() => (this.page = page - 1)}>Before</button>
      <span>page ${page + 1} of ${pages}</span>
      <button ?disabled=${page === pages - 1} @click=${() => (this.page = page + 1)}>Next</button>
    </nav>`;
  }

  #add() {
    return html`<form
      @submit=${(event: Event) => {
        event.preventDefault();
        if (this.typed.trim() === '') return;
        fire(this, { kind: 'new player', name: this.typed });
        this.typed = '';
      }}
    >
      <label>
        <span>Another player</span>
        <input
          type="text"
          autocomplete="off"
          maxlength=${LONGEST_NAME}
          .value=${this.typed}
          @input=${(event: Event) => {
            if (event.target instanceof HTMLInputElement) this.typed = event.target.value;
          }}
        />
      </label>
      <button type="submit">Add</button>
    </form>`;
  }

  #archive() {
    const archived = this.players.filter(({ archivedAt }) => archivedAt !== undefined);
    if (archived.length === 0) return nothing;
    const labels = playerLabels(this.players);
    return html`<details>
      <summary>Archive: ${counted(archived.length, 'player')}</summary>
      <label class="find">
        <span>Players in the archive are deleted</span>
        <select
          @change=${({ target }: Event) => {
            const months = archiveTerms.find(
              (one) => target instanceof HTMLSelectElement && String(one) === target.value,
            );
            if (months !== undefined) fire(this, { kind: 'archive keeps', months });
          }}
        >
          ${archiveTerms.map(
            (months) =>
              html`<option value=${String(months)} ?selected=${months === this.archiveMonths}>
                ${termWords(months)}
              </option>`,
          )}
        </select>
      </label>
      <ul aria-label="Archive">
        ${archived.map((player) => this.#archived(player, labels.get(player.id) ?? ''))}
      </ul>
    </details>`;
  }

  #archived(player: Player, name: string) {
    const end = deletedAt(player, this.archiveMonths);
    return html`<li class="archived">
      <span
        >${name}
        <span class="quiet small"
          >since
          ${dayWords(player.archivedAt)}${end === undefined ? nothing : `, deleted on ${dayWords(end.toISOString())}`}</span
        ></span
      >
      <button
        aria-label="Bring ${name} back"
        @click=${() => fire(this, { kind: 'bring back', id: player.id })}
      >
        Bring back
      </button>
      <button
        class="plain quiet"
        aria-label="Delete ${name} and every take"
        @click=${() => fire(this, { kind: 'forget player', id: player.id })}
      >
        Delete
      </button>
    </li>`;
  }
}

const termWords = (months: number | null): string => {
  if (months === null) return 'only when you say so';
  return months < 12 ? `after ${months} months` : `after ${counted(months / 12, 'year')}`;
};

const dayWords = (iso = ''): string => new Date(iso).toLocaleDateString(undefined, { dateStyle: 'medium' });

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-player-list': PlayerList;
  }
}
