import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { awayWords, ceilingWords, changeWords, isNow } from '../../insight/ceiling/words';
import { firstHistory } from '../../state/state';
import type { HistoryView } from '../../insight/history/view';
import { historyShown, type HistoryShown } from '../../insight/history/shown';
import { dateOf, dayOf } from '../../insight/history/weeks';
import { exercisesOf } from '../../sessions/week/exercises';
import type { SheetShown } from '../../state/library';
import type { TakeSummary } from '../../sessions/take-record';
import type { Limits } from '../../settings';
import { afterPaint } from '../shared/after-paint';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { capital, fixed } from '../shared/numbers';
import '../pictures/element';
import { coursePicture } from '../pictures/course';
import { weeksPicture } from '../pictures/weeks';
import { dayWords } from '../pictures/weeks-axis';
import { markLetter } from '../pictures/weeks-marks';
import { counted } from '../../text';

/**
 * History: how a phrase on a rig changed over weeks, and minutes of practice a week.
 * @fires action history phrase {id} @fires action history rig {id} @fires action history variation {id} @fires action write term
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
        gap: 22px;
        max-width: 1100px;
        margin-top: 22px;
      }
      .after {
        margin-top: 8px;
      }
      .lines > * {
        min-width: 0;
      }
      .printed {
        display: none;
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
      .weeks {
        max-width: 34em;
      }
      .ceilings {
        max-width: 52em;
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
      @media print {
        .choose,
        section label,
        button {
          display: none;
        }
        .printed {
          display: block;
        }
      }
    `,
  ];

  /** The curves of earlier spells cost as much as all the rest: they are drawn after the first frame. */
  #isPainted = false;

  protected override firstUpdated(): void {
    afterPaint(() => {
      this.#isPainted = true;
      this.requestUpdate();
    });
  }

  override render() {
    const east = -new Date().getTimezoneOffset();
    const shown = historyShown(
      this.takes,
      this.view,
      this.#sheetWords,
      east,
      this.#isPainted ? undefined : 1,
    );
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
      <p class="printed">${shown.phrase.name}</p>
      <p>${takesWords(shown)}</p>
      ${away(shown)}
      <p class="quiet small">${keyWords(shown)}</p>
      ${this.#lines(shown)} ${this.#marks(shown)} ${this.#ceilings(shown)} ${this.#weeks(shown)}
    `;
  }

  readonly #sheetWords = (sheetId: string): string => {
    const sheet = this.sheets.find((one) => one.sheet.id === sheetId)?.sheet;
    return sheet === undefined
      ? 'one that was put away'
      : exercisesOf(sheet)
          .map(({ phrase, bpm }) => `${phrase.title}, ${bpm} bpm`)
          .join('; ');
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
            fire(this, { kind: `history ${kind}`, id: event.target.value });
        }}
      >
        ${choices.map((one) => html`<option value=${one.id} .selected=${one.id === chosen}>${one.words}</option>`)}
      </select>
    </label>`;
  }

  #lines(shown: HistoryShown) {
    const { lines, course, progress, marks, phrase } = shown;
    const shared = { marks, days: daysOf(shown) };
    return html`<div class="lines">
      <evenhand-picture
        .picture=${coursePicture(course, progress, shared)}
        .fileName=${`history-ceiling-${phrase.name.replaceAll(/[^\p{L}\p{N}]+/gu, '-')}`}
      ></evenhand-picture>
      ${lines.map(
        (line) =>
          html`<evenhand-picture
            .picture=${weeksPicture(line, shared, this.limits)}
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

  #ceilings({ progress, variations, variation }: HistoryShown) {
    if (variations.length === 0) return nothing;
    const rows = [
      { id: '', words: 'the whole phrase', ceiling: progress.ceiling, change: progress.change },
      ...[...progress.variations].map(([id, { ceiling, change }]) => ({ id, words: id, ceiling, change })),
    ];
    return html`<section aria-labelledby="ceilings">
      <h2 id="ceilings">
        Ceiling tempo ${isNow(progress, today()) ? 'now' : `on ${dateOf(progress.days?.[1] ?? 0)}`}
      </h2>
      <p class="quiet small">
        The tempo at which four bars of five are clean, on this rig; in brackets where it lies nine times of
        ten. It is told from all bars, clean and not, with lapses and good and bad days allowed for. The
        phrase’s is that of its weak bar.
      </p>
      <table class="ceilings">
        <thead>
          <tr>
            <th scope="col">variation</th>
            <th scope="col">bpm</th>
            <th scope="col">change</th>
          </tr>
        </thead>
        <tbody>
          ${rows.map(
            ({ id, words, ceiling, change }) =>
              html`<tr class=${id === (variation ?? '') ? 'chosen' : ''}>
                <th scope="row">${capital(words)}</th>
                <td>${ceilingWords(ceiling)}</td>
                <td>${changeWords(change)}</td>
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
        <button @click=${() => fire(this, { kind: 'write term' })}>Write a term report for parents</button>
      </p>
    </section>`;
  }
}

const named = ({ id, name, takes }: { id: string; name: string; takes: number }) => ({
  id,
  words: `${name} · ${counted(takes, 'take')}`,
});

/** First and last day of all that stands under one time axis. */
function daysOf({ from, to, marks }: HistoryShown): readonly [number, number] {
  const days = [from, to, ...marks.map(({ day }) => day)];
  return [Math.min(...days), Math.max(...days)];
}

const today = (): number => dayOf(new Date().toISOString(), -new Date().getTimezoneOffset());

/** What is said of *now* where it isn't now, or where there was a long absence before it. */
function away({ progress }: HistoryShown) {
  const words = awayWords(progress, today());
  return words === '' ? nothing : html`<p>${words}</p>`;
}

/** How the pictures are read. */
function keyWords({ lines }: HistoryShown): string {
  const cold = lines.some(({ points }) => points.some((point) => point.cold));
  return `A point a day${cold ? ': dots are warm takes, crosses cold ones' : ''}. Thin upright lines are 90 % intervals; the newest value stands at the right. A dashed line is drawn where something changed beyond noise (Theil–Sen).`;
}

/** How much there is to tell from, and what is left out. */
function takesWords({ takes, cold, ungraded, rigs, rig, from, to }: HistoryShown): string {
  const days = from === to ? dateOf(from) : `${dateOf(from)} to ${dateOf(to)}`;
  const colds = cold === 0 ? '' : ` ${cold} of them cold: the first of a practice, without a warm-up.`;
  const without =
    ungraded === 0
      ? ''
      : ` ${ungraded} could not be graded, and ${ungraded === 1 ? 'is' : 'are'} in the minutes alone.`;
  const others = rigs.filter(({ id }) => id !== rig.id).reduce((sum, { takes: n }) => sum + n, 0);
  const apart =
    others === 0
      ? ''
      : ` ${others} more ${others === 1 ? 'was' : 'were'} played on another rig: pads answer differently, so rigs are never joined.`;
  return `${counted(takes, 'take')} on ${rig.name}, ${days}.${colds}${without}${apart}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-history-screen': HistoryScreen;
  }
}
