import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { InputError } from '../../errors';
import { alsoCalled } from '../../exercises/phrase';
import { checkedBpm } from '../../exercises/tempo';
import type { FootSlot, GridBar, Phrase, Slot } from '../../exercises/types';
import { asWritten, type Performance } from '../../exercises/performance';
import type { Build } from '../../state/phrase-choice';
import { type Pace, paceShapes, steadyPace } from '../../state/pace';
import { limitsNames, type Limits } from '../../settings';
import { columnsOf, spokenSticking } from '../../sessions/paper/strip/columns';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import '../notation/notation';
import '../shared/number-field';
import './phrase-builder';
import type { NamedChoice } from './phrase-builder';
import './phrase-performance';
import './kept-phrases';
import { capital } from '../shared/numbers';
import { lengthWords } from './phrase-words';
import './phrase-tools';
import type { PhraseView } from './phrase-tools';
import { phraseStyles } from './phrase-styles';
import { stickingRows, stickingStyles } from '../shared/sticking-rows';

const MOST_CYCLES = 200;

const paceWords: Readonly<Record<Pace['shape'], string>> = {
  steady: 'nowhere: it stays',
  'to the end': 'on to another by the end',
  'there and back': 'to another and back',
};

/**
 * Phrase: choose one or type its sticking, see every bar of it at once, set tempo, cycles and limits, and go and play.
 * @fires action phrase {name} @fires action build {change} @fires action bars {change} @fires action type phrase {text}
 * @fires action tempo {bpm} @fires action pace {change} @fires action performance {change} @fires action cycles {cycles} @fires action limits {limits} @fires action play
 * @fires action save phrase {name} @fires action phrase {name} @fires action delete phrase {name} @fires action share phrase
 * @fires action hear phrase {hand, speed} @fires action stop sound @fires action phrase sheet the phrase is to be printed
 */
@customElement('evenhand-phrase-screen')
export class PhraseScreen extends LitElement {
  /** Bundled and saved phrases. */
  @property({ attribute: false }) choices: readonly NamedChoice[] = [];
  /** Name of the chosen bundled phrase, or null where sticking was typed. */
  @property({ attribute: false }) chosen: string | null = null;
  /** What is worked on, in words. */
  @property({ attribute: 'phrase-title' }) phraseTitle = '';
  /** Bars and slots of one cycle of it. */
  @property({ attribute: false }) bars: readonly GridBar[] = [];
  @property({ attribute: false }) slots: readonly Slot[] = [];
  /** What the feet do, cycle by cycle until it comes round again. */
  @property({ attribute: false }) feet: readonly (readonly FootSlot[])[] = [];
  /** The sticking text in the field, and what is wrong with it. */
  @property() sticking = '';
  @property({ attribute: 'sticking-error' }) stickingError = '';
  /** Of whatever was typed. */
  @property() phraseError = '';
  @property({ type: Number }) bpm = 84;
  @property({ type: Number }) cycles = 8;
  @property() limits: Limits = 'working';
  @property({ type: Number, attribute: 'partials-per-beat' }) partialsPerBeat = 4;
  @property({ type: Number, attribute: 'beats-per-bar' }) beatsPerBar = 4;
  /** Sticking text of the pattern that is varied, and what is made of it. */
  @property() pattern = '';
  @property({ attribute: false }) build: Build | null = null;
  /** True where the phrase can be led by either hand as it stands. */
  @property({ type: Boolean, attribute: 'has-leads' }) hasLeads = false;
  @property({ attribute: false }) pace: Pace = steadyPace;
  @property({ attribute: false }) performance: Performance = asWritten;
  /** True where the phrase brings a voicing of its own. */
  @property({ type: Boolean, attribute: 'own-voicing' }) ownVoicing = false;
  @property({ attribute: 'feet-error' }) feetError = '';
  @property({ attribute: 'dyn-error' }) dynError = '';
  /** Names of the player's own phrases. */
  @property({ attribute: false }) saved: readonly string[] = [];
  /** What to mind about the phrase: seams that make three strokes of one hand. */
  @property({ attribute: false }) warnings: readonly string[] = [];

  /** The phrase itself, for its notation. */
  @property({ attribute: false }) phrase: Phrase | null = null;
  /** True while the phrase sounds. */
  @property({ type: Boolean }) hearing = false;

  @state() private view: PhraseView = 'sticking';

  static override styles = [look, stickingStyles, phraseStyles];

  override render() {
    return html`
      <div class="top">
        <div>
          <h1>${this.phraseTitle}</h1>
          <p class="quiet">${lengthWords(this.bars, this.cycles, this.bpm, this.pace)}</p>
        </div>
        <button
          class="strong play"
          ?disabled=${this.bars.length === 0 || this.phraseError !== ''}
          @click=${() => fire(this, { kind: 'go', screen: 'play' })}
        >
          Play this
        </button>
      </div>
      ${this.#numbers()} ${this.warnings.length === 0 ? nothing : this.#warnings()}
      <div class="columns">
        <div class="choose">
          ${this.#builder()} ${this.#performance()} ${this.#typing()} ${this.#keptPhrases()}
        </div>
        <div class="shown">${this.#tools()} ${this.#bars()}</div>
      </div>
      <p class="quiet small hint">
        No kit at hand? On Play, choose a take by the model player as the input: it plays as if it were a kit.
        Review opens them.
      </p>
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
        @number=${(event: CustomEvent<{ value: number }>) => fire(this, { kind: 'tempo', bpm: event.detail.value })}
      ></evenhand-number-field>
      ${this.#pace()}
      <evenhand-number-field
        label="Cycles"
        unit="times round"
        .value=${this.cycles}
        .least=${1}
        .most=${MOST_CYCLES}
        .rule=${checkedCycles}
        @number=${(event: CustomEvent<{ value: number }>) => fire(this, { kind: 'cycles', cycles: event.detail.value })}
      ></evenhand-number-field>
      <label class="limits">
        <span>Limits</span>
        <select .value=${this.limits} @change=${this.#chooseLimits}>
          ${limitsNames.map((name) => html`<option value=${name} ?selected=${name === this.limits}>${name}</option>`)}
        </select>
      </label>
    </div>`;
  }

  #pace() {
    const { shape, toBpm } = this.pace;
    const toShape = ({ target }: Event): void => {
      const found = paceShapes.find((one) => target instanceof HTMLSelectElement && one === target.value);
      if (found !== undefined) fire(this, { kind: 'pace', change: { shape: found } });
    };
    return html`<label class="limits">
        <span>Tempo goes</span>
        <select @change=${toShape}>
          ${paceShapes.map((one) => html`<option value=${one} ?selected=${one === shape}>${paceWords[one]}</option>`)}
        </select>
      </label>
      ${
        shape === 'steady'
          ? nothing
          : html`<evenhand-number-field
              label="To"
              unit="bpm"
              .value=${toBpm}
              .least=${20}
              .most=${400}
              .rule=${checkedBpm}
              @number=${(event: CustomEvent<{ value: number }>) =>
                fire(this, { kind: 'pace', change: { toBpm: event.detail.value } })}
            ></evenhand-number-field>`
      }`;
  }

  #builder() {
    return html`<evenhand-phrase-builder
      .choices=${this.choices}
      .chosen=${this.chosen}
      .build=${this.build}
      .pattern=${this.pattern}
      .beatsPerBar=${this.beatsPerBar}
      .partialsPerBeat=${this.partialsPerBeat}
      .hasLeads=${this.hasLeads}
    ></evenhand-phrase-builder>`;
  }

  #performance() {
    return html`<evenhand-phrase-performance
      .performance=${this.performance}
      .ownVoicing=${this.ownVoicing}
      .feet=${this.phrase?.feet ?? ''}
      .feetError=${this.feetError}
      .dynError=${this.dynError}
      .beatsPerBar=${this.beatsPerBar}
      .partialsPerBeat=${this.partialsPerBeat}
    ></evenhand-phrase-performance>`;
  }

  #keptPhrases() {
    return html`<evenhand-kept-phrases
      .saved=${this.saved}
      .suggested=${this.phraseTitle}
      ?disabled=${this.stickingError !== ''}
    ></evenhand-kept-phrases>`;
  }

  #typing() {
    const bad = this.stickingError !== '';
    return html`<div class="typing">
      <label for="sticking">Its sticking, a bar a line; type here to change it</label>
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
        <b>R</b> <b>L</b> accent, <b>r</b> <b>l</b> tap, <b>(r)</b> <b>(l)</b> ghost, <b>{l}R</b> flam,
        <b>{ll}R</b> drag, <b>-</b> rest, <b>|</b> ends a bar; spaces are for reading.
      </p>
    </div>`;
  }

  #tools() {
    return html`<evenhand-phrase-tools
      .view=${this.view}
      .hearing=${this.hearing}
      .disabled=${this.bars.length === 0}
      @view=${(event: CustomEvent<{ view: PhraseView }>) => (this.view = event.detail.view)}
    ></evenhand-phrase-tools>`;
  }

  #bars() {
    const sticking = html`<ol class="bars" aria-label="Bars of a cycle">
      ${this.bars.map((bar) => this.#bar(bar))}
    </ol>`;
    if (this.view === 'sticking' || this.phrase === null) return sticking;
    return html`<evenhand-notation .phrase=${this.phrase}>${sticking}</evenhand-notation>`;
  }

  #bar(bar: GridBar) {
    const columns = columnsOf(bar, this.slots, this.feet[0]);
    const also = alsoCalled[bar.variation];
    return html`<li>
      <h2>
        ${barWords(bar)}
        ${also === undefined ? nothing : html`<span class="quiet">also called ${also}</span>`}
      </h2>
      <span class="visually-hidden">${spokenSticking(columns)}</span>
      ${stickingRows(columns)}
    </li>`;
  }

  #warnings() {
    return html`<ul class="warnings">
      ${this.warnings.map((words) => html`<li>${words}</li>`)}
    </ul>`;
  }

  #type(event: Event): void {
    if (event.target instanceof HTMLTextAreaElement)
      fire(this, { kind: 'type phrase', text: event.target.value });
  }

  #chooseLimits(event: Event): void {
    if (!(event.target instanceof HTMLSelectElement)) return;
    const value = event.target.value;
    const limits = limitsNames.find((name) => name === value);
    if (limits !== undefined) fire(this, { kind: 'limits', limits });
  }
}

/** "Accent on 1", "Listen to accent on 1", "Accent on 1, dynamics p < < f". */
function barWords({ variation, role, dyn }: GridBar): string {
  const asks = { play: '', listen: 'listen to ', say: 'count aloud ' }[role];
  return capital(`${asks}${variation}${dyn === undefined ? '' : `, dynamics ${dyn}`}`);
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
