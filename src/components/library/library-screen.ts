import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Begun } from '../../sessions/draft';
import type { Given } from '../../sessions/given';
import type { BrowserStorage, SheetShown } from '../../state/library';
import type { Unreadable } from '../../sessions/store-types';
import { whoInNames, type WhoInNames } from '../../sessions/file-name';
import { activePlayers, type Player } from '../../sessions/player';
import { fire } from '../shared/events';
import './player-list';
import './unreadable-list';
import './week-sheets';
import './written-papers';
import { look } from '../shared/look';
import { fixed } from '../shared/numbers';

/**
 * Library: players whose takes are kept apart, week sheets, backup, and what the browser says of its storage.
 * @fires action backup @fires action names in files {as}
 * @fires action add files {files} chosen from disk
 * @fires action play sheet {sheet} @fires action remove sheet {id} @fires action new sheet @fires action edit sheet {sheet}
 */
@customElement('evenhand-library-screen')
export class LibraryScreen extends LitElement {
  @property({ attribute: false }) players: readonly Player[] = [];
  @property() playerId = '';
  /** How many takes the player in turn has. */
  @property({ type: Number }) takes = 0;
  @property({ attribute: false }) sheets: readonly SheetShown[] = [];
  @property() sheetId = '';
  /** What is begun for the player in turn, and what was given to them. */
  @property({ attribute: false }) begun: readonly Begun[] = [];
  @property({ attribute: false }) given: readonly Given[] = [];
  /** Their name where there are others. */
  @property() whose = '';
  /** What can't be read. */
  @property({ attribute: false }) unreadable: readonly Unreadable[] = [];
  @property({ attribute: false }) storage: BrowserStorage | null = null;
  @property({ type: Boolean }) otherTab = false;
  /** For how many months the archive keeps players; null for ever. */
  @property({ attribute: false }) archiveMonths: number | null = null;
  @property({ attribute: false }) inFileNames: WhoInNames = 'code';

  static override styles = [
    look,
    css`
      section {
        margin-top: 26px;
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 10px;
        padding: 12px 0;
      }
      .check {
        display: inline-flex;
        align-items: center;
        gap: 8px;
        min-height: 44px;
      }
      p {
        max-width: 52em;
      }
      .file {
        display: inline-flex;
        align-items: center;
      }
      .file:focus-within {
        outline: 3px solid var(--ink);
        outline-offset: 2px;
      }
    `,
  ];

  override render() {
    return html`
      <h1>Library</h1>
      <section aria-labelledby="players">
        <h2 id="players">Players</h2>
        <p class="quiet">
          Each has takes, a history and a week’s list of their own. Initials or a number will do for a name.
        </p>
        <evenhand-player-list
          .players=${this.players}
          .playerId=${this.playerId}
          .archiveMonths=${this.archiveMonths}
        ></evenhand-player-list>
      </section>
      <evenhand-week-sheets
        .sheets=${this.sheets}
        .sheetId=${this.sheetId}
        .players=${activePlayers(this.players).length < 2 ? [] : this.players}
        .makes=${true}
      ></evenhand-week-sheets>
      <evenhand-written-papers
        .begun=${this.begun}
        .given=${this.given}
        .whose=${this.whose}
      ></evenhand-written-papers>
      <section aria-labelledby="files">
        <h2 id="files">Files</h2>
        <p>
          Takes, phrases, rigs, week sheets, MIDI files and backups may be dropped anywhere on this page,
          several at once.
        </p>
        <div class="row">
          <label class="button file">
            Open files
            <input type="file" class="visually-hidden" multiple @change=${this.#chosen} />
          </label>
          <button @click=${() => fire(this, { kind: 'backup' })}>Download a backup of everything</button>
          <label class="check">
            In names of files:
            <select
              @change=${({ target }: Event) => {
                const as = whoInNames.find(
                  (one) => target instanceof HTMLSelectElement && one === target.value,
                );
                if (as !== undefined) fire(this, { kind: 'names in files', as });
              }}
            >
              ${whoInNames.map(
                (as) =>
                  html`<option value=${as} ?selected=${as === this.inFileNames}>${whoWords[as]}</option>`,
              )}
            </select>
          </label>
        </div>
        <p class="quiet">
          A backup that is opened is merged with what is here: the newer of two stays, and nothing newer is
          written over.
        </p>
      </section>
      <evenhand-unreadable .unreadable=${this.unreadable}></evenhand-unreadable>
      <section aria-labelledby="storage">
        <h2 id="storage">Storage</h2>
        <p>${storageWords(this.storage)}</p>
        ${
          this.otherTab
            ? html`<p>
                Evenhand is open in another tab too. Both keep what is played in them, and show the same
                within a second.
              </p>`
            : nothing
        }
      </section>
    `;
  }

  #chosen(event: Event): void {
    if (!(event.target instanceof HTMLInputElement)) return;
    const files = [...(event.target.files ?? [])];
    event.target.value = '';
    if (files.length > 0) fire(this, { kind: 'add files', files });
  }
}

const whoWords: Readonly<Record<WhoInNames, string>> = {
  code: 'the player’s short code',
  name: 'the player’s name',
  nobody: 'no player',
};

/** A size in MB, from a thousand of them on in GB. */
const sizeWords = (mb: number): string =>
  mb < 1000 ? `${fixed(mb, mb < 10 ? 1 : 0)} MB` : `${fixed(mb / 1000, 0)} GB`;

function storageWords(storage: BrowserStorage | null): string {
  if (storage === null) return 'This browser does not say how much room there is.';
  const used = storage.usedMb === null ? '' : ` ${sizeWords(storage.usedMb)} are in use.`;
  const free = storage.freeMb === null ? '' : ` About ${sizeWords(storage.freeMb)} are free.`;
  const lasting = storage.lasting
    ? 'This browser keeps the library until you delete it.'
    : 'This browser may clear the library when it runs short of room: download a backup now and then.';
  return `${lasting}${used}${free}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-library-screen': LibraryScreen;
  }
}
