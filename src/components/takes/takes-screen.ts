import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Choice } from '../../insight/history/choices';
import type { TakeSummary } from '../../sessions/take-record';
import { TEACHER } from '../../sessions/teacher';
import { firstTakesView, OF_ALL, type TakesView } from '../../state/takes';
import { count } from '../../words/numbers';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { dayAndTime, fixed } from '../shared/numbers';
import type { PlayerChoice, TakeChoice } from '../shared/types';
import { reasonIn } from './reason-words';

const A_PAGE = 20;

/**
 * Takes: all that are kept here, newest first, by player and by phrase, twenty a page; those of the model player behind a
 * fold.
 * @fires action open take {id} @fires action open theirs {id, playerId} with their turn @fires action delete take {id} @fires action download take {id}
 * @fires action list takes {change} @fires action add files {files} chosen from disk
 */
@customElement('evenhand-takes-screen')
export class TakesScreen extends LitElement {
  /** Of whom and of which phrase the view says, newest first. */
  @property({ attribute: false }) takes: readonly TakeSummary[] = [];
  @property({ attribute: false }) view: TakesView = firstTakesView;
  @property({ attribute: false }) phrases: readonly Choice[] = [];
  /** Whose takes may be listed. */
  @property({ attribute: false }) whose: readonly PlayerChoice[] = [];
  /** Whose turn it is. */
  @property() turn = '';
  /** What players are called, by their ids. */
  @property({ attribute: false }) labels: ReadonlyMap<string, string> = new Map();
  /** Bundled takes of the model player. */
  @property({ attribute: false }) bundled: readonly TakeChoice[] = [];
  /** The take that stands open in Review. */
  @property({ attribute: 'open-id' }) openId = '';

  static override styles = [
    look,
    css`
      .head {
        display: flex;
        flex-wrap: wrap;
        justify-content: space-between;
        align-items: end;
        gap: 10px 24px;
        margin-bottom: 12px;
      }
      .choices,
      .pages {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 10px 18px;
        margin-bottom: 10px;
      }
      .pages {
        align-items: center;
        margin-top: 10px;
      }
      .choices label {
        flex: 0 1 20em;
        min-width: 0;
      }
      .choices span {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      select {
        width: 100%;
      }
      .file {
        display: inline-flex;
        align-items: center;
        cursor: pointer;
      }
      .file:focus-within {
        outline: 3px solid var(--ink);
        outline-offset: 2px;
      }
      td {
        padding-block: 6px;
      }
      .day {
        white-space: nowrap;
      }
      .day button {
        padding-left: 0;
        font-weight: 600;
      }
      .bpm {
        text-align: right;
        white-space: nowrap;
      }
      /* The head of the column says it where there is one. */
      .own .unit {
        display: none;
      }
      .end {
        width: 1%;
        padding-right: 0;
        white-space: nowrap;
      }
      details {
        margin-top: 26px;
      }
      summary {
        min-height: 44px;
        cursor: pointer;
      }
      caption {
        padding: 4px 0;
        text-align: left;
      }
      @media (max-width: 600px) {
        thead {
          display: none;
        }
        .own .unit {
          display: inline;
        }
        tr {
          display: flex;
          flex-wrap: wrap;
          gap: 0 14px;
          padding: 6px 0;
          border-bottom: 1px solid var(--line);
        }
        td {
          padding: 2px 0;
          border: 0;
        }
        .day,
        .phrase {
          flex: 1 1 100%;
        }
        .end {
          flex: 1 1 100%;
          width: auto;
        }
      }
    `,
  ];

  override render() {
    return html`<div class="head">
        <h1>Takes</h1>
        <label class="button file">
          Open take files
          <input
            type="file"
            class="visually-hidden"
            accept=".json,.mid,application/json"
            multiple
            @change=${this.#chosen}
          />
        </label>
      </div>
      ${this.#choices()} ${this.takes.length === 0 ? this.#none() : this.#list()} ${this.#bundled()}`;
  }

  #choices() {
    const { of, phraseKey } = this.view;
    const hasPhrases = this.phrases.length > 1 || phraseKey !== '';
    if (this.whose.length < 2 && !hasPhrases) return nothing;
    return html`<div class="choices">
      ${
        this.whose.length < 2
          ? nothing
          : html`<label
              ><span>Of</span>
              <select @change=${(event: Event) => this.#view({ of: valueOf(event), phraseKey: '' })}>
                ${this.whose.map(
                  ({ id, name }) => html`<option value=${id} ?selected=${id === of}>${name}</option>`,
                )}
              </select></label
            >`
      }
      ${
        hasPhrases
          ? html`<label
              ><span>Phrase</span>
              <select @change=${(event: Event) => this.#view({ phraseKey: valueOf(event) })}>
                <option value="" ?selected=${phraseKey === ''}>all phrases</option>
                ${this.phrases.map(
                  ({ id, name }) => html`<option value=${id} ?selected=${id === phraseKey}>${name}</option>`,
                )}
              </select></label
            >`
          : nothing
      }
    </div>`;
  }

  #none() {
    return html`<p class="quiet">
      None is kept in this browser yet. Takes are kept here as they are played, and files may be dropped on
      the page.
    </p>`;
  }

  #list() {
    const pages = Math.ceil(this.takes.length / A_PAGE);
    const page = Math.min(this.view.page, pages - 1);
    const shown = this.takes.slice(page * A_PAGE, (page + 1) * A_PAGE);
    const hasPlayer = this.view.of === OF_ALL;
    return html`<table class="own">
        <caption class="quiet small">
          ${count(this.takes.length, 'take')}, newest first
        </caption>
        <thead>
          <tr>
            <th scope="col">Day</th>
            ${hasPlayer ? html`<th scope="col">Player</th>` : nothing}
            <th scope="col">Phrase</th>
            <th scope="col" class="bpm">bpm</th>
            <th scope="col">Reason</th>
            <th scope="col"><span class="visually-hidden">Files</span></th>
          </tr>
        </thead>
        <tbody>
          ${shown.map((take) => this.#row(take, hasPlayer))}
        </tbody>
      </table>
      ${pages < 2 ? nothing : this.#pages(page, pages)}`;
  }

  #row(take: TakeSummary, hasPlayer: boolean) {
    const { id, recordedAt, title, bpm, playerId, sentence } = take;
    const day = dayAndTime(recordedAt);
    const isTeachers = playerId === TEACHER;
    return html`<tr>
      <td class="day">
        <button
          class="plain"
          aria-label="Open ${title}, ${day}"
          title=${sentence}
          @click=${() => this.#open(take)}
        >
          ${day}
        </button>
        ${id === this.openId ? html`<span class="quiet small">open</span>` : nothing}
      </td>
      ${hasPlayer ? html`<td>${isTeachers ? 'the teacher' : (this.labels.get(playerId) ?? 'nobody’s yet')}</td>` : nothing}
      <td class="phrase">${title}</td>
      <td class="bpm">${tempoWords(bpm)}<span class="unit"> bpm</span></td>
      <td>${reasonIn(take)}</td>
      <td class="end">
        <button
          class="plain quiet"
          aria-label="Download ${title}, ${day}"
          @click=${() => fire(this, { kind: 'download take', id })}
        >
          Download
        </button>
        <button
          class="plain quiet"
          aria-label="Delete ${title}, ${day}"
          @click=${() => fire(this, { kind: 'delete take', id })}
        >
          Delete
        </button>
      </td>
    </tr>`;
  }

  /** What is another player's comes with their turn: it never stands on somebody else's page. */
  #open({ id, playerId }: TakeSummary): void {
    const isAnothers = playerId !== this.turn && this.labels.has(playerId);
    fire(this, isAnothers ? { kind: 'open theirs', id, playerId } : { kind: 'open take', id });
  }

  #pages(page: number, pages: number) {
    return html`<nav class="pages" aria-label="Pages">
      <button ?disabled=${page === 0} @click=${() => this.#view({ page: page - 1 })}>Newer</button>
      <span>page ${page + 1} of ${pages}</span>
      <button ?disabled=${page === pages - 1} @click=${() => this.#view({ page: page + 1 })}>Older</button>
    </nav>`;
  }

  #bundled() {
    if (this.bundled.length === 0) return nothing;
    return html`<details>
      <summary>Bundled takes, by the model player: ${this.bundled.length}</summary>
      <table class="bundled">
        <tbody>
          ${this.bundled.map(
            ({ id, title, bpm, sentence }) =>
              html`<tr>
                <td class="phrase">
                  <button class="plain" @click=${() => fire(this, { kind: 'open take', id })}>
                    ${title}
                  </button>
                </td>
                <td class="bpm">${bpm === null ? nothing : `${tempoWords(bpm)} bpm`}</td>
                <td>${sentence}</td>
              </tr>`,
          )}
        </tbody>
      </table>
    </details>`;
  }

  #view(change: Partial<TakesView>): void {
    fire(this, { kind: 'list takes', change });
  }

  #chosen(event: Event): void {
    if (!(event.target instanceof HTMLInputElement)) return;
    const files = [...(event.target.files ?? [])];
    event.target.value = '';
    if (files.length > 0) fire(this, { kind: 'add files', files });
  }
}

const tempoWords = (bpm: number): string => fixed(bpm, Number.isInteger(bpm) ? 0 : 1);

const valueOf = ({ target }: Event): string => (target instanceof HTMLSelectElement ? target.value : '');

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-takes-screen': TakesScreen;
  }
}
