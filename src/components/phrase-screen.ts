import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { InputError } from '../errors';
import { alsoCalled } from '../exercises/phrase';
import { checkedBpm } from '../exercises/tempo';
import type { GridBar, Slot } from '../exercises/types';
import { limitsNames, type Limits } from '../settings';
import { columnsOf, spokenSticking } from './bar-columns';
import { tell } from './events';
import { look } from './look';
import './number-field';
import { capital, fixed } from './numbers';
import { lengthWords } from './phrase-words';
import { phraseStyles } from './phrase-styles';
import { stickingRows, stickingStyles } from './sticking-rows';
import type { PhraseChoice, TakeChoice } from './types';

const MOST_CYCLES = 200;
const partialsChoices = [1, 2, 3, 4, 5, 6, 7, 8] as const;

/**
 * Phrase: choose one or type its sticking, see every bar of it at once, set tempo, cycles and limits, and go and play.
 * @fires phrase {name} @fires sticking {text} @fires partials {partialsPerBeat}
 * @fires tempo {bpm} @fires cycles {cycles} @fires limits {limits} @fires play
 * @fires open-take {id} a bundled take is to be opened in Review
 * @fires choose-input {id} a bundled take is to be played from
 */
@customElement('evenhand-phrase-screen')
export class PhraseScreen extends LitElement {
  @property({ attribute: false }) phrases: readonly PhraseChoice[] = [];
  /** Name of the chosen bundled phrase, or null where sticking was typed. */
  @property({ attribute: false }) chosen: string | null = null;
  /** What is worked on, in words. */
  @property({ attribute: 'phrase-title' }) phraseTitle = '';
  /** Bars and slots of one cycle of it. */
  @property({ attribute: false }) bars: readonly GridBar[] = [];
  @property({ attribute: false }) slots: readonly Slot[] = [];
  /** The sticking text in the field, and what is wrong with it. */
  @property() sticking = '';
  @property({ attribute: 'sticking-error' }) stickingError = '';
  @property({ type: Number }) bpm = 84;
  @property({ type: Number }) cycles = 8;
  @property() limits: Limits = 'working';
  @property({ type: Number, attribute: 'partials-per-beat' }) partialsPerBeat = 4;
  /** Bundled takes of the model player. */
  @property({ attribute: false }) bundled: readonly TakeChoice[] = [];

  static override styles = [look, stickingStyles, phraseStyles];

  override render() {
    return html`
      <div class="top">
        <div>
          <h1>${this.phraseTitle}</h1>
          <p class="quiet">${lengthWords(this.bars, this.cycles, this.bpm)}</p>
        </div>
        <button class="strong play" ?disabled=${this.bars.length === 0} @click=${() => tell(this, 'play')}>
          Play this
        </button>
      </div>
      ${this.#numbers()}
      <div class="columns">
        <div class="choose">${this.#choices()} ${this.#typing()}</div>
        <ol class="bars" aria-label="Bars of a cycle">
          ${this.bars.map((bar) => this.#bar(bar))}
        </ol>
      </div>
      ${this.bundled.length === 0 ? nothing : this.#bundled()}
    `;
  }

  #numbers() {
    return html`<div class="numbers">
      <evenhand-number-field
        label="Tempo"
        unit="bpm"
        .value=${this.bpm}
        .least=${20}
        .most=${400}
        .rule=${checkedBpm}
        @number=${(event: CustomEvent<{ value: number }>) => tell(this, 'tempo', { bpm: event.detail.value })}
      ></evenhand-number-field>
      <evenhand-number-field
        label="Cycles"
        unit="times round"
        .value=${this.cycles}
        .least=${1}
        .most=${MOST_CYCLES}
        .rule=${checkedCycles}
        @number=${(event: CustomEvent<{ value: number }>) => tell(this, 'cycles', { cycles: event.detail.value })}
      ></evenhand-number-field>
      <label class="limits">
        <span>Limits</span>
        <select .value=${this.limits} @change=${this.#chooseLimits}>
          ${limitsNames.map((name) => html`<option value=${name} ?selected=${name === this.limits}>${name}</option>`)}
        </select>
      </label>
    </div>`;
  }

  #choices() {
    return html`<fieldset>
      <legend>Phrases</legend>
      ${this.phrases.map(
        ({ name, title, alsoCalled: also }) =>
          html`<label class="choice">
            <input
              type="radio"
              name="phrase"
              .checked=${name === this.chosen}
              @change=${() => tell(this, 'phrase', { name })}
            />
            <span>${title}${also === undefined ? nothing : html` <span class="quiet">(${also})</span>`}</span>
          </label>`,
      )}
    </fieldset>`;
  }

  #typing() {
    const bad = this.stickingError !== '';
    return html`<div class="typing">
      <label for="sticking">Or type the sticking</label>
      <textarea
        id="sticking"
        rows="5"
        spellcheck="false"
        autocapitalize="off"
        autocomplete="off"
        aria-invalid=${bad ? 'true' : nothing}
        aria-describedby="sticking-help ${bad ? 'sticking-error' : ''}"
        .value=${this.sticking}
        @input=${this.#type}
      ></textarea>
      ${bad ? html`<p class="error" id="sticking-error" role="alert">${this.stickingError}</p>` : nothing}
      <p class="quiet small" id="sticking-help">
        <b>R</b> <b>L</b> accent, <b>r</b> <b>l</b> tap, <b>(r)</b> <b>(l)</b> ghost, <b>-</b> rest,
        <b>|</b> ends a bar; spaces are for reading.
      </p>
      <label class="partials">
        <span>Partials in a beat</span>
        <select .value=${String(this.partialsPerBeat)} @change=${this.#choosePartials}>
          ${partialsChoices.map(
            (count) =>
              html`<option value=${count} ?selected=${count === this.partialsPerBeat}>${count}</option>`,
          )}
        </select>
      </label>
    </div>`;
  }

  #bar(bar: GridBar) {
    const columns = columnsOf(bar, this.slots);
    const also = alsoCalled[bar.variation];
    return html`<li>
      <h2>
        ${capital(bar.variation)}
        ${also === undefined ? nothing : html`<span class="quiet">also called ${also}</span>`}
      </h2>
      <span class="heard">${spokenSticking(columns)}</span>
      ${stickingRows(columns)}
    </li>`;
  }

  #bundled() {
    return html`<section class="bundled" aria-labelledby="bundled">
      <h2 id="bundled">Takes by the model player</h2>
      <p class="quiet">
        Computed, nobody played them; each has one fault. Play one as if it were a kit, or open its review.
      </p>
      <table>
        <tbody>
          ${this.bundled.map(
            ({ id, title, bpm, sentence }) =>
              html`<tr>
                <th scope="row">
                  ${title} ${bpm === null ? nothing : html`<span class="quiet">${fixed(bpm, 0)} bpm</span>`}
                </th>
                <td>${sentence}</td>
                <td class="end">
                  <button
                    class="plain"
                    aria-label="Play from ${title}"
                    @click=${() => tell(this, 'choose-input', { id })}
                  >
                    Play from it
                  </button>
                  <button
                    class="plain"
                    aria-label="Review ${title}"
                    @click=${() => tell(this, 'open-take', { id })}
                  >
                    Review
                  </button>
                </td>
              </tr>`,
          )}
        </tbody>
      </table>
    </section>`;
  }

  #type(event: Event): void {
    if (event.target instanceof HTMLTextAreaElement) tell(this, 'sticking', { text: event.target.value });
  }

  #chooseLimits(event: Event): void {
    if (!(event.target instanceof HTMLSelectElement)) return;
    const value = event.target.value;
    const limits = limitsNames.find((name) => name === value);
    if (limits !== undefined) tell(this, 'limits', { limits });
  }

  #choosePartials(event: Event): void {
    if (event.target instanceof HTMLSelectElement) {
      tell(this, 'partials', { partialsPerBeat: Number(event.target.value) });
    }
  }
}

function checkedCycles(cycles: number): number {
  if (Number.isInteger(cycles) && cycles >= 1 && cycles <= MOST_CYCLES) return cycles;
  throw new InputError('cycles', `must be a whole number from 1 to ${MOST_CYCLES}`, cycles);
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-phrase-screen': PhraseScreen;
  }
}
