import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { HistoryView } from '../practice/history';
import { phrasesPlayed, rigsPlayed, type Choice } from '../practice/history/choices';
import { weeksPlayed } from '../practice/history/minutes';
import type { TakeSummary } from '../sessions/take-record';
import { tell } from './events';
import { look } from './look';
import { fixed } from './numbers';

/**
 * History: how a phrase on a rig changed over weeks, and minutes of practice a week.
 * @fires history {kind: phrase | rig, id}
 */
@customElement('evenhand-history-screen')
export class HistoryScreen extends LitElement {
  /** All takes of the player in turn. */
  @property({ attribute: false }) takes: readonly TakeSummary[] = [];
  @property({ attribute: false }) view: HistoryView = { phraseKey: null, rigId: null };

  static override styles = [
    look,
    css`
      .choose {
        display: flex;
        flex-wrap: wrap;
        gap: 10px 18px;
        margin: 12px 0 6px;
      }
      .choose span {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      select {
        max-width: min(34em, 88vw);
      }
      section {
        margin-top: 26px;
      }
      .weeks {
        max-width: 34em;
      }
      td.figure,
      th.figure {
        text-align: right;
      }
    `,
  ];

  override render() {
    if (this.takes.length === 0) {
      return html`<h1>History</h1>
        <p class="quiet">Nothing yet: it begins with your first take.</p>`;
    }
    const phrases = phrasesPlayed(this.takes);
    const phrase = phrases.find(({ id }) => id === this.view.phraseKey) ?? phrases[0];
    const rigs = rigsPlayed(this.takes, phrase.id);
    const rig = rigs.find(({ id }) => id === this.view.rigId) ?? rigs[0];
    return html`
      <h1>History</h1>
      <div class="choose">
        ${this.#choice('phrase', 'Phrase', phrases, phrase)}${this.#choice('rig', 'Rig', rigs, rig)}
      </div>
      ${this.#weeks()}
    `;
  }

  #choice(kind: 'phrase' | 'rig', words: string, choices: readonly Choice[], chosen: Choice) {
    return html`<label>
      <span>${words}</span>
      <select
        @change=${(event: Event) => {
          if (event.target instanceof HTMLSelectElement)
            tell(this, 'history', { kind, id: event.target.value });
        }}
      >
        ${choices.map(
          ({ id, name, takes }) =>
            html`<option value=${id} ?selected=${id === chosen.id}>${name} · ${takes} takes</option>`,
        )}
      </select>
    </label>`;
  }

  #weeks() {
    const weeks = weeksPlayed(this.takes, -new Date().getTimezoneOffset());
    return html`<section aria-labelledby="weeks">
      <h2 id="weeks">Practice, week by week</h2>
      <table class="weeks">
        <thead>
          <tr>
            <th scope="col">week from</th>
            <th scope="col" class="figure">minutes</th>
            <th scope="col" class="figure">days</th>
            <th scope="col" class="figure">takes</th>
          </tr>
        </thead>
        <tbody>
          ${weeks.map(
            ({ from, minutes, days, takes }) =>
              html`<tr>
                <td>${from}</td>
                <td class="figure">${fixed(minutes, 0)}</td>
                <td class="figure">${days}</td>
                <td class="figure">${takes}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      <p class="quiet small">
        Minutes are those of the takes themselves, of every phrase, without the pauses.
      </p>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-history-screen': HistoryScreen;
  }
}
