import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { AddedFile, Library } from '../../state/library';
import { screens, type Screen } from '../../state/screens';
import type { UnkeptTake } from '../../state/unkept';
import { screenNames } from '../../words/screen-names';
import { fire } from './events';
import { FileDrop } from './file-drop';
import { look } from './look';
import { focusHeading } from './screen-heading';
import type { PlayerChoice } from './types';
import '../library/added-files';
import './unkept-takes';

/**
 * The shell: name, screens, what is being worked on, messages, and the page as a place to drop takes on.
 * @slot - the screen
 * @fires action go {screen}
 * @fires action add files {files} dropped on the page
 * @fires action problem the problem has been read
 * @fires action choose player {id} another player’s turn
 * @fires action load update a newer version is to be loaded
 */
@customElement('evenhand-app')
export class App extends LitElement {
  @property() screen: Screen = 'today';
  /** The right-hand line: phrase · bpm · click. */
  @property() line = '';
  /** Said politely to screen readers, and shown in quiet ink. */
  @property() message = '';
  /** What went wrong: place, rule and value; empty where nothing did. */
  @property() problem = '';
  /** Takes that could not be kept, save the one whose sentence is on the screen. */
  @property({ attribute: false }) unkept: readonly UnkeptTake[] = [];
  /** Why the take that is running is not being kept; empty where it is. */
  @property() recordingFails = '';
  /** Whose takes are kept apart; with one there is nothing to switch. */
  @property({ attribute: false }) players: readonly PlayerChoice[] = [];
  /** All whose files may come, those in the archive too. */
  @property({ attribute: false }) everybody: readonly PlayerChoice[] = [];
  @property() playerId = '';
  /** True while a take is played: whose turn it is stays, and nothing leads away from Play but Stop. */
  @property({ type: Boolean, reflect: true }) playing = false;
  /** What became of the last files. */
  @property({ attribute: false }) files: readonly AddedFile[] = [];
  /** The file that is being read. */
  @property({ attribute: false }) reading: Library['reading'] = null;
  /** Whose limits are used. */
  @property() limits = '';
  /** True while a newer version waits for the player to say so. */
  @property({ type: Boolean }) updateWaits = false;

  static override styles = [
    look,
    css`
      :host {
        display: flex;
        flex-direction: column;
        min-height: 100vh;
        max-width: 1480px;
        margin: 0 auto;
        padding: 0 var(--edge);
      }
      /* Seen only while it has the focus. */
      .skip {
        position: absolute;
        top: 0;
        left: -10000px;
        z-index: 2;
        padding: 12px 16px;
        background: var(--ink);
        color: var(--paper);
      }
      .skip:focus {
        left: var(--edge);
      }
      header {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 0 24px;
        border-bottom: 1px solid var(--line);
      }
      .name {
        padding: 15px 0;
        font-size: 19px;
        font-weight: 800;
      }
      nav {
        display: flex;
        flex-wrap: wrap;
        gap: 4px;
      }
      nav a {
        padding: 15px 9px 13px;
        border-bottom: 3px solid transparent;
        margin-bottom: -2px;
        color: var(--quiet);
        text-decoration: none;
      }
      nav a:hover {
        color: var(--ink);
      }
      nav a[aria-current] {
        border-color: var(--ink);
        color: var(--ink);
        font-weight: 600;
      }
      @media (forced-colors: active) {
        /* There a transparent edge is drawn. */
        nav a:not([aria-current]) {
          border-color: Canvas;
        }
      }
      .line {
        flex: 1 1 0;
        min-width: 0;
        overflow: hidden;
        text-align: right;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      @media (max-width: 900px) {
        header {
          column-gap: 14px;
        }
        nav {
          gap: 0;
        }
        .line {
          flex: 1 1 100%;
          padding-bottom: 8px;
          font-size: 15px;
          text-align: left;
          white-space: normal;
        }
      }
      .problem {
        display: flex;
        justify-content: space-between;
        align-items: baseline;
        gap: 24px;
        padding: 12px 0 12px 16px;
        border-left: 6px solid var(--out);
        margin-top: 12px;
      }
      .problem strong {
        color: var(--out);
      }
      /* Where they were, so that nothing on Play moves. */
      :host([playing]) :is(nav, .turn, footer) {
        visibility: hidden;
      }
      .turn select {
        min-height: 36px;
        max-width: 11em;
        padding: 2px 6px;
      }
      .message {
        position: fixed;
        right: var(--edge);
        bottom: 12px;
        padding: 6px 12px;
        background: var(--paper);
        color: var(--ink);
        font-size: 15px;
      }
      .message:empty {
        padding: 0;
      }
      /* On a phone the foot of the window is where the sticking stands. */
      @media (max-width: 600px) {
        :host([playing]) :is(nav, .turn) {
          display: none;
        }
        .message {
          top: 0;
          right: 0;
          bottom: auto;
          left: 0;
          z-index: 2;
          padding: 10px var(--edge);
        }
        .message:empty {
          padding: 0;
        }
      }
      main {
        flex: 1;
        padding: 14px 0 32px;
      }
      footer {
        padding: 14px 0 18px;
        border-top: 1px solid var(--line);
        color: var(--quiet);
        font-size: 15px;
      }
      @media print {
        :host {
          min-height: 0;
          padding: 0;
        }
        main {
          padding: 0;
        }
        header,
        footer,
        .message,
        [role='alert'] {
          display: none;
        }
      }
      .drop {
        position: fixed;
        inset: 0;
        z-index: 3;
        display: grid;
        place-items: center;
        border: 6px solid var(--ink);
        background: var(--paper);
        font-size: 30px;
        font-weight: 700;
        pointer-events: none;
      }
    `,
  ];

  protected readonly drop = new FileDrop(this, (files) => fire(this, { kind: 'add files', files }));

  /** The link that led to the screen keeps the focus; whatever else led there is gone with its screen. */
  #byLink: Screen | null = null;

  protected override updated(changed: PropertyValues<this>): void {
    // What the page opens with is read from its top.
    if (!changed.has('screen') || changed.get('screen') === undefined) return;
    const { screen } = this;
    const isByLink = this.#byLink === screen;
    this.#byLink = null;
    if (!isByLink) void focusHeading(this.firstElementChild, () => this.screen === screen);
  }

  override render() {
    return html`
      <header>
        <button class="skip" @click=${this.#skip}>Skip the links</button>
        <span class="name">Evenhand</span>
        <nav aria-label="Screens">${screens.map((screen) => this.#link(screen, screenNames[screen]))}</nav>
        <span class="line">${this.line}</span>
        ${this.#turn()}
      </header>
      <div role="alert">
        ${
          this.problem === ''
            ? nothing
            : html`<div class="problem">
                <p><strong>That didn’t work.</strong> ${this.problem}</p>
                <button class="plain" @click=${() => fire(this, { kind: 'problem', problem: '' })}>
                  Dismiss
                </button>
              </div>`
        }
      </div>
      <evenhand-unkept-takes .takes=${this.unkept} .failing=${this.recordingFails}></evenhand-unkept-takes>
      <evenhand-added-files
        .files=${this.files}
        .players=${this.everybody}
        .playerId=${this.playerId}
        .reading=${this.reading}
      ></evenhand-added-files>
      <main><slot></slot></main>
      <footer>
        Warm up first. Stop at pain or numbness. Rest as long as you play. Protect your hearing. A clinician’s
        advice goes first. ${this.limits === '' ? nothing : html`<p>${this.limits}</p>`}
        ${
          this.updateWaits
            ? html`<p>
                A newer Evenhand is here.
                <button class="plain" @click=${() => fire(this, { kind: 'load update' })}>Load it now</button>
              </p>`
            : nothing
        }
      </footer>
      <p class="message" role="status">${this.message}</p>
      ${this.drop.isOver ? html`<div class="drop">Drop files to take them in</div>` : nothing}
    `;
  }

  #turn() {
    if (this.players.length < 2) return nothing;
    return html`<span class="turn">
      <select
        aria-label="Player"
        .value=${this.playerId}
        ?disabled=${this.playing}
        @change=${(event: Event) => {
          if (event.target instanceof HTMLSelectElement)
            fire(this, { kind: 'choose player', id: event.target.value });
        }}
      >
        ${this.players.map(
          (player) =>
            html`<option value=${player.id} ?selected=${player.id === this.playerId}>${player.name}</option>`,
        )}
      </select>
    </span>`;
  }

  #skip(): void {
    void focusHeading(this.firstElementChild, () => true);
  }

  #link(screen: Screen, name: string) {
    return html`<a
      href="#${screen}"
      aria-current=${screen === this.screen ? 'page' : nothing}
      @click=${(event: Event) => {
        event.preventDefault();
        this.#byLink = screen;
        fire(this, { kind: 'go', screen });
      }}
      >${name}</a
    >`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-app': App;
  }
}
