import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { createRef, ref } from 'lit/directives/ref.js';
import type { Report } from '../../grading/types';
import { measureName } from '../../grading/words';
import type { HearTake } from '../../state/sounded-take';
import { strokesBehind, type NumberAsked, type StrokeBehind } from '../../insight/strokes-behind';
import { cell } from '../../sessions/csv';
import { count } from '../../words/numbers';
import { fileName } from '../../sessions/file-name';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { capital, fixed, signed } from '../shared/numbers';

/** More rows than this help nobody; the file has them all. */
const MOST_ROWS = 240;

/**
 * The strokes that a number was made from: bar, stroke of the bar, hand, level, deviation; each bar can be heard as it was
 * played, slower or one hand alone.
 * @fires action hear bars {bars, hand, speed} @fires action stop sound @fires action save file {name, blob}
 * @fires action strokes {asked: null} closed
 */
@customElement('evenhand-strokes-behind')
export class StrokesBehind extends LitElement {
  @property({ attribute: false }) report: Report | null = null;
  @property({ attribute: false }) asked: NumberAsked | null = null;
  /** True while something sounds. */
  @property({ type: Boolean }) hearing = false;
  @state() private hand: HearTake['hand'] = 'both';
  @state() private speed: HearTake['speed'] = 'half';

  static override styles = [
    look,
    css`
      section {
        padding: 10px 0 14px;
        border-top: 2px solid var(--ink);
        border-bottom: 2px solid var(--ink);
      }
      .head {
        display: flex;
        flex-wrap: wrap;
        justify-content: space-between;
        align-items: baseline;
        gap: 4px 24px;
      }
      h2:focus {
        outline: none;
      }
      .how {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 6px 18px;
        margin: 6px 0;
        font-size: 15px;
      }
      select {
        min-height: 36px;
        padding: 2px 8px;
        font-size: 15px;
      }
      .rows {
        max-height: 420px;
        overflow: auto;
      }
      table {
        font-size: 15px;
      }
      th,
      td {
        padding-top: 3px;
        padding-bottom: 3px;
      }
      thead th {
        position: sticky;
        top: 0;
        background: var(--paper);
      }
      .number {
        text-align: right;
        padding-right: 26px;
      }
      @media print {
        .how,
        .close,
        .hear {
          display: none;
        }
        .rows {
          max-height: none;
        }
      }
    `,
  ];

  readonly #heading = createRef<HTMLElement>();

  override render() {
    if (this.report === null || this.asked === null) return nothing;
    const strokes = strokesBehind(this.report, this.asked);
    const shown = strokes.slice(0, MOST_ROWS);
    const more = strokes.length > shown.length ? `, the first ${MOST_ROWS} shown` : '';
    return html`<section aria-labelledby="title">
      <div class="head">
        <h2 id="title" tabindex="-1" ${ref(this.#heading)}>
          ${titleOf(this.asked)}
          <span class="quiet">${count(strokes.length, 'stroke')} behind it${more}</span>
        </h2>
        <button class="plain close" @click=${this.#close}>Close</button>
      </div>
      ${strokes.length === 0 ? html`<p class="quiet">No stroke of this take is behind it.</p>` : this.#table(strokes, shown)}
    </section>`;
  }

  protected override updated(changed: PropertyValues<this>): void {
    if (!changed.has('asked')) return;
    this.#heading.value?.focus({ preventScroll: true });
    this.scrollIntoView({ block: 'nearest' });
  }

  #table(strokes: readonly StrokeBehind[], shown: readonly StrokeBehind[]): TemplateResult {
    return html`<div class="how">
        <label
          >Hear
          <select @change=${this.#chooseHand}>
            ${handChoices.map(([hand, words]) => html`<option value=${hand} ?selected=${hand === this.hand}>${words}</option>`)}
          </select></label
        >
        <label
          >at
          <select @change=${this.#chooseSpeed}>
            <option value="half" ?selected=${this.speed === 'half'}>half speed</option>
            <option value="full" ?selected=${this.speed === 'full'}>full speed</option>
          </select></label
        >
        ${this.hearing ? html`<button class="plain" @click=${() => fire(this, { kind: 'stop sound' })}>Stop the sound</button>` : nothing}
        <button class="plain quiet" @click=${() => this.#save(strokes)}>Save them (CSV)</button>
      </div>
      <div class="rows" tabindex="0" role="group" aria-label="Strokes">
        <table>
          <thead>
            <tr>
              <th scope="col">bar</th>
              <th scope="col">variation</th>
              <th scope="col">stroke</th>
              <th scope="col">hand</th>
              <th scope="col">as</th>
              <th scope="col" class="number">level dB</th>
              <th scope="col" class="number">off its slot ms</th>
              <th scope="col" class="hear"><span class="visually-hidden">hear</span></th>
            </tr>
          </thead>
          <tbody>
            ${shown.map((stroke) => this.#row(stroke))}
          </tbody>
        </table>
      </div>`;
  }

  #row(stroke: StrokeBehind): TemplateResult {
    const { bar, variation, slot, hand, as, levelDb, deviationMs } = stroke;
    return html`<tr>
      <td>${bar}</td>
      <td>${variation}</td>
      <td>${slot}</td>
      <td>${hand}</td>
      <td>${as}</td>
      <td class="number">${levelDb === null ? '' : fixed(levelDb, 1)}</td>
      <td class="number">${deviationMs === null ? '' : signed(deviationMs, 1)}</td>
      <td class="hear">
        <button class="plain" aria-label="Hear bar ${bar}" @click=${() => this.#hear(bar)}>
          Hear its bar
        </button>
      </td>
    </tr>`;
  }

  #hear(bar: number): void {
    fire(this, { kind: 'hear bars', bars: [bar - 1], hand: this.hand, speed: this.speed });
  }

  readonly #close = (): void => fire(this, { kind: 'strokes', asked: null });

  readonly #chooseHand = (event: Event): void => {
    const value = (event.target as HTMLSelectElement).value;
    this.hand = value === 'R' || value === 'L' ? value : 'both';
  };

  readonly #chooseSpeed = (event: Event): void => {
    this.speed = (event.target as HTMLSelectElement).value === 'full' ? 'full' : 'half';
  };

  #save(strokes: readonly StrokeBehind[]): void {
    const head = ['bar', 'variation', 'stroke', 'hand', 'kind', 'as', 'level dB', 'off its slot ms'];
    const rows = strokes.map(({ bar, variation, slot, hand, kind, as, levelDb, deviationMs }) => [
      bar,
      variation,
      slot,
      hand,
      kind,
      as,
      levelDb ?? '',
      deviationMs ?? '',
    ]);
    const csv = [head, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('');
    fire(this, {
      kind: 'save file',
      name: fileName({ kind: 'strokes', ending: 'csv' }),
      blob: new Blob([csv], { type: 'text/csv' }),
    });
  }
}

const handChoices = [
  ['both', 'both hands'],
  ['R', 'the right alone'],
  ['L', 'the left alone'],
] as const;

function titleOf({ measure, of, hand }: NumberAsked): string {
  const whose =
    of.kind === 'take'
      ? 'whole take'
      : of.kind === 'variation'
        ? of.name
        : of.hand === 'R'
          ? 'right hand'
          : 'left hand';
  const by = hand === undefined || of.kind === 'hand' ? '' : `, ${hand === 'R' ? 'right' : 'left'} hand`;
  return `${capital(measureName(measure))}, ${whose}${by}:`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-strokes-behind': StrokesBehind;
  }
}
