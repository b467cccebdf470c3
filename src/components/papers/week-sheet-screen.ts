import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { checkedBpm } from '../../exercises/tempo';
import type { Phrase } from '../../exercises/types';
import type { ActionNamed } from '../../state/actions';
import { weekSheetHtml } from '../../sessions/paper/week-page';
import type { WeekSheet } from '../../sessions/week-sheet';
import { limitsNames, type Limits } from '../../settings';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import '../shared/number-field';
import { paperStyles } from './paper-styles';
import './week-targets';

/** A phrase that a week sheet may be of. */
interface SheetPhrase {
  readonly name: string;
  readonly group: string;
  readonly phrase: Phrase;
}

/**
 * A week sheet being written: phrase, tempo, targets, words and the day it is due on the left, the paper as it will be on
 * the right; then keep it, print it, or give it as a file.
 * @fires action change sheet {change} @fires action sheet phrase {phrase} @fires action close sheet @fires action keep sheet @fires action export sheet
 */
@customElement('evenhand-week-sheet-screen')
export class WeekSheetScreen extends LitElement {
  @property({ attribute: false }) sheet: WeekSheet | null = null;
  @property({ attribute: false }) phrases: readonly SheetPhrase[] = [];

  static override styles = [
    look,
    paperStyles,
    css`
      .short {
        display: flex;
        flex-wrap: wrap;
        gap: 0 18px;
        align-items: start;
      }
      .tempo {
        padding-bottom: 14px;
      }
      evenhand-week-targets {
        margin-bottom: 18px;
      }
      h2 {
        margin: 4px 0 6px;
        color: var(--quiet);
        font-size: 15px;
        font-weight: 400;
      }
      label select {
        max-width: 100%;
      }
    `,
  ];

  override render() {
    const { sheet } = this;
    if (sheet === null) return nothing;
    return html`
      <div class="top">
        <h1>Week sheet</h1>
        <button class="plain" @click=${() => fire(this, { kind: 'close sheet' })}>
          Back, and go on with it later
        </button>
      </div>
      <div class="columns">
        <div>
          ${this.#fields(sheet)}
          <h2 id="targets">To reach this week</h2>
          <evenhand-week-targets .sheet=${sheet}></evenhand-week-targets>
          <div class="actions">
            <button class="strong" @click=${() => fire(this, { kind: 'keep sheet' })}>Keep it</button>
            <button @click=${this.#print}>Print</button>
            <button @click=${() => fire(this, { kind: 'export sheet' })}>
              Download the file for the student
            </button>
          </div>
        </div>
        <iframe title="The week sheet as it will be printed" .srcdoc=${weekSheetHtml(sheet)}></iframe>
      </div>
    `;
  }

  #fields(sheet: WeekSheet) {
    const { student, words, due, bpm, limits } = sheet;
    return html`
      <label
        ><span>Student: a name, initials or a number, or nothing</span
        ><input
          type="text"
          autocomplete="off"
          maxlength="60"
          .value=${student}
          @input=${(event: Event) => this.#change({ student: valueOf(event) })}
      /></label>
      <label
        ><span>Phrase</span>
        <select
          @change=${(event: Event) => {
            const found = this.phrases.at(Number(valueOf(event)));
            if (valueOf(event) !== '' && found !== undefined)
              fire(this, { kind: 'sheet phrase', phrase: found.phrase });
          }}
        >
          ${this.#phraseChoices(sheet)}
        </select>
      </label>
      <div class="short">
        <div class="tempo">
          <evenhand-number-field
            .label=${'Tempo'}
            .unit=${'bpm'}
            .value=${bpm}
            .least=${20}
            .most=${400}
            .rule=${checkedBpm}
            @number=${(event: CustomEvent<{ value: number }>) => this.#change({ bpm: event.detail.value })}
          ></evenhand-number-field>
        </div>
        <label
          ><span>Due</span
          ><input
            type="date"
            .value=${due ?? ''}
            @input=${(event: Event) => this.#change({ due: valueOf(event) === '' ? null : valueOf(event) })}
        /></label>
        <label
          ><span>Limits</span>
          <select @change=${(event: Event) => this.#change({ limits: valueOf(event) as Limits })}>
            ${limitsNames.map((name) => html`<option value=${name} .selected=${name === limits}>${name}</option>`)}
          </select>
        </label>
      </div>
      <label
        ><span>Your words</span
        ><textarea
          rows="4"
          .value=${words}
          @input=${(event: Event) => this.#change({ words: valueOf(event) })}
        ></textarea>
      </label>
    `;
  }

  /** The one it has, unless it is one of the others. */
  #phraseChoices({ phrase }: WeekSheet) {
    const at = this.phrases.findIndex((one) => one.phrase === phrase || one.phrase.title === phrase.title);
    const groups = [...new Set(this.phrases.map(({ group }) => group))];
    return html`${at >= 0 ? nothing : html`<option value="" selected>${phrase.title}</option>`}
    ${groups.map(
      (group) =>
        html`<optgroup label=${group}>
          ${this.phrases.map((one, index) =>
            one.group === group
              ? html`<option value=${index} .selected=${index === at}>${one.name}</option>`
              : nothing,
          )}
        </optgroup>`,
    )}`;
  }

  #change(change: ActionNamed['change sheet']['change']): void {
    fire(this, { kind: 'change sheet', change });
  }

  #print(): void {
    this.renderRoot.querySelector('iframe')?.contentWindow?.print();
    fire(this, { kind: 'printed', what: 'week sheet' });
  }
}

function valueOf({ target }: Event): string {
  return target instanceof HTMLInputElement ||
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement
    ? target.value
    : '';
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-week-sheet-screen': WeekSheetScreen;
  }
}
