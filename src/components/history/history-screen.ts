import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { ceilingWords } from '../../insight/ceiling-words';
import { firstHistory } from '../../state/history';
import type { HistoryView } from '../../insight/history/view';
import { historyShown, type HistoryShown } from '../../insight/history/shown';
import { dateOf } from '../../insight/history/weeks';
import type { SheetShown } from '../../state/sheets';
import type { TakeSummary } from '../../sessions/take-record';
import type { Limits } from '../../settings';
import { tell } from '../shared/events';
import { look } from '../shared/look';
import { capital, fixed } from '../shared/numbers';
import '../pictures/element';
import { weeksPicture } from '../pictures/weeks';
import { dayWords } from '../pictures/weeks-axis';
import { markLetter } from '../pictures/weeks-marks';

/**
 * History: how a phrase on a rig changed over weeks, and minutes of practice a week.
 * @fires history {kind: phrase | rig | variation, id} @fires term-report
 */
@customElement('evenhand-history-screen')
export class HistoryScreen extends LitElement {
  /** All takes of the player in turn. */
  @property({ attribute: false }) takes: readonly TakeSummary[] = [];
  @property({ attribute: false }) sheets: readonly SheetShown[] = [];
  @property({ attribute: false }) view: HistoryView = firstHistory;
  @property() limits: Limits = 'working';

  static override styles = [
    look,
    css`
      .choose {
        display: flex;
        flex-wrap: wrap;
        gap: 10px 18px;
        margin: 12px 0 14px;
      }
      .choose span {
        display: block;
        color: var(--quiet);
        font-size: 15px;
      }
      select {
        max-width: min(34em, 88vw);
      }
      p {
        max-width: 52em;
      }
      section {
        margin-top: 34px;
      }
      .lines {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 460px), 1fr));
        gap: 34px 44px;
        margin-top: 26px;
      }
      .after {
        margin-top: 8px;
      }
      .lines > * {
        min-width: 0;
      }
      ol {
        margin: 8px 0 0;
        padding: 0;
        list-style: none;
      }
      ol b {
        display: inline-block;
        width: 1.4em;
      }
      .weeks,
      .ceilings {
        max-width: 34em;
      }
      h2 + p,
      h2 + table {
        margin-top: 6px;
      }
      section label {
        display: inline-block;
        margin-top: 12px;
      }
      .chosen th,
      .chosen td {
        font-weight: 700;
      }
      tbody th {
        font-weight: 400;
      }
      td.figure,
      th.figure {
        text-align: right;
      }
    `,
  ];

  override render() {
    const shown = historyShown(this.takes, this.view, this.#sheetWords, -new Date().getTimezoneOffset());
    if (shown === undefined) {
      return html`<h1>History</h1>
        <p class="quiet">Nothing yet: it begins with your first take.</p>`;
    }
    return html`
      <h1>History</h1>
      <div class="choose">
        ${this.#choice('phrase', 'Phrase', shown.phrases.map(named), shown.phrase.id)}
        ${this.#choice('rig', 'Rig', shown.rigs.map(named), shown.rig.id)}
      </div>
      <p>${takesWords(shown)}</p>
      ${shown.lines.length === 0 ? nothing : html`<p class="quiet small">${keyWords(shown)}</p>`}
      ${this.#lines(shown)} ${this.#marks(shown)} ${this.#ceilings(shown)} ${this.#weeks(shown)}
    `;
  }

  readonly #sheetWords = (sheetId: string): string => {
    const sheet = this.sheets.find((one) => one.sheet.id === sheetId)?.sheet;
    return sheet === undefined ? 'one that was put away' : `${sheet.phrase.title}, ${sheet.bpm} bpm`;
  };

  #choice(
    kind: 'phrase' | 'rig' | 'variation',
    words: string,
    choices: readonly { readonly id: string; readonly words: string }[],
    chosen: string,
  ) {
    return html`<label>
      <span>${words}</span>
      <select
        @change=${(event: Event) => {
          if (event.target instanceof HTMLSelectElement)
            tell(this, 'history', { kind, id: event.target.value });
        }}
      >
        ${choices.map((one) => html`<option value=${one.id} .selected=${one.id === chosen}>${one.words}</option>`)}
      </select>
    </label>`;
  }

  #lines({ lines, marks, phrase }: HistoryShown) {
    if (lines.length === 0) return nothing;
    return html`<div class="lines">
      ${lines.map(
        (line) =>
          html`<evenhand-picture
            .picture=${weeksPicture(line, marks, this.limits)}
            .fileName=${`history-${line.what}-${phrase.name.replaceAll(/[^\p{L}\p{N}]+/gu, '-')}`}
          ></evenhand-picture>`,
      )}
    </div>`;
  }

  #marks({ marks }: HistoryShown) {
    if (marks.length === 0) return nothing;
    return html`<section aria-labelledby="marks">
      <h2 id="marks">What began when</h2>
      <ol>
        ${marks.map(
          ({ day, kind, words }, index) =>
            html`<li><b>${markLetter(index)}</b>${dayWords(day, true)}, ${kind}: ${words}</li>`,
        )}
      </ol>
    </section>`;
  }

  #ceilings({ ceilings, variations, variation }: HistoryShown) {
    if (variations.length === 0) return nothing;
    const rows = [
      { id: '', words: 'the whole phrase', ceiling: ceilings.phrase },
      ...[...ceilings.variations].map(([id, ceiling]) => ({ id, words: id, ceiling })),
    ];
    return html`<section aria-labelledby="ceilings">
      <h2 id="ceilings">Ceiling tempo now</h2>
      <p class="quiet small">
        The tempo at which four bars of five hold, on this rig: from all bars, of which one counts half after
        three weeks, so that it follows slowly.
      </p>
      <table class="ceilings">
        <thead>
          <tr>
            <th scope="col">variation</th>
            <th scope="col">bpm</th>
          </tr>
        </thead>
        <tbody>
          ${rows.map(
            ({ id, words, ceiling }) =>
              html`<tr class=${id === (variation ?? '') ? 'chosen' : ''}>
                <th scope="row">${capital(words)}</th>
                <td>${ceilingWords(ceiling)}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      ${variations.length < 2 ? nothing : this.#choice('variation', 'Draw the ceiling of', rows, variation ?? '')}
    </section>`;
  }

  #weeks({ weeks }: HistoryShown) {
    return html`<section aria-labelledby="weeks">
      <h2 id="weeks">Practice, week by week</h2>
      <table class="weeks">
        <thead>
          <tr>
            <th scope="col">week from</th>
            <th scope="col" class="figure">minutes</th>
            <th scope="col" class="figure">days</th>
            <th scope="col" class="figure">takes</th>
          </tr>
        </thead>
        <tbody>
          ${weeks.map(
            ({ from, minutes, days, takes }) =>
              html`<tr>
                <td>${from}</td>
                <td class="figure">${fixed(minutes, minutes < 10 ? 1 : 0)}</td>
                <td class="figure">${days}</td>
                <td class="figure">${takes}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      <p class="quiet small after">
        Minutes are those of the takes themselves, of every phrase, without the pauses.
      </p>
      <p class="after">
        <button @click=${() => tell(this, 'term-report')}>Write a term report for parents</button>
      </p>
    </section>`;
  }
}

const named = ({ id, name, takes }: { id: string; name: string; takes: number }) => ({
  id,
  words: `${name} · ${takes} ${takes === 1 ? 'take' : 'takes'}`,
});

/** How the pictures are read. */
function keyWords({ lines }: HistoryShown): string {
  const cold = lines.some(({ points }) => points.some((point) => point.cold));
  return `A point a day${cold ? ': dots are warm takes, crosses cold ones' : ''}. Thin upright lines are 90 % intervals. A dashed line is drawn where something changed beyond noise (Theil–Sen).`;
}

/** How much there is to tell from, and what is left out. */
function takesWords({ takes, cold, ungraded, rigs, rig, from, to }: HistoryShown): string {
  const days = from === to ? dateOf(from) : `${dateOf(from)} to ${dateOf(to)}`;
  const colds = cold === 0 ? '' : ` ${cold} of them cold: the first of a sitting, without a warm-up.`;
  const without =
    ungraded === 0
      ? ''
      : ` ${ungraded} could not be graded, and ${ungraded === 1 ? 'is' : 'are'} in the minutes alone.`;
  const others = rigs.filter(({ id }) => id !== rig.id).reduce((sum, { takes: n }) => sum + n, 0);
  const apart =
    others === 0
      ? ''
      : ` ${others} more ${others === 1 ? 'was' : 'were'} played on another rig: pads answer differently, so rigs are never joined.`;
  return `${takes} ${takes === 1 ? 'take' : 'takes'} on ${rig.name}, ${days}.${colds}${without}${apart}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-history-screen': HistoryScreen;
  }
}
