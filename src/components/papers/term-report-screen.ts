import { html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { TermDraft } from '../../insight/history/view';
import { termOf } from '../../insight/history/term';
import type { TakeSummary } from '../../sessions/take-record';
import { termReportHtml } from '../../sessions/paper/term-report';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { paperStyles } from './paper-styles';

/**
 * A term report for parents: days and words on the left, the paper as it will be on the right.
 * @fires action change term {change} @fires action close term @fires action export term @fires action printed {what}
 */
@customElement('evenhand-term-report-screen')
export class TermReportScreen extends LitElement {
  @property({ attribute: false }) term: TermDraft = { student: '', fromDay: '', toDay: '', words: '' };
  /** All takes of the player in turn. */
  @property({ attribute: false }) takes: readonly TakeSummary[] = [];

  static override styles = [look, paperStyles];

  override render() {
    return html`
      <div class="top">
        <h1>Term report</h1>
        <button class="plain" @click=${() => fire(this, { kind: 'close term' })}>Back to History</button>
      </div>
      <div class="columns">
        <div>
          ${this.#field('student', 'Student: a name, initials or a number, or nothing', 'text')}
          ${this.#field('fromDay', 'From', 'date')} ${this.#field('toDay', 'To', 'date')}
          <label
            ><span>Your words, to the parents</span
            ><textarea
              rows="6"
              .value=${this.term.words}
              @input=${(event: Event) => this.#change('words', event)}
            ></textarea>
          </label>
          <p class="quiet small">
            What was worked on, how fast it is steady, and minutes: no levels, no terms of measurement.
          </p>
          <div class="actions">
            <button class="strong" @click=${this.#print}>Print</button>
            <button @click=${() => fire(this, { kind: 'export term' })}>Download as a page</button>
          </div>
        </div>
        <iframe
          title="The report as it will be printed"
          .srcdoc=${termReportHtml(this.term, termOf(this.takes, this.term, -new Date().getTimezoneOffset()))}
        ></iframe>
      </div>
    `;
  }

  #field(key: Exclude<keyof TermDraft, 'words'>, words: string, type: 'text' | 'date') {
    return html`<label
      ><span>${words}</span
      ><input
        type=${type}
        autocomplete="off"
        maxlength="60"
        .value=${this.term[key]}
        @input=${(event: Event) => this.#change(key, event)}
    /></label>`;
  }

  #change(key: keyof TermDraft, { target }: Event): void {
    if (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement)
      fire(this, { kind: 'change term', change: { [key]: target.value } });
  }

  #print(): void {
    this.renderRoot.querySelector('iframe')?.contentWindow?.print();
    fire(this, { kind: 'printed', what: 'term report' });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-term-report-screen': TermReportScreen;
  }
}
