import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import {
  clicksAt,
  HIGHEST_HZ,
  LOWEST_HZ,
  MOST_BARE_BARS,
  plainClick,
  type BareBars,
  type ClickPlan,
  type ClickVoice,
} from '../../exercises/click-plan';
import { countOf } from '../../sessions/paper/strip/columns';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import '../shared/number-field';

const voices: readonly (readonly [ClickVoice, string])[] = [
  ['downbeat', 'First beat'],
  ['beat', 'Other beats'],
  ['subdivision', 'Between beats'],
];
const LEVELS = [0, -3, -6, -9, -12, -18, -24] as const;
const FIRST_STEADY: BareBars = { kind: 'steady', on: 2, off: 2 };
const FIRST_THINNING: BareBars = { kind: 'thinning', on: 2, most: 4 };

/**
 * The click: which beats and partials of them sound, how loud and how high, and which bars are bare.
 * @fires action click plan {change} a part of the plan
 */
@customElement('evenhand-click-settings')
export class ClickSettings extends LitElement {
  @property({ attribute: false }) plan: ClickPlan = plainClick;
  @property({ type: Number, attribute: 'beats-per-bar' }) beatsPerBar = 4;
  /** Partials in a beat of the phrase, the most of any. */
  @property({ type: Number, attribute: 'partials-per-beat' }) partialsPerBeat = 4;
  /** True where the click is notes on a MIDI output: then notes are chosen instead of pitches. */
  @property({ type: Boolean }) midi = false;

  static override styles = [
    look,
    css`
      :host {
        display: grid;
        grid-template-columns: auto auto minmax(260px, 1fr);
        gap: 20px 40px;
      }
      h3 {
        margin-bottom: 8px;
        font-size: 16px;
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: 6px;
        margin-bottom: 10px;
      }
      .toggle {
        width: 44px;
        padding: 0;
        border-width: 1px;
        border-color: var(--quiet);
        font-weight: 500;
      }
      .toggle[aria-pressed='true'] {
        border: var(--thick) solid var(--ink);
        background: var(--ink);
        color: var(--paper);
        font-weight: 700;
      }
      @media (forced-colors: active) {
        .toggle[aria-pressed='true'] {
          background: Highlight;
          color: HighlightText;
        }
      }
      table {
        width: auto;
      }
      th,
      td {
        padding: 4px 14px 4px 0;
        border: 0;
        font-weight: 400;
        vertical-align: middle;
        white-space: nowrap;
      }
      .bare {
        display: grid;
        gap: 10px;
        justify-items: start;
      }
      .fields {
        display: flex;
        flex-wrap: wrap;
        gap: 10px 24px;
      }
      @media (max-width: 1100px) {
        :host {
          grid-template-columns: 1fr 1fr;
        }
      }
      @media (max-width: 700px) {
        :host {
          grid-template-columns: minmax(0, 1fr);
        }
        tr {
          display: flex;
          flex-wrap: wrap;
        }
        th {
          width: 100%;
        }
        td {
          padding-right: 8px;
        }
      }
    `,
  ];

  override render() {
    return html`${this.#places()} ${this.#sounds()} ${this.#bare()}`;
  }

  #places() {
    const { plan } = this;
    const beats = Array.from({ length: this.beatsPerBar }, (_, beat) => beat);
    const partials = Array.from({ length: this.partialsPerBeat }, (_, partial) => partial);
    return html`<div>
      <h3>Click on</h3>
      <div class="row" role="group" aria-label="Beats that sound">
        ${beats.map((beat) =>
          this.#toggle(
            String(beat + 1),
            `beat ${beat + 1}`,
            clicksAt({ ...plan, partials: [0] }, beat, 0),
            () => this.#beat(beat),
          ),
        )}
      </div>
      <div class="row" role="group" aria-label="Partials that sound">
        ${partials.map((partial) => {
          const count =
            partial === 0 ? 'on' : countOf(0, partial, this.partialsPerBeat) || String(partial + 1);
          const name = partial === 0 ? 'on the beat' : `partial ${partial + 1}, ${count}`;
          return this.#toggle(count, name, plan.partials.includes(partial), () => this.#partial(partial));
        })}
      </div>
      <p class="quiet small">Beats above, their partials below.</p>
    </div>`;
  }

  #toggle(text: string, name: string, on: boolean, act: () => void) {
    return html`<button class="toggle" aria-label=${name} aria-pressed=${on ? 'true' : 'false'} @click=${act}>
      ${text}
    </button>`;
  }

  #sounds() {
    return html`<div>
      <h3>Sound</h3>
      <table>
        <tbody>
          ${voices.map(([voice, name]) => this.#voice(voice, name))}
        </tbody>
      </table>
    </div>`;
  }

  #voice(voice: ClickVoice, name: string) {
    const sound = this.plan.voices[voice];
    const change = (part: Partial<typeof sound>) =>
      fire(this, {
        kind: 'click plan',
        change: { voices: { ...this.plan.voices, [voice]: { ...sound, ...part } } },
      });
    const level = sound.levelDb === null ? '' : String(sound.levelDb);
    return html`<tr>
      <th scope="row">${name}</th>
      <td>
        <select
          aria-label="Level of ${name.toLowerCase()}"
          .value=${level}
          @change=${(event: Event) => {
            if (!(event.target instanceof HTMLSelectElement)) return;
            const { value } = event.target;
            change({ levelDb: value === '' ? null : Number(value) });
          }}
        >
          ${LEVELS.map((db) => html`<option value=${db} ?selected=${String(db) === level}>${db === 0 ? '0' : `−${-db}`} dB</option>`)}
          <option value="" ?selected=${level === ''}>silent</option>
        </select>
      </td>
      <td>
        ${
          this.midi
            ? html`<evenhand-number-field
                name="Note of ${name.toLowerCase()}"
                unit="note"
                .value=${sound.note}
                .most=${127}
                @number=${(event: CustomEvent<{ value: number }>) => change({ note: event.detail.value })}
              ></evenhand-number-field>`
            : html`<evenhand-number-field
                name="Pitch of ${name.toLowerCase()}"
                unit="Hz"
                .value=${sound.hz}
                .least=${LOWEST_HZ}
                .most=${HIGHEST_HZ}
                .step=${20}
                @number=${(event: CustomEvent<{ value: number }>) => change({ hz: event.detail.value })}
              ></evenhand-number-field>`
        }
      </td>
    </tr>`;
  }

  #bare() {
    const { bare } = this.plan;
    return html`<div class="bare">
      <h3>Bare bars</h3>
      <select
        aria-label="Bare bars"
        .value=${bare?.kind ?? ''}
        @change=${(event: Event) => {
          if (!(event.target instanceof HTMLSelectElement)) return;
          const { value } = event.target;
          const next = value === 'steady' ? FIRST_STEADY : value === 'thinning' ? FIRST_THINNING : null;
          fire(this, { kind: 'click plan', change: { bare: next } });
        }}
      >
        <option value="" ?selected=${bare === null}>none: the click goes on</option>
        <option value="steady" ?selected=${bare?.kind === 'steady'}>some on, some bare</option>
        <option value="thinning" ?selected=${bare?.kind === 'thinning'}>more and more bare</option>
      </select>
      ${bare === null ? nothing : this.#bareCounts(bare)}
      <p class="quiet small">In a bare bar the click is silent and you carry the time.</p>
    </div>`;
  }

  #bareCounts(bare: BareBars) {
    const set = (next: BareBars) => fire(this, { kind: 'click plan', change: { bare: next } });
    const second = bare.kind === 'steady' ? bare.off : bare.most;
    return html`<div class="fields">
      <evenhand-number-field
        label="Sounding"
        unit="bars"
        .value=${bare.on}
        .least=${1}
        .most=${MOST_BARE_BARS}
        @number=${(event: CustomEvent<{ value: number }>) => set({ ...bare, on: event.detail.value })}
      ></evenhand-number-field>
      <evenhand-number-field
        label=${bare.kind === 'steady' ? 'Bare' : 'Bare, at most'}
        unit="bars"
        .value=${second}
        .least=${1}
        .most=${MOST_BARE_BARS}
        @number=${(event: CustomEvent<{ value: number }>) =>
          set(
            bare.kind === 'steady'
              ? { ...bare, off: event.detail.value }
              : { ...bare, most: event.detail.value },
          )}
      ></evenhand-number-field>
    </div>`;
  }

  #beat(beat: number): void {
    const all = Array.from({ length: this.beatsPerBar }, (_, index) => index);
    const on = all.filter((one) => clicksAt({ ...this.plan, partials: [0] }, one, 0) !== (one === beat));
    fire(this, { kind: 'click plan', change: { beats: beatsOf(on, this.beatsPerBar) } });
  }

  #partial(partial: number): void {
    const { partials } = this.plan;
    const next = partials.includes(partial)
      ? partials.filter((one) => one !== partial)
      : [...partials, partial].sort((a, b) => a - b);
    fire(this, { kind: 'click plan', change: { partials: next } });
  }
}

/** By its name where it has one, so that it stays what it is in another meter. */
function beatsOf(on: readonly number[], beatsPerBar: number): ClickPlan['beats'] {
  if (on.length === beatsPerBar) return 'every';
  if (on.length === 1 && on[0] === 0) return 'first';
  const backbeats =
    beatsPerBar > 1 && on.length === Math.floor(beatsPerBar / 2) && on.every((beat) => beat % 2 === 1);
  return backbeats ? 'backbeats' : on;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-click-settings': ClickSettings;
  }
}
