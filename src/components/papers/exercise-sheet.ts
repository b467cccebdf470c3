import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Phrase } from '../../exercises/types';
import type { Bpm } from '../../units';
import { fire } from '../shared/events';
import { sheetStyles } from './exercise-sheet-styles';
import { look } from '../shared/look';
import '../notation/notation';
import { lengthWords } from '../phrase/phrase-words';
import { tempoSteps } from '../play/tempo-steps';

const STEPS = 6;
const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;
/** The music is smaller on paper, so that two bars of sixteenths stand side by side on A4 and Letter. */
const MUSIC_SIZE = 0.72;

/**
 * A page for a student without a screen: the phrase in notation with sticking and counts, tempos to tick for each day
 * of a week, the teacher's line, the caution. Black on white; prints on A4 and Letter.
 * @fires action phrase sheet {open: false}
 */
@customElement('evenhand-exercise-sheet')
export class ExerciseSheet extends LitElement {
  @property({ attribute: false }) phrase: Phrase | null = null;
  /** The slowest tempo of the table. */
  @property({ type: Number }) bpm: Bpm = 84;

  static override styles = [look, sheetStyles];

  override render() {
    const { phrase } = this;
    if (phrase === null) return nothing;
    const bars = phrase.bars.map((bar) => ({ beats: bar.beatsPerBar ?? phrase.beatsPerBar }));
    return html`
      <div class="tools">
        <button @click=${() => fire(this, { kind: 'phrase sheet', open: false })}>Back to the phrase</button>
        <button class="strong" @click=${() => window.print()}>Print</button>
        <p class="quiet small">Fits A4 and Letter. What you write in the ruled lines is printed.</p>
      </div>
      <article class="paper">
        <header>
          <h1>${phrase.title}</h1>
          <div class="who">${ruled('For')} ${ruled('Week of')}</div>
        </header>
        <p>${lengthWords(bars, phrase.cycles, this.bpm)}.</p>
        <evenhand-notation .phrase=${phrase} .size=${MUSIC_SIZE}>
          <ol class="sticking">
            ${phrase.bars.map((bar) => html`<li>${bar.variation}: <b>${bar.sticking}</b></li>`)}
          </ol>
        </evenhand-notation>
        <p class="small">
          R right hand, L left hand, small letters graces. &gt; accent: from a full stroke. Other notes: low,
          and as soft as each other; in brackets: softer still. Count aloud what stands under the notes.
        </p>
        ${this.#tempos()}
        <div class="teacher">${ruled('From your teacher')} ${ruled('')}</div>
        <p class="caution">
          Warm up first. Stop at pain or numbness, and rest; what a doctor or therapist tells you goes before
          this sheet. Wear ear protection at a drum. Slower and relaxed beats faster and tight.
        </p>
      </article>
    `;
  }

  #tempos() {
    return html`<table>
      <caption>
        Tick a tempo when the phrase went round twice without a slip, relaxed. Start a day two tempos under
        the last tick.
      </caption>
      <thead>
        <tr>
          <th scope="col">bpm</th>
          ${DAYS.map((day) => html`<th scope="col">${day}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${tempoSteps(this.bpm, STEPS).map(
          (bpm) =>
            html`<tr>
              <th scope="row">${bpm}</th>
              ${DAYS.map((day) => html`<td><input type="checkbox" aria-label="${bpm} bpm, ${day}" /></td>`)}
            </tr>`,
        )}
      </tbody>
    </table>`;
  }
}

function ruled(label: string) {
  return html`<label class="ruled"
    ><span>${label}</span
    ><input type="text" autocomplete="off" aria-label=${label === '' ? 'More from your teacher' : label}
  /></label>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-exercise-sheet': ExerciseSheet;
  }
}
