import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { InputError } from '../../errors';
import { comparisonWords, measureWords, placeWords } from '../../insight/compare/compare-words';
import type { MeasureDifference, PlaceDifference } from '../../insight/compare/compare';
import { besideName, sideBySide, type SideBySide } from '../../insight/compare/side-by-side';
import { TEACHER } from '../../sessions/teacher';
import type { RowsPicture } from '../pictures/picture';
import type { Reviewed } from '../../take/reviewed';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { capital, dayAndTime, fixed, signed } from '../shared/numbers';
import '../pictures/element';
import { differencesByPlace } from '../pictures/differences';
import type { TakeChoice } from '../shared/types';

/**
 * Another take of the same phrase set beside the open one: what differs most in a sentence, then measure by measure and
 * place by place with 90 % intervals, each that chance alone may make said so.
 * @fires action set beside {id} another take, or none where empty @fires action bands {on} @fires action listen blind {of: takes}
 */
@customElement('evenhand-beside')
export class Beside extends LitElement {
  @property({ attribute: false }) open: Reviewed | null = null;
  @property({ attribute: false }) beside: Reviewed | null = null;
  /** Takes of the same phrase that can be set beside it. */
  @property({ attribute: false }) choices: readonly TakeChoice[] = [];
  /** True while the pictures show the other take's levels as bands. */
  @property({ type: Boolean }) bands = false;
  #shown: SideBySide | null = null;
  #picture: RowsPicture | null = null;
  #trouble = '';

  static override styles = [
    look,
    css`
      :host {
        display: block;
      }
      .said {
        margin-top: 8px;
        font-size: 19px;
        font-weight: 600;
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 2px 18px;
      }
      label {
        display: inline-flex;
        max-width: 100%;
        min-height: 44px;
        gap: 8px;
        align-items: center;
      }
      select {
        max-width: 100%;
        min-width: 0;
        min-height: 44px;
        padding: 2px 8px;
        font-size: 15px;
      }
      evenhand-picture {
        display: block;
        margin-top: 14px;
      }
      .choice {
        white-space: nowrap;
      }
      input {
        width: 20px;
        min-height: 20px;
        height: 20px;
        margin: 0;
        accent-color: var(--ink);
      }
      details {
        position: relative;
        margin-top: 10px;
        overflow-x: auto;
      }
      summary {
        padding: 6px 0;
        cursor: pointer;
      }
      th,
      td {
        padding: 3px 14px 3px 0;
        font-size: 15px;
        font-weight: 400;
        text-align: left;
      }
      .number {
        text-align: right;
        white-space: nowrap;
      }
      .outside {
        font-weight: 700;
      }
      @media print {
        .row,
        details:not([open]) {
          display: none;
        }
        .said,
        .said + p {
          break-after: avoid;
        }
      }
    `,
  ];

  protected override willUpdate(): void {
    const { open, beside } = this;
    this.#shown = null;
    this.#picture = null;
    this.#trouble = '';
    if (open === null || beside === null) return;
    try {
      this.#shown = sideBySide(open, beside);
      this.#picture = differencesByPlace(this.#shown);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.#trouble = `These two can’t be set side by side: ${error.message}`;
    }
  }

  override render() {
    if (this.open === null || (this.choices.length === 0 && this.beside === null)) return nothing;
    return html`<div class="row">
        <label class="choice"
          >Set beside
          <select
            @change=${(event: Event) => {
              if (event.target instanceof HTMLSelectElement)
                fire(this, { kind: 'set beside', id: event.target.value });
            }}
          >
            <option value="" ?selected=${this.beside === null}>no other take</option>
            ${this.choices.map(
              (choice) =>
                html`<option value=${choice.id} ?selected=${this.beside?.take.id === choice.id}>
                  ${choiceWords(choice)}
                </option>`,
            )}
          </select></label
        >
        ${this.beside === null ? nothing : this.#acts(this.beside)}
      </div>
      ${this.#shown === null ? this.#trouble : this.#differences(this.#shown)}`;
  }

  #acts({ take }: Reviewed) {
    return html`<label
        ><input
          type="checkbox"
          .checked=${this.bands}
          @change=${() => fire(this, { kind: 'bands', on: !this.bands })}
        />
        Its levels as bands in “Levels stroke by stroke”</label
      >
      <button
        class="plain"
        @click=${() => fire(this, { kind: 'listen blind', of: 'takes', seed: crypto.getRandomValues(new Uint32Array(1))[0] })}
      >
        Tell it from ${besideName(take)} by ear
      </button>`;
  }

  #differences({ first, second, comparison }: SideBySide) {
    const [from, to] = [first, second].map((one) =>
      one.take === this.open?.take ? 'this take' : nameOf(one),
    );
    const { measures, places } = comparison;
    return html`<p class="said" role="status">${capital(comparisonWords(comparison))}</p>
      <p class="quiet small">From ${from} to ${to}; 90 % intervals.</p>
      ${this.#picture === null ? nothing : html`<evenhand-picture .picture=${this.#picture} fileName="two-takes"></evenhand-picture>`}
      ${
        measures.length === 0
          ? nothing
          : html`<details>
              <summary>
                Measure by measure: ${standing(measures.filter(({ standsOut }) => standsOut).length)}
              </summary>
              <table>
                <caption class="visually-hidden">
                  Measures of both takes
                </caption>
                <thead>
                  <tr>
                    <th scope="col">of</th>
                    <th scope="col">measure</th>
                    <th scope="col" class="number">difference</th>
                    <th scope="col" class="number">90 % interval</th>
                  </tr>
                </thead>
                <tbody>
                  ${measures.map((one) => measureRow(one))}
                </tbody>
              </table>
            </details>`
      }
      ${
        places.length === 0
          ? nothing
          : html`<details>
              <summary>
                Place by place: ${standing(places.filter(({ insideNoise }) => !insideNoise).length)}
              </summary>
              <table>
                <caption class="visually-hidden">
                  Places of both takes
                </caption>
                <thead>
                  <tr>
                    <th scope="col">variation</th>
                    <th scope="col">stroke</th>
                    <th scope="col">the second take is</th>
                    <th scope="col" class="number">level, 90 %</th>
                    <th scope="col" class="number">time, 90 %</th>
                  </tr>
                </thead>
                <tbody>
                  ${places.map((one) => placeRow(one))}
                </tbody>
              </table>
            </details>`
      }`;
  }
}

function measureRow(one: MeasureDifference) {
  const { value, interval } = one.difference;
  return html`<tr class=${one.standsOut ? 'outside' : ''}>
    <td>${one.variation ?? 'whole take'}</td>
    <td>${measureWords(one)}</td>
    <td class="number">${signed(value, 1)} ${one.unit}</td>
    <td class="number">${between(interval)} ${one.unit}</td>
  </tr>`;
}

function placeRow(one: PlaceDifference) {
  const of = (estimate: PlaceDifference['levelDb'], unit: string): string =>
    estimate === null ? '–' : `${between(estimate.interval)} ${unit}`;
  return html`<tr class=${one.insideNoise ? '' : 'outside'}>
    <td>${one.variation}</td>
    <td>${one.slot + 1}, ${one.hand}</td>
    <td>${placeWords(one)}</td>
    <td class="number">${of(one.levelDb, 'dB')}</td>
    <td class="number">${of(one.deviationMs, 'ms')}</td>
  </tr>`;
}

const between = (interval: readonly [number, number]): string =>
  `${signed(interval[0], 1)} to ${signed(interval[1], 1)}`;

function standing(count: number): string {
  if (count === 0) return 'all inside the noise';
  return `${count} outside the noise`;
}

const tempoWords = (bpm: number | null): string =>
  bpm === null ? '' : `, ${fixed(bpm, Number.isInteger(bpm) ? 0 : 1)} bpm`;

function choiceWords({ recordedAt, title, bpm, playerId }: TakeChoice): string {
  const whose = playerId === TEACHER ? 'the teacher’s, ' : '';
  return `${recordedAt === '' ? `model player: ${title}` : `${whose}${dayAndTime(recordedAt)}`}${tempoWords(bpm)}`;
}

function nameOf({ take: { source, recordedAt, tempo, teacher } }: Reviewed): string {
  const whose = teacher === true ? 'the teacher’s' : 'that';
  const when = source === 'model' ? 'the model player’s' : `${whose} of ${dayAndTime(recordedAt)}`;
  return `${when}${tempoWords('bpm' in tempo ? tempo.bpm : null)}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-beside': Beside;
  }
}
