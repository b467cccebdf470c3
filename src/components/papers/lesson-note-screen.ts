import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { noteHtml, type NotedTake, type NoteText } from '../../sessions/paper/lesson-note';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { paperStyles } from './paper-styles';

/**
 * A lesson note: what the teacher writes on the left, the paper as it will be on the right; then print or download it.
 * @fires action change note {change} @fires action close note @fires action export note {as} @fires action printed {what}
 * @fires action use saying {saying} puts a phrase into the words @fires action keep saying {saying} @fires action drop saying {saying}
 */
@customElement('evenhand-lesson-note-screen')
export class LessonNoteScreen extends LitElement {
  @property({ attribute: false }) noted: NotedTake | null = null;
  @property({ attribute: false }) text: NoteText = { student: '', date: '', words: '', target: '' };
  /** The teacher's own phrases. */
  @property({ attribute: false }) sayings: readonly string[] = [];

  static override styles = [look, paperStyles];

  override render() {
    const { noted } = this;
    return html`
      <div class="top">
        <h1>Lesson note</h1>
        <button class="plain" @click=${() => fire(this, { kind: 'close note' })}>Back to Review</button>
      </div>
      ${
        noted === null
          ? html`<p>Open a take in Review first.</p>`
          : html`<div class="columns">
              <div>${this.#fields()} ${this.#actions()}</div>
              <iframe title="The note as it will be printed" .srcdoc=${noteHtml(this.text, [noted])}></iframe>
            </div>`
      }
    `;
  }

  #fields() {
    const { student, words, target } = this.text;
    return html`
      <label
        ><span>Student: a name, initials or a number, or nothing</span
        ><input
          type="text"
          autocomplete="off"
          maxlength="60"
          .value=${student}
          @input=${(event: Event) => this.#change('student', event)}
      /></label>
      <label
        ><span>Your words</span
        ><textarea
          rows="4"
          .value=${words}
          @input=${(event: Event) => this.#change('words', event)}
        ></textarea>
      </label>
      <div class="actions">
        <button
          ?disabled=${words.trim() === ''}
          @click=${() => fire(this, { kind: 'keep saying', saying: words })}
        >
          Keep these words for other notes
        </button>
      </div>
      ${this.sayings.length === 0 ? nothing : this.#sayings()}
      <label
        ><span>Next week’s target</span
        ><textarea
          rows="3"
          .value=${target}
          @input=${(event: Event) => this.#change('target', event)}
        ></textarea>
      </label>
    `;
  }

  #sayings() {
    return html`<ul aria-label="Your kept words">
      ${this.sayings.map(
        (saying) =>
          html`<li>
            <button class="plain" @click=${() => fire(this, { kind: 'use saying', saying })}>
              ${saying}
            </button>
            <button
              class="plain"
              aria-label="Forget: ${saying}"
              @click=${() => fire(this, { kind: 'drop saying', saying })}
            >
              Forget
            </button>
          </li>`,
      )}
    </ul>`;
  }

  #actions() {
    return html`<div class="actions">
      <button class="strong" @click=${this.#print}>Print</button>
      <button @click=${() => fire(this, { kind: 'export note', as: 'html' })}>Download as a page</button>
      <button @click=${() => fire(this, { kind: 'export note', as: 'md' })}>Download as Markdown</button>
      <button @click=${() => fire(this, { kind: 'export note', as: 'week' })}>Make a week sheet of it</button>
    </div>`;
  }

  #change(key: 'student' | 'words' | 'target', { target }: Event): void {
    if (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement)
      fire(this, { kind: 'change note', change: { [key]: target.value } });
  }

  #print(): void {
    this.renderRoot.querySelector('iframe')?.contentWindow?.print();
    fire(this, { kind: 'printed', what: 'note' });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-lesson-note-screen': LessonNoteScreen;
  }
}
