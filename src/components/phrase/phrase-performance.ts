import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { InputError } from '../../errors';
import { dynShapes } from '../../exercises/dyn-shapes';
import { asWritten, type Performance } from '../../exercises/performance';
import { ostinatos } from '../../exercises/ostinatos';
import { bundledVoicings } from '../../exercises/voicings';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { performanceWords } from './performance-words';
import '../shared/number-field';

const OWN = 'own';
const NONE = 'none';
const PERCENT = 100;
const LEAST_SWING = 50;
const MOST_SWING = 70;

/** An option of a list: what it is called, and what it makes of the performance. */
interface Option {
  readonly value: string;
  readonly words: string;
  readonly change: Partial<Performance>;
}

/**
 * How the phrase is played: surfaces, feet, swing, dynamics, call and response. Folded up it is one line that says so.
 * @fires action performance {change}
 */
@customElement('evenhand-phrase-performance')
export class PhrasePerformance extends LitElement {
  @property({ attribute: false }) performance: Performance = asWritten;
  /** True where the phrase brings a voicing of its own. */
  @property({ type: Boolean, attribute: 'own-voicing' }) ownVoicing = false;
  /** The feet line that is played, empty for none. */
  @property() feet = '';
  @property({ attribute: 'feet-error' }) feetError = '';
  @property({ attribute: 'dyn-error' }) dynError = '';
  @property({ type: Number, attribute: 'beats-per-bar' }) beatsPerBar = 4;
  @property({ type: Number, attribute: 'partials-per-beat' }) partialsPerBeat = 4;

  static override styles = [
    look,
    css`
      summary {
        min-height: 44px;
        padding: 8px 0;
        cursor: pointer;
      }
      summary span {
        color: var(--quiet);
      }
      .fields {
        display: grid;
        gap: 14px;
        padding-top: 6px;
      }
      label > span {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      select,
      input {
        width: 100%;
      }
      input {
        font:
          17px/1.5 ui-monospace,
          'DejaVu Sans Mono',
          monospace;
      }
      .error {
        margin-top: 4px;
        color: var(--out);
        font-weight: 600;
      }
    `,
  ];

  override render() {
    const { performance } = this;
    return html`<details>
      <summary><span>Played</span> ${performanceWords(performance, this.ownVoicing)}</summary>
      <div class="fields">
        ${this.#list('On', this.#voicings(), performance.voicing ?? OWN)}
        ${this.#list('Over feet', this.#ostinatos(), this.#feetChosen())} ${this.#feetText()}
        <evenhand-number-field
          label="Swing: where the second of two partials falls"
          unit="% of their time; 50 is straight"
          .value=${Math.round(performance.swing * PERCENT)}
          .least=${LEAST_SWING}
          .most=${MOST_SWING}
          .rule=${checkedSwing}
          @number=${(event: CustomEvent<{ value: number }>) => this.#tell({ swing: event.detail.value / PERCENT })}
        ></evenhand-number-field>
        ${this.#list('Dynamics of each bar', this.#shapes(), this.#dynChosen())} ${this.#dynText()}
        ${this.#list('Before each bar', firsts, performance.first ?? NONE)}
      </div>
    </details>`;
  }

  #list(label: string, options: readonly Option[], chosen: string) {
    const change = ({ target }: Event): void => {
      const found = options.find(
        ({ value }) => target instanceof HTMLSelectElement && value === target.value,
      );
      if (found !== undefined) this.#tell(found.change);
    };
    return html`<label>
      <span>${label}</span>
      <select .value=${chosen} @change=${change}>
        ${options.map(
          ({ value, words }) => html`<option value=${value} ?selected=${value === chosen}>${words}</option>`,
        )}
      </select>
    </label>`;
  }

  #text(id: 'feet' | 'dyn', label: string, help: string, value: string, error: string) {
    const bad = error !== '';
    return html`<div>
      <label>
        <span>${label}</span>
        <input
          id=${id}
          type="text"
          spellcheck="false"
          autocapitalize="off"
          autocomplete="off"
          aria-invalid=${bad ? 'true' : nothing}
          aria-describedby="${id}-help ${bad ? `${id}-error` : ''}"
          .value=${value}
          @input=${({ target }: Event) => {
            if (target instanceof HTMLInputElement) this.#tell({ [id]: target.value });
          }}
        />
      </label>
      ${bad ? html`<p class="error" id="${id}-error" role="alert">${error}</p>` : nothing}
      <p class="quiet small" id="${id}-help">${help}</p>
    </div>`;
  }

  #feetText() {
    const { feet } = this.performance;
    return this.#text(
      'feet',
      'Feet line, a letter a partial; over and over',
      'K bass drum, H hi-hat, k h soft, [KH] both, - rest.',
      feet ?? this.feet,
      this.feetError,
    );
  }

  #dynText() {
    return this.#text(
      'dyn',
      'Dynamics, a mark a beat',
      'p mp mf f, < louder, > softer.',
      this.performance.dyn ?? '',
      this.dynError,
    );
  }

  #voicings(): readonly Option[] {
    const own = this.ownVoicing ? 'the surfaces of the phrase' : 'one surface, or one a hand';
    return [
      { value: OWN, words: own, change: { voicing: null } },
      ...bundledVoicings.map(({ name }) => ({ value: name, words: name, change: { voicing: name } })),
    ];
  }

  #ostinatos(): readonly Option[] {
    const own = this.performance.voicing === null ? 'those of the phrase' : 'those of the voicing';
    const lines = ostinatos.flatMap(({ name, line }): Option[] => {
      const feet = line(this.beatsPerBar, this.partialsPerBeat);
      return feet === undefined ? [] : [{ value: feet, words: name, change: { feet } }];
    });
    const typed = this.performance.feet;
    const isListed = typed === null || typed === '' || lines.some(({ value }) => value === typed);
    return [
      { value: OWN, words: own, change: { feet: null } },
      { value: NONE, words: 'none', change: { feet: '' } },
      ...lines,
      ...(isListed ? [] : [{ value: typed, words: 'as typed', change: { feet: typed } }]),
    ];
  }

  #feetChosen(): string {
    const { feet } = this.performance;
    return feet === null ? OWN : feet === '' ? NONE : feet;
  }

  #shapes(): readonly Option[] {
    const shapes = dynShapes.map(({ name, line }): Option => {
      const dyn = line(this.beatsPerBar);
      return { value: dyn, words: name, change: { dyn } };
    });
    const typed = this.performance.dyn;
    const isListed = typed === null || typed === '' || shapes.some(({ value }) => value === typed);
    return [
      { value: OWN, words: 'as the phrase has them', change: { dyn: null } },
      { value: NONE, words: 'none', change: { dyn: '' } },
      ...shapes,
      ...(isListed ? [] : [{ value: typed, words: 'as typed', change: { dyn: typed } }]),
    ];
  }

  #dynChosen(): string {
    const { dyn } = this.performance;
    return dyn === null ? OWN : dyn === '' ? NONE : dyn;
  }

  #tell(change: Partial<Performance>): void {
    fire(this, { kind: 'performance', change });
  }
}

const firsts: readonly Option[] = [
  { value: NONE, words: 'nothing', change: { first: null } },
  { value: 'listen', words: 'listen to it (call and response)', change: { first: 'listen' } },
  { value: 'say', words: 'count it aloud', change: { first: 'say' } },
];

function checkedSwing(percent: number): number {
  if (percent >= LEAST_SWING && percent <= MOST_SWING) return percent;
  throw new InputError('Swing', `must be ${LEAST_SWING}–${MOST_SWING} %`, percent);
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-phrase-performance': PhrasePerformance;
  }
}
