import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { leads, stages, type Lead, type Stage } from '../../exercises/build-phrase';
import { variationRules, type VariationRule } from '../../exercises/rules';
import type { Build } from '../../state/phrase-choice';
import { fire } from '../shared/events';
import { look } from '../shared/look';

/** A bundled or saved phrase that can be taken. */
export interface NamedChoice {
  readonly name: string;
  readonly group: string;
}

const stageWords: Readonly<Record<Stage, string>> = {
  learn: 'learn: 4 bars of each',
  join: 'join: 2 bars of each',
  walk: 'walk: 1 bar of each',
  test: 'test: half a bar of each',
  shuffle: 'shuffle: the order drawn',
};

const leadWords: Readonly<Record<Lead, string>> = {
  right: 'right hand leads',
  left: 'left hand leads',
  'both, a cycle each': 'both, a cycle each',
  'both, a bar each': 'both, a bar each',
};

/**
 * Which phrase, and what is made of it: a rule, which hand leads, the stage.
 * @fires action phrase {name} @fires action build {change} @fires action bars {change}
 */
@customElement('evenhand-phrase-builder')
export class PhraseBuilder extends LitElement {
  @property({ attribute: false }) choices: readonly NamedChoice[] = [];
  /** Name of the phrase that is chosen or was varied; null where it was typed. */
  @property({ attribute: false }) chosen: string | null = null;
  @property({ attribute: false }) build: Build | null = null;
  /** Sticking text of the pattern that is varied. */
  @property() pattern = '';
  @property({ type: Number, attribute: 'beats-per-bar' }) beatsPerBar = 4;
  @property({ type: Number, attribute: 'partials-per-beat' }) partialsPerBeat = 4;
  /** True where the phrase can be led by either hand as it stands, too. */
  @property({ type: Boolean, attribute: 'has-leads' }) hasLeads = false;

  static override styles = [
    look,
    css`
      :host {
        display: grid;
        gap: 14px;
      }
      label > span {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      select {
        width: 100%;
      }
      .two {
        display: grid;
        grid-template-columns: 1fr 1fr;
        gap: 14px;
      }
      code {
        font: inherit;
        font-weight: 700;
        letter-spacing: 0.04em;
      }
    `,
  ];

  override render() {
    const { build } = this;
    if (build === null) return nothing;
    const varied = build.rule !== null;
    return html`
      <label>
        <span>Phrase or rudiment</span>
        <select .value=${this.chosen ?? ''} @change=${(event: Event) => this.#phrase(event)}>
          ${this.chosen === null ? html`<option value="" selected>typed by hand</option>` : nothing}
          ${this.#groups()}
        </select>
      </label>
      <label>
        <span>Varied by</span>
        <select .value=${build.rule ?? ''} @change=${(event: Event) => this.#rule(event)}>
          <option value="" ?selected=${!varied}>nothing: as it stands</option>
          ${variationRules.map((rule) => html`<option value=${rule} ?selected=${rule === build.rule}>${rule}</option>`)}
        </select>
      </label>
      ${
        varied
          ? html`<p class="quiet small">of the pattern <code>${this.pattern}</code></p>
              <div class="two">${this.#lead(build)} ${this.#stage(build)}</div>
              ${build.stage === 'shuffle' ? this.#shuffle(build) : nothing}`
          : this.hasLeads
            ? this.#lead(build, leads.slice(0, 2))
            : nothing
      }
      <div class="two">
        ${this.#count('Beats in a bar', this.beatsPerBar, 12, (beatsPerBar) => ({ beatsPerBar }))}
        ${this.#count('Partials in a beat', this.partialsPerBeat, 8, (partialsPerBeat) => ({ partialsPerBeat }))}
      </div>
    `;
  }

  #groups() {
    const groups = [...new Set(this.choices.map(({ group }) => group))];
    return groups.map(
      (group) =>
        html`<optgroup label=${group}>
          ${this.choices
            .filter((choice) => choice.group === group)
            .map(
              ({ name }) => html`<option value=${name} ?selected=${name === this.chosen}>${name}</option>`,
            )}
        </optgroup>`,
    );
  }

  #lead(build: Build, offered: readonly Lead[] = leads) {
    return html`<label>
      <span>Lead</span>
      <select @change=${(event: Event) => this.#change(event, leads, (lead) => ({ lead }))}>
        ${offered.map((lead) => html`<option value=${lead} ?selected=${lead === build.lead}>${leadWords[lead]}</option>`)}
      </select>
    </label>`;
  }

  #stage(build: Build) {
    return html`<label>
      <span>Stage</span>
      <select @change=${(event: Event) => this.#change(event, stages, (stage) => ({ stage }))}>
        ${stages.map(
          (stage) =>
            html`<option value=${stage} ?selected=${stage === build.stage}>${stageWords[stage]}</option>`,
        )}
      </select>
    </label>`;
  }

  #shuffle(build: Build) {
    return html`<p>
      <button @click=${() => fire(this, { kind: 'build', change: { seed: build.seed + 1 } })}>
        Draw another order
      </button>
    </p>`;
  }

  #count(
    label: string,
    value: number,
    most: number,
    change: (count: number) => { readonly beatsPerBar?: number; readonly partialsPerBeat?: number },
  ) {
    const counts = Array.from({ length: most }, (_, index) => index + 1);
    return html`<label>
      <span>${label}</span>
      <select
        @change=${(event: Event) => {
          if (event.target instanceof HTMLSelectElement)
            fire(this, { kind: 'bars', change: change(Number(event.target.value)) });
        }}
      >
        ${counts.map((count) => html`<option value=${count} ?selected=${count === value}>${count}</option>`)}
      </select>
    </label>`;
  }

  #phrase(event: Event): void {
    if (event.target instanceof HTMLSelectElement && event.target.value !== '') {
      fire(this, { kind: 'phrase', name: event.target.value });
    }
  }

  #rule(event: Event): void {
    if (!(event.target instanceof HTMLSelectElement)) return;
    const { value } = event.target;
    const rule: VariationRule | null = variationRules.find((one) => one === value) ?? null;
    fire(this, { kind: 'build', change: { rule } });
  }

  #change<Value extends string>(
    event: Event,
    values: readonly Value[],
    change: (value: Value) => Partial<Build>,
  ): void {
    if (!(event.target instanceof HTMLSelectElement)) return;
    const { value } = event.target;
    const found = values.find((one) => one === value);
    if (found !== undefined) fire(this, { kind: 'build', change: change(found) });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-phrase-builder': PhraseBuilder;
  }
}
