import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { checkedBpm } from '../../exercises/tempo';
import { plainPlan, type PlayingPlan, type TakeLength } from '../../state/playing-plan';
import type { Bpm } from '../../units';
import './click-settings';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { PageKeys } from '../shared/page-keys';
import '../shared/number-field';
import { planWords } from './playing-words';

/**
 * How the next take is played: one line, which opens to tempo, length, count-in, ends, and the click.
 * T taps the tempo.
 * @fires action plan {change} @fires action tempo {bpm} @fires action cycles {cycles} @fires action tap {atMs} @fires action tap on pad {on}
 */
@customElement('evenhand-playing-options')
export class PlayingOptions extends LitElement {
  @property({ attribute: false }) plan: PlayingPlan = plainPlan;
  @property({ type: Number }) bpm: Bpm = 84;
  @property({ type: Number }) cycles = 1;
  @property({ type: Number, attribute: 'beats-per-bar' }) beatsPerBar = 4;
  @property({ type: Number, attribute: 'partials-per-beat' }) partialsPerBeat = 4;
  /** Taps that count so far. */
  @property({ type: Number }) taps = 0;
  @property({ type: Boolean, attribute: 'tap-on-pad' }) tapOnPad = false;
  @property({ type: Boolean }) midi = false;
  /** True where no click is chosen. */
  @property({ type: Boolean }) free = false;

  static override styles = [
    look,
    css`
      summary {
        min-height: 44px;
        padding: 9px 0;
        cursor: pointer;
      }
      summary span {
        text-decoration: underline;
        text-decoration-thickness: 1px;
        text-underline-offset: 4px;
      }
      .panel {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 22px;
        padding: 10px 0 8px;
      }
      .fields {
        display: flex;
        flex-wrap: wrap;
        gap: 16px 32px;
        align-items: end;
      }
      label > span {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      .tap {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 14px;
        align-items: center;
      }
      .check {
        display: flex;
        gap: 8px;
        align-items: center;
        min-height: 44px;
      }
      input[type='checkbox'] {
        width: 20px;
        min-height: 20px;
        accent-color: var(--ink);
      }
    `,
  ];

  protected readonly keys = new PageKeys(this, (event) => {
    // Only while the line is open that says so: elsewhere a letter that is pressed by chance retunes nothing.
    if (event.key.toLowerCase() !== 't' || event.repeat || !this.#isOpen()) return;
    fire(this, { kind: 'tap', atMs: event.timeStamp });
  });

  #isOpen(): boolean {
    return this.renderRoot.querySelector('details')?.open === true;
  }

  override render() {
    return html`<details>
      <summary><span>${planWords(this.plan, this.cycles, this.free)}</span></summary>
      <div class="panel">
        ${this.free ? nothing : html`<div class="fields">${this.#tempo()} ${this.#tap()}</div>`}
        <div class="fields">${this.#length()} ${this.free ? nothing : this.#lead()} ${this.#ends()}</div>
        ${
          this.free
            ? html`<p class="quiet">
                Free time: your first stroke is the downbeat, and the tempo is yours. It is shown, and how far
                it moves.
              </p>`
            : this.#click()
        }
      </div>
    </details>`;
  }

  #click() {
    return html`<evenhand-click-settings
      .plan=${this.plan.click}
      .beatsPerBar=${this.beatsPerBar}
      .partialsPerBeat=${this.partialsPerBeat}
      .midi=${this.midi}
    ></evenhand-click-settings>`;
  }

  #tempo() {
    return html`<evenhand-number-field
      label="Tempo"
      unit="bpm"
      .value=${this.bpm}
      .least=${20}
      .most=${400}
      .rule=${(bpm: number) => checkedBpm(bpm, 'Tempo')}
      @number=${(event: CustomEvent<{ value: number }>) => fire(this, { kind: 'tempo', bpm: event.detail.value })}
    ></evenhand-number-field>`;
  }

  #tap() {
    return html`<div class="tap">
      <button
        aria-keyshortcuts="T"
        @pointerdown=${(event: PointerEvent) => fire(this, { kind: 'tap', atMs: event.timeStamp })}
        @keydown=${(event: KeyboardEvent) => {
          if ((event.key === ' ' || event.key === 'Enter') && !event.repeat)
            fire(this, { kind: 'tap', atMs: event.timeStamp });
        }}
      >
        Tap the tempo
      </button>
      <label class="check">
        <input
          type="checkbox"
          .checked=${this.tapOnPad}
          @change=${(event: Event) => {
            if (event.target instanceof HTMLInputElement)
              fire(this, { kind: 'tap on pad', on: event.target.checked });
          }}
        />
        strikes on the pad tap too
      </label>
      <span class="quiet small" role="status"
        >${this.taps === 0 ? 'The key T taps as well.' : this.taps === 1 ? '1 tap: go on.' : `${this.taps} taps`}</span
      >
    </div>`;
  }

  #length() {
    const { length } = this.plan;
    return html`${this.#choice('Length', length.kind, { cycles: 'cycles', minutes: 'minutes', open: 'until I stop' }, (kind) => this.#setLength(kind))}
    ${
      length.kind === 'open'
        ? nothing
        : html`<evenhand-number-field
            name=${length.kind === 'cycles' ? 'Cycles' : 'Minutes'}
            unit=${length.kind}
            .value=${length.kind === 'cycles' ? this.cycles : length.minutes}
            .least=${1}
            .most=${length.kind === 'cycles' ? 999 : 60}
            @number=${(event: CustomEvent<{ value: number }>) => {
              const { value } = event.detail;
              if (length.kind === 'cycles') fire(this, { kind: 'cycles', cycles: value });
              else fire(this, { kind: 'plan', change: { length: { kind: 'minutes', minutes: value } } });
            }}
          ></evenhand-number-field>`
    }`;
  }

  #setLength(kind: TakeLength['kind']): void {
    const length: TakeLength = kind === 'minutes' ? { kind, minutes: 2 } : { kind };
    fire(this, { kind: 'plan', change: { length } });
  }

  #lead() {
    const { lead } = this.plan;
    const bars = { auto: '1 bar', 2: '2 bars', 4: '4 bars' } as const;
    return html`${this.#choice(
        'Count-in',
        String(lead.countInBars === 1 ? 'auto' : lead.countInBars) as keyof typeof bars,
        bars,
        (value) =>
          fire(this, {
            kind: 'plan',
            change: { lead: { ...lead, countInBars: String(value) === 'auto' ? 'auto' : Number(value) } },
          }),
      )}
      <label class="check">
        <input
          type="checkbox"
          .checked=${lead.sayFirst}
          @change=${(event: Event) => {
            if (event.target instanceof HTMLInputElement)
              fire(this, { kind: 'plan', change: { lead: { ...lead, sayFirst: event.target.checked } } });
          }}
        />
        say a bar first
      </label>`;
  }

  #ends() {
    const { silenceBars, then } = this.plan;
    const bars = { never: 'no', 2: 'after 2 bars', 4: 'after 4 bars', 8: 'after 8 bars' } as const;
    return html`${this.#choice(
      'Silence ends it',
      (silenceBars === null ? 'never' : String(silenceBars)) as keyof typeof bars,
      bars,
      (value) =>
        fire(this, {
          kind: 'plan',
          change: { silenceBars: String(value) === 'never' ? null : Number(value) },
        }),
    )}
    ${this.#choice('Then', then, { review: 'open Review', stay: 'stay here, go again' }, (value) =>
      fire(this, { kind: 'plan', change: { then: value } }),
    )}`;
  }

  #choice<Value extends string | number>(
    label: string,
    value: Value,
    choices: Readonly<Record<Value, string>>,
    choose: (value: Value) => void,
  ) {
    const options = Object.entries(choices) as [Value, string][];
    return html`<label>
      <span>${label}</span>
      <select
        .value=${String(value)}
        @change=${(event: Event) => {
          if (event.target instanceof HTMLSelectElement) choose(event.target.value as Value);
        }}
      >
        ${options.map(([one, words]) => html`<option value=${one} ?selected=${String(one) === String(value)}>${words}</option>`)}
      </select>
    </label>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-playing-options': PlayingOptions;
  }
}
