import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { checkedBpm } from '../../exercises/tempo';
import type { Phrase } from '../../exercises/types';
import type { ActionNamed } from '../../state/actions';
import { weekSheetHtml } from '../../sessions/paper/week-page';
import { exercisesOf, MOST_EXERCISES, sheetOf } from '../../sessions/week/exercises';
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
 * A week sheet being written: up to six exercises with phrase, tempo, minutes, targets and words, and the day it is due on the left, the paper as it will be on
 * the right; then keep it, print it, or give it as a file.
 * @fires action change sheet {change} @fires action sheet phrase {phrase} @fires action exercise minutes, exercise before, write exercise, add exercise, remove exercise, exercise up
 * @fires action close sheet @fires action keep sheet @fires action export sheet
 */
@customElement('evenhand-week-sheet-screen')
export class WeekSheetScreen extends LitElement {
  @property({ attribute: false }) sheet: WeekSheet | null = null;
  /** Which of its exercises is written, from 0. */
  @property({ type: Number }) at = 0;
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
      .exercises {
        margin: 0 0 8px;
        padding-left: 1.4em;
      }
      .exercises button {
        min-height: 40px;
      }
      .exercises button.quiet {
        flex: none;
        white-space: nowrap;
      }
      .exercises button[aria-pressed='true'] {
        font-weight: 800;
      }
      .add {
        margin-bottom: 18px;
      }
    `,
  ];

  override render() {
    const { sheet } = this;
    if (sheet === null) return nothing;
    const written = sheetOf(sheet, this.at);
    return html`
      <div class="top">
        <h1>Week sheet</h1>
        <button class="plain" @click=${() => fire(this, { kind: 'close sheet' })}>
          Back, and go on with it later
        </button>
      </div>
      <div class="columns">
        <div>
          ${this.#whole(sheet)} ${this.#exercises(sheet)} ${this.#fields(written)}
          <h2 id="targets">To reach this week</h2>
          <evenhand-week-targets .sheet=${written}></evenhand-week-targets>
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

  /** What is the whole sheet's: whose, until when, by which limits. */
  #whole({ student, due, limits }: WeekSheet) {
    return html`<label
        ><span>Student: a name, initials or a number, or nothing</span
        ><input
          type="text"
          autocomplete="off"
          maxlength="60"
          .value=${student}
          @input=${(event: Event) => this.#change({ student: valueOf(event) })}
      /></label>
      <div class="short">
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
      </div>`;
  }

  /** The exercises in their order; the one that is written is open below. */
  #exercises(sheet: WeekSheet) {
    const all = exercisesOf(sheet);
    return html`<h2 id="exercises">Exercises, in order</h2>
      <ol class="exercises" aria-labelledby="exercises">
        ${all.map(
          ({ phrase, bpm }, index) =>
            html`<li>
              <button
                class="plain"
                aria-pressed=${index === this.at}
                @click=${() => fire(this, { kind: 'write exercise', index })}
              >
                ${phrase.title}, ${bpm} bpm
              </button>
              ${
                index === 0
                  ? nothing
                  : html`<button
                      class="plain quiet"
                      aria-label="Exercise ${index + 1} one place up"
                      @click=${() => fire(this, { kind: 'exercise up', index })}
                    >
                      Up
                    </button>`
              }
              ${
                all.length < 2
                  ? nothing
                  : html`<button
                      class="plain quiet"
                      aria-label="Take exercise ${index + 1} off"
                      @click=${() => fire(this, { kind: 'remove exercise', index })}
                    >
                      Take off
                    </button>`
              }
            </li>`,
        )}
      </ol>
      ${
        all.length >= MOST_EXERCISES
          ? nothing
          : html`<button class="add" @click=${() => fire(this, { kind: 'add exercise' })}>
              Another exercise
            </button>`
      }
      ${all.length < 2 ? nothing : html`<h2>Exercise ${this.at + 1}</h2>`}`;
  }

  #fields(sheet: WeekSheet) {
    const { words, bpm, minutes, before = '' } = sheet;
    return html`
      <label
        ><span>A plain line before it</span
        ><input
          type="text"
          autocomplete="off"
          maxlength="200"
          .value=${before}
          @input=${(event: Event) => fire(this, { kind: 'exercise before', words: valueOf(event) })}
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
          ><span>Minutes a day</span
          ><input
            type="number"
            min="1"
            max="120"
            .value=${minutes === undefined ? '' : String(minutes)}
            @change=${(event: Event) => fire(this, { kind: 'exercise minutes', minutes: minutesOf(valueOf(event)) })}
        /></label>
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

/** None where nothing is said, or nothing that could be. */
function minutesOf(typed: string): number | undefined {
  const minutes = Math.round(Number(typed));
  return typed.trim() === '' || !(minutes >= 1) ? undefined : Math.min(minutes, 120);
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
