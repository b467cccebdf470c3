import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { AddedFile, Filed, Library } from '../../state/library';
import { counted, listed } from '../../text';
import { TEACHER, TEACHER_NAME } from '../../sessions/teacher';
import { capital } from '../shared/numbers';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import type { PlayerChoice } from '../shared/types';

/** Up to so many files stand in the open, each by itself. */
const FEW = 6;

/**
 * What became of the files that were dropped or chosen together: which were taken and whose they are now, with a way to
 * move them; whose the others are, where nothing tells; and why some were refused.
 * @fires action dismiss files the list has been read @fires action stop reading
 * @fires action file with {ids, playerId} @fires action open theirs {id, playerId}
 */
@customElement('evenhand-added-files')
export class AddedFiles extends LitElement {
  @property({ attribute: false }) files: readonly AddedFile[] = [];
  @property({ attribute: false }) players: readonly PlayerChoice[] = [];
  /** Who has the turn. */
  @property() playerId = '';
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
      .whose {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 4px 14px;
        min-height: 44px;
      }
      select {
        min-height: 36px;
        max-width: 14em;
        padding: 2px 6px;
      }
      summary {
        min-height: 32px;
        cursor: pointer;
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
    const taken = this.files.filter(({ added }) => added);
    const refused = this.files.filter(({ added }) => !added);
    return html`<div class="files">
      <p>
        ${taken.length} taken, ${refused.length} refused.
        <button class="plain" @click=${() => fire(this, { kind: 'dismiss files' })}>Close the list</button>
      </p>
      ${this.players.length < 2 ? nothing : this.#whose(taken.flatMap(({ filed }) => filed ?? []))}
      ${
        refused.length === 0
          ? nothing
          : html`<ul>
              ${refused.map(
                ({ name, words }) => html`<li><strong class="out">Refused:</strong> ${name}: ${words}</li>`,
              )}
            </ul>`
      }
      ${
        taken.length === 0
          ? nothing
          : html`<details ?open=${this.files.length <= FEW}>
              <summary class="quiet small">Each file</summary>
              <ul>
                ${taken.map(({ name, words }) => html`<li>Taken: ${name}, ${words}</li>`)}
              </ul>
            </details>`
      }
    </div>`;
  }

  /** A line a player, and a question for each name that nobody here is known by. */
  #whose(filed: readonly Filed[]) {
    return html`<ul>
      ${grouped(filed).map((group) => (group[0].playerId === '' ? this.#asked(group) : this.#with(group)))}
    </ul>`;
  }

  #with(group: readonly Filed[]) {
    const [{ playerId }] = group;
    const player = this.players.find(({ id }) => id === playerId);
    if (playerId === TEACHER) return this.#teachers(group);
    if (player === undefined) return nothing;
    const takes = group.filter(({ kind }) => kind === 'take');
    return html`<li class="whose">
      <span
        ><strong>${player.name}</strong>:
        ${thingsOf(group)}${group.length === 1 && group[0].by !== null ? told[group[0].by] : nothing}</span
      >
      ${
        takes.length === 1 && playerId !== this.playerId
          ? html`<button
              class="plain"
              @click=${() => fire(this, { kind: 'open theirs', id: takes[0].id, playerId })}
            >
              Open it, with ${player.name}’s turn
            </button>`
          : nothing
      }
      ${this.#choice(
        group,
        'Move to …',
        this.players.filter(({ id }) => id !== playerId),
      )}
    </li>`;
  }

  /** Takes that the teacher played can turn out a player's after all. */
  #teachers(group: readonly Filed[]) {
    const [{ by }] = group;
    return html`<li class="whose">
      <span
        ><strong>${capital(TEACHER_NAME)}</strong>:
        ${thingsOf(group)}${group.length === 1 && by !== null ? told[by] : nothing}</span
      >
      ${this.#choice(group, 'Move to …', this.players)}
    </li>`;
  }

  #asked(group: readonly Filed[]) {
    const [{ named }] = group;
    const whom = named.name === '' ? 'that don’t say whose they are' : `of “${named.name}”, not known here`;
    return html`<li class="whose">
      <span><strong>Whose?</strong> ${thingsOf(group)} ${whom}</span>
      ${this.#choice(group, 'Choose a player …', this.players)}
    </li>`;
  }

  #choice(group: readonly Filed[], words: string, players: readonly PlayerChoice[]) {
    const ids = group.map(({ id }) => id);
    return html`<select
      aria-label="${words} ${thingsOf(group)}"
      @change=${({ target }: Event) => {
        if (!(target instanceof HTMLSelectElement) || target.value === '') return;
        fire(this, { kind: 'file with', ids, playerId: target.value });
        target.value = '';
      }}
    >
      <option value="">${words}</option>
      ${players.map((player) => html`<option value=${player.id}>${player.name}</option>`)}
    </select>`;
  }
}

/** Of one player together, in the order they came; of nobody's those of one name. */
function grouped(filed: readonly Filed[]): readonly (readonly Filed[])[] {
  const groups = new Map<string, Filed[]>();
  for (const one of filed) {
    const key = one.playerId === '' ? `named ${one.named.id} ${one.named.name}` : one.playerId;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()];
}

function thingsOf(group: readonly Filed[]): string {
  const kinds = ['take', 'week sheet'] as const;
  return listed(
    kinds.flatMap((kind) => {
      const count = group.filter((one) => one.kind === kind).length;
      return count === 0 ? [] : [counted(count, kind)];
    }),
  );
}

/** What told whose it is. */
const told: Readonly<Record<NonNullable<Filed['by']>, string>> = {
  record: ', as before',
  id: '',
  sheet: ', by its week sheet',
  known: ', as you said before',
  name: ', by its name',
  teacher: ', as the take says',
  'only one': '',
  said: ', as you say',
};

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-added-files': AddedFiles;
  }
}
