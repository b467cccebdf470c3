import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { InputError } from '../../errors';
import { checkedBpm } from '../../exercises/tempo';
import { measureName, measureUnit } from '../../grading/words';
import { variationsOf } from '../../state/selectors/sheet';
import { measureTarget, targetOf } from '../../sessions/week/new-target';
import {
  targetMeasures,
  type TargetMeasure,
  type WeekSheet,
  type WeekTarget,
} from '../../sessions/week-sheet';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import '../shared/number-field';
import { capital } from '../shared/numbers';

const KINDS: Readonly<Record<WeekTarget['kind'], string>> = {
  tempo: 'a tempo that holds',
  holds: 'a variation that holds',
  measure: 'a measure',
  minutes: 'minutes of playing',
};

/**
 * Targets of a week sheet, each on a line of its own, to be changed, added and taken off.
 * @fires action change target, add target, remove target
 */
@customElement('evenhand-week-targets')
export class WeekTargets extends LitElement {
  @property({ attribute: false }) sheet: WeekSheet | null = null;

  static override styles = [
    look,
    css`
      ul {
        margin: 0;
        padding: 0;
        list-style: none;
      }
      li {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 8px 12px;
        padding: 8px 0;
        border-top: 1px solid var(--line);
      }
      .off {
        margin-left: auto;
      }
      select {
        max-width: 100%;
      }
      label {
        max-width: 100%;
        color: var(--quiet);
        font-size: 15px;
      }
      label select {
        display: block;
        color: var(--ink);
        font-size: 17px;
      }
    `,
  ];

  override render() {
    const { sheet } = this;
    if (sheet === null) return nothing;
    return html`
      <ul aria-label="Targets">
        ${sheet.targets.map(
          (target, index) =>
            html`<li>
              ${this.#fields(sheet, target, index)}
              <button
                class="plain quiet off"
                aria-label="Take off target ${index + 1}"
                @click=${() => fire(this, { kind: 'remove target', index })}
              >
                Take off
              </button>
            </li>`,
        )}
      </ul>
      <label
        >Another target
        <select
          @change=${(event: Event) => {
            if (!(event.target instanceof HTMLSelectElement) || event.target.value === '') return;
            fire(this, { kind: 'add target', target: event.target.value as WeekTarget['kind'] });
            event.target.value = '';
          }}
        >
          <option value="">choose what is to be reached</option>
          ${Object.entries(KINDS).map(([kind, words]) => html`<option value=${kind}>${capital(words)}</option>`)}
        </select>
      </label>
    `;
  }

  #fields(sheet: WeekSheet, target: WeekTarget, index: number) {
    const put = (changed: WeekTarget): void => fire(this, { kind: 'change target', index, target: changed });
    switch (target.kind) {
      case 'tempo':
        return this.#number(
          'Tempo that holds',
          'bpm',
          target.bpm,
          (bpm) => put({ ...target, bpm }),
          checkedBpm,
        );
      case 'minutes':
        return this.#number(
          'Playing',
          'min',
          target.minutes,
          (minutes) => put({ ...target, minutes }),
          wholeMinutes,
        );
      case 'holds':
        return this.#variation('Holds', sheet, target.variation, (variation) =>
          put(targetOf(target, variation === '' ? undefined : variation)),
        );
      case 'measure':
        return this.#measure(sheet, target, put);
    }
  }

  #measure(
    sheet: WeekSheet,
    target: Extract<WeekTarget, { kind: 'measure' }>,
    put: (one: WeekTarget) => void,
  ) {
    const { measure, variation, atMost, atLeast } = target;
    const side = atMost === undefined ? 'at least' : 'at most';
    // As teachers read it: completeness in per cent.
    const scale = measure === 'complete' ? 100 : 1;
    const unit = measure === 'complete' ? '%' : measureUnit(measure);
    return html`<label
        >Measure
        <select
          @change=${(event: Event) => put(measureTarget(chosen(event) as TargetMeasure, sheet, variation))}
        >
          ${targetMeasures.map(
            (one) =>
              html`<option value=${one} .selected=${one === measure}>${capital(measureName(one))}</option>`,
          )}
        </select></label
      >
      ${this.#variation('In', sheet, variation, (name) => put(targetOf(target, name === '' ? undefined : name)))}
      ${this.#number(side, unit, Math.round((atMost ?? atLeast ?? 0) * scale * 1000) / 1000, (value) =>
        put({
          ...target,
          ...(atMost === undefined ? { atLeast: value / scale } : { atMost: value / scale }),
        }),
      )}`;
  }

  #variation(words: string, sheet: WeekSheet, variation: string | undefined, put: (name: string) => void) {
    return html`<label
      >${words}
      <select @change=${(event: Event) => put(chosen(event))}>
        <option value="" .selected=${variation === undefined}>
          ${words === 'Holds' ? 'every variation' : 'the whole phrase'}
        </option>
        ${variationsOf(sheet.phrase).map(
          (name) => html`<option value=${name} .selected=${name === variation}>${capital(name)}</option>`,
        )}
      </select></label
    >`;
  }

  #number(
    label: string,
    unit: string,
    value: number,
    put: (value: number) => void,
    rule: (value: number) => number = anyNumber,
  ) {
    return html`<evenhand-number-field
      .label=${capital(label)}
      .unit=${unit}
      .value=${value}
      .least=${0}
      .most=${1000}
      .rule=${rule}
      @number=${(event: CustomEvent<{ value: number }>) => put(event.detail.value)}
    ></evenhand-number-field>`;
  }
}

function anyNumber(value: number): number {
  if (!Number.isFinite(value)) throw new InputError('target', 'must be a number', String(value));
  return value;
}

function wholeMinutes(value: number): number {
  if (!Number.isInteger(value) || value < 1 || value > 10_000)
    throw new InputError('minutes', 'must be a whole number 1–10 000', value);
  return value;
}

const chosen = (event: Event): string =>
  event.target instanceof HTMLSelectElement ? event.target.value : '';

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-week-targets': WeekTargets;
  }
}
