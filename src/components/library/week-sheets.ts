import { css, html, LitElement, nothing } from 'lit';
import { calledPlayers } from '../../sessions/player-code';
import { customElement, property } from 'lit/decorators.js';
import type { ExerciseShown, SheetShown } from '../../state/library';
import type { WeekExercise, WeekSheet } from '../../sessions/week-sheet';
import type { Player } from '../../sessions/player';
import { outcomeWords } from '../../sessions/week/target-words';
import { fire } from '../shared/events';
import './give-to';
import { look } from '../shared/look';
import { counted } from '../../text';

/**
 * Week sheets of the player in turn: what is asked, what the takes played to them have reached, and one button each to
 * play to it.
 * @fires action play sheet {sheet} @fires action edit sheet {sheet} @fires action remove sheet {id} @fires action new sheet {id, dateMs}
 * @fires action send back {id} all its takes in one file
 * @fires action give {what, id, playerId}
 */
@customElement('evenhand-week-sheets')
export class WeekSheets extends LitElement {
  @property({ attribute: false }) sheets: readonly SheetShown[] = [];
  /** Everybody, to whom one may be given; with one player there is nobody. */
  @property({ attribute: false }) players: readonly Player[] = [];
  /** True where new ones are made. */
  @property({ type: Boolean }) makes = false;
  /** The one that takes are being played to. */
  @property() sheetId = '';

  static override styles = [
    look,
    css`
      section {
        margin-top: 26px;
      }
      article {
        display: grid;
        grid-template-columns: 1fr auto;
        gap: 6px 18px;
        padding: 12px 0;
        border-top: 1px solid var(--line);
        margin-top: 8px;
      }
      .new {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 8px 14px;
        margin-top: 12px;
      }
      .words {
        font-size: 19px;
      }
      ol {
        margin: 8px 0;
        padding-left: 1.4em;
      }
      ol button {
        padding-left: 0;
        font-weight: 600;
        text-align: left;
      }
      ul {
        margin: 6px 0;
        padding-left: 1.2em;
      }
      .do {
        display: flex;
        flex-direction: column;
        gap: 8px;
        align-items: end;
      }
      @media (max-width: 620px) {
        article {
          grid-template-columns: 1fr;
        }
        .do {
          flex-direction: row;
          align-items: center;
        }
      }
    `,
  ];

  override render() {
    if (this.sheets.length === 0 && !this.makes) return nothing;
    return html`<section aria-labelledby="sheets">
      <h2 id="sheets">Week sheets</h2>
      ${this.sheets.map((shown) => this.#sheet(shown))}
      ${
        this.makes
          ? html`<p class="new">
              <button
                @click=${() => fire(this, { kind: 'new sheet', id: crypto.randomUUID(), dateMs: Date.now() })}
              >
                Write a week sheet
              </button>
              <span class="quiet small">of the phrase that is open in Phrase</span>
            </p>`
          : nothing
      }
    </section>`;
  }

  #exercise(sheet: WeekSheet, shown: ExerciseShown, index: number) {
    const { exercise } = shown;
    return html`<li>
      <button
        class="plain"
        aria-label="Play exercise ${index + 1} of the week sheet, ${exercise.phrase.title}"
        @click=${() => fire(this, { kind: 'play sheet', sheet, exercise: index })}
      >
        ${exerciseWords(exercise)}
      </button>
      ${exerciseBody(shown)}
    </li>`;
  }

  #sheet({ sheet, playerId, takes, exercises }: SheetShown) {
    const { id, phrase, due } = sheet;
    const outcomes = exercises.flatMap((one) => one.outcomes);
    const met = outcomes.filter(({ outcome }) => outcome === 'met').length;
    const isMany = exercises.length > 1;
    return html`<article>
      <div>
        <p>
          <strong
            >${isMany ? counted(exercises.length, 'exercise') : exerciseWords(exercises[0].exercise)}</strong
          >${due === null ? nothing : ` · by ${due}`}${
            id === this.sheetId ? ' · being played to' : nothing
          }${playerId === '' ? ` · ${sheet.student === '' ? 'nobody’s' : `for ${sheet.student}, not known here`}` : nothing}
        </p>
        ${
          isMany
            ? html`<ol>
                ${exercises.map((one, index) => this.#exercise(sheet, one, index))}
              </ol>`
            : exerciseBody(exercises[0])
        }
        <p class="quiet small">
          ${
            takes === 0
              ? 'No take has been played to it yet.'
              : `From ${counted(takes, 'take')}: ${met} of ${outcomes.length} targets met.`
          }
        </p>
      </div>
      <div class="do">
        <button
          aria-label="Play to the week sheet, ${phrase.title}"
          @click=${() => fire(this, { kind: 'play sheet', sheet })}
        >
          Open in Play
        </button>
        ${
          takes === 0
            ? nothing
            : html`<button
                class="plain"
                aria-label="Download all takes of the week sheet, ${phrase.title}"
                @click=${() => fire(this, { kind: 'send back', id })}
              >
                All its takes in a file
              </button>`
        }
        <button
          class="plain"
          aria-label="Change or print the week sheet, ${phrase.title}"
          @click=${() => fire(this, { kind: 'edit sheet', sheet, playerId })}
        >
          Change or print
        </button>
        <button
          class="plain quiet"
          aria-label="Put the week sheet away, ${phrase.title}"
          @click=${() => fire(this, { kind: 'remove sheet', id })}
        >
          Put away
        </button>
        <evenhand-give-to
          what="week sheet"
          .itemId=${id}
          .others=${calledPlayers(this.players).filter((player) => player.id !== playerId)}
        ></evenhand-give-to>
      </div>
    </article>`;
  }
}

const exerciseWords = ({ phrase, bpm, minutes }: WeekExercise): string =>
  `${phrase.title}, ${bpm} bpm${minutes === undefined ? '' : `, ${counted(minutes, 'minute')} a day`}`;

/** What is said of it, its targets and what was reached. */
function exerciseBody({ exercise, outcomes }: ExerciseShown) {
  const { words, before = '' } = exercise;
  return html`${before === '' ? nothing : html`<p>${before}</p>`}
  ${words === '' ? nothing : html`<p class="words">${words}</p>`}
  ${
    outcomes.length === 0
      ? nothing
      : html`<ul aria-label="Targets">
          ${outcomes.map((one) => html`<li>${outcomeWords(one)}</li>`)}
        </ul>`
  }`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-week-sheets': WeekSheets;
  }
}
