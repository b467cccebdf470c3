import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { clockWords, leftMs, type TodayClock } from '../../insight/today/clock';
import { todayLengths, type Opening, type TodayItem, type TodayLength } from '../../insight/today/types';
import type { WeekItem } from '../../sessions/player';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import '../library/week-sheets';
import type { Action } from '../../state/actions';
import type { SheetShown } from '../../state/library';

/** Of a first take. */
const FIRST_CYCLES = 4;

/**
 * Today: a plan for this practice as a plain list with a clock, and the list that a teacher sets for the week.
 * @fires action today length, start clock, move on, stop clock, play phrase, play take at, play sheet, list phrase, unlist phrase, type list words
 * @fires action cycles, go a first take, short
 */
@customElement('evenhand-today-screen')
export class TodayScreen extends LitElement {
  @property({ attribute: false }) length: TodayLength = 20;
  @property({ attribute: false }) plan: readonly TodayItem[] = [];
  /** Null while the clock stands. */
  @property({ attribute: false }) clock: TodayClock | null = null;
  /** True where this player has no take yet. */
  @property({ type: Boolean }) isNew = false;
  @property({ attribute: false }) week: readonly WeekItem[] = [];
  @property({ attribute: false }) sheets: readonly SheetShown[] = [];
  /** The chosen phrase and its tempo. */
  @property() phraseWords = '';
  /** The words that are begun for the next line of the list. */
  @property() words = '';

  static override styles = [
    look,
    css`
      .first {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 10px 24px;
        padding: 0 0 18px;
        border-bottom: 1px solid var(--line);
        margin-bottom: 18px;
      }
      .first p {
        max-width: 44em;
      }
      .how {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 10px 24px;
        margin: 14px 0 10px;
      }
      fieldset {
        display: flex;
        flex-wrap: wrap;
        gap: 0 18px;
        margin: 0;
        padding: 0;
        border: 0;
      }
      legend {
        float: left;
        padding: 0 14px 0 0;
        line-height: 44px;
      }
      fieldset label {
        display: inline-flex;
        align-items: center;
        gap: 6px;
        min-height: 44px;
      }
      input[type='radio'] {
        min-height: 0;
        width: 20px;
        height: 20px;
        margin: 0;
        accent-color: var(--ink);
      }
      .clock {
        font-size: 72px;
        font-weight: 700;
        line-height: 1;
      }
      ol {
        margin: 0;
        padding: 0;
        list-style: none;
      }
      .plan li {
        display: grid;
        grid-template-columns: 5.5em 1fr auto;
        gap: 4px 18px;
        align-items: baseline;
        padding: 14px 0;
        border-top: 1px solid var(--line);
      }
      .plan li:last-child {
        border-bottom: 1px solid var(--line);
      }
      .plan .title {
        font-size: 19px;
        font-weight: 600;
      }
      li[aria-current] .title {
        font-weight: 800;
      }
      li.past {
        color: var(--quiet);
      }
      .plan button {
        min-width: 7em;
      }
      details {
        margin-top: 22px;
      }
      summary {
        min-height: 44px;
        padding: 10px 0;
        cursor: pointer;
      }
      .list li {
        display: flex;
        justify-content: space-between;
        gap: 18px;
        padding: 8px 0;
        border-top: 1px solid var(--line);
      }
      form {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 10px;
        padding-top: 10px;
      }
      form label {
        flex: 1 1 240px;
      }
      form span {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      form input {
        width: 100%;
      }
      @media (max-width: 620px) {
        .plan li {
          grid-template-columns: 4em 1fr;
        }
        .plan button {
          grid-column: 2;
          justify-self: start;
        }
        .clock {
          font-size: 60px;
        }
      }
    `,
  ];

  override render() {
    return html`
      ${
        this.isNew
          ? html`<div class="first">
              <p>New here? Plug in a pad or a kit and play one phrase: it is graded when you stop.</p>
              <button class="strong" @click=${this.#playFirst}>Play the first phrase</button>
            </div>`
          : nothing
      }
      <h1>Today</h1>
      ${this.clock === null ? this.#before() : this.#during(this.clock)}
      <ol class="plan">
        ${this.plan.map((item, index) => this.#line(item, index))}
      </ol>
      ${
        this.clock === null
          ? html`<evenhand-week-sheets .sheets=${this.sheets}></evenhand-week-sheets> ${this.#week()}`
          : nothing
      }
    `;
  }

  /** A first take is short: what comes of it is seen in a minute. */
  #playFirst(): void {
    fire(this, { kind: 'cycles', cycles: FIRST_CYCLES });
    fire(this, { kind: 'go', screen: 'play' });
  }

  #before() {
    return html`<div class="how">
      <fieldset>
        <legend>Minutes</legend>
        ${todayLengths.map(
          (length) =>
            html`<label>
              <input
                type="radio"
                name="length"
                .checked=${length === this.length}
                @change=${() => fire(this, { kind: 'today length', length })}
              />${length}
            </label>`,
        )}
      </fieldset>
      <button
        class=${this.isNew ? '' : 'strong'}
        @click=${() => fire(this, { kind: 'start clock', plan: this.plan, dateMs: Date.now() })}
      >
        Start the clock
      </button>
    </div>`;
  }

  #during(clock: TodayClock) {
    const isLast = clock.item === clock.plan.length - 1;
    const isOver = leftMs(clock) <= 0;
    const next = clock.plan.at(clock.item + 1);
    return html`<div class="how">
      <span class="clock" role="timer" aria-label="Left for this">${clockWords(leftMs(clock))}</span>
      <p>
        ${isOver ? html`<strong>Time to ${isLast ? 'stop' : 'move on'}.</strong> ` : nothing}${
          next === undefined ? 'This is the last of it.' : `Next: ${next.title}.`
        }
      </p>
      <button
        class=${isOver ? 'strong' : ''}
        @click=${() => fire(this, { kind: 'move on', dateMs: Date.now() })}
      >
        ${isLast ? 'Finish' : 'Move on'}
      </button>
      <button class="plain quiet" @click=${() => fire(this, { kind: 'stop clock' })}>Stop the clock</button>
    </div>`;
  }

  #line({ minutes, title, why, opening }: TodayItem, index: number) {
    const at = this.clock?.item ?? -1;
    return html`<li class=${index < at ? 'past' : ''} aria-current=${index === at ? 'step' : nothing}>
      <span>${minutes} min</span>
      <div>
        <p class="title">${title}</p>
        <p class="quiet">${why}</p>
      </div>
      ${
        opening === null
          ? nothing
          : html`<button aria-label="Open ${title}" @click=${() => fire(this, opened(opening))}>Open</button>`
      }
    </li>`;
  }

  #week() {
    return html`<details ?open=${this.week.length > 0}>
      <summary>
        This week’s list${this.week.length === 0 ? ': a teacher may set one' : `: ${this.week.length}`}
      </summary>
      <ol class="list">
        ${this.week.map(
          ({ phrase, bpm, words }, index) =>
            html`<li>
              <span>${phrase.title}, ${bpm} bpm${words === '' ? '' : `: ${words}`}</span>
              <button
                class="plain quiet"
                aria-label="Take ${phrase.title} off the list"
                @click=${() => fire(this, { kind: 'unlist phrase', index })}
              >
                Take off
              </button>
            </li>`,
        )}
      </ol>
      <form
        @submit=${(event: Event) => {
          event.preventDefault();
          fire(this, { kind: 'list phrase', words: this.words.trim() });
        }}
      >
        <label>
          <span>Words for ${this.phraseWords}</span>
          <input
            type="text"
            maxlength="200"
            .value=${this.words}
            @input=${(event: Event) => {
              if (event.target instanceof HTMLInputElement)
                fire(this, { kind: 'type list words', words: event.target.value });
            }}
          />
        </label>
        <button type="submit">Put it on the list</button>
      </form>
    </details>`;
  }
}

/** An item is opened: its phrase at its tempo, or that of a take which is still to be fetched. */
function opened(opening: Opening): Action {
  if (opening.kind === 'take') return { kind: 'play take at', takeId: opening.takeId, bpm: opening.bpm };
  if (opening.kind === 'sheet') return { kind: 'play sheet', sheet: opening.sheet, exercise: opening.index };
  const { phrase, name, bpm } = opening;
  return { kind: 'play phrase', phrase, name, bpm };
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-today-screen': TodayScreen;
  }
}
