import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { windowWarnings } from '../../midi/learning/window-warnings';
import type { TaskName } from '../../state/rig/task-names';
import { knownWords } from '../../state/rig/known-words';
import type { Rig } from '../../sessions/types';
import { settingsOf } from '../../settings';
import type { Bpm } from '../../units';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { capital, fixed } from '../shared/numbers';
import { rigStyles } from './rig-styles';
import { taskTitles } from './rig-words';

const finer: readonly { readonly task: TaskName; readonly why: string }[] = [
  { task: 'spots', why: 'Tells a loud place of the pad from a loud hand: 64 soft strokes, a minute.' },
  { task: 'trims', why: 'Lets levels be compared across surfaces: 16 strokes of one hand on each.' },
  { task: 'softest', why: 'Finds where soft strokes are lost: 12 on each surface.' },
  { task: 'pairs', why: 'Finds how near two strokes may come: ten flams, ten doubles.' },
  { task: 'false notes', why: 'Finds what the kit adds by itself: half a minute of single strokes.' },
  { task: 'delays', why: 'Finds how late a stroke is stamped: 72 clicks, three quarters of a minute.' },
];

/**
 * What else a rig can be taught, with what it knows of it.
 * @fires action begin step {task} a step is to begin
 */
@customElement('evenhand-rig-finer')
export class RigFiner extends LitElement {
  @property({ attribute: false }) rig: Rig | null = null;
  /** What each step found since the page was opened, in words. */
  @property({ attribute: false }) results: Readonly<Partial<Record<TaskName, readonly string[]>>> = {};
  @property({ type: Number }) bpm: Bpm = 84;
  @property({ type: Number, attribute: 'partials-per-beat' }) partialsPerBeat = 4;

  static override styles = [
    look,
    rigStyles,
    css`
      td {
        vertical-align: top;
      }
      td p + p {
        margin-top: 4px;
      }
    `,
  ];

  override render() {
    const { rig } = this;
    if (rig === null) return nothing;
    const warnings = windowWarnings(rig, settingsOf('working'), this.bpm, this.partialsPerBeat);
    return html`<section aria-label="Finer">
      <h2>Finer, when you have the time</h2>
      <table class="stacked">
        <tbody>
          ${finer.map(({ task, why }) => {
            const known = this.results[task] ?? knownWords(rig, task);
            return html`<tr>
              <th scope="row">${capital(taskTitles[task])}</th>
              <td>
                ${
                  known.length === 0
                    ? html`<p class="quiet">${why}</p>`
                    : known.map((line) => html`<p>${line}</p>`)
                }
                ${
                  task === 'false notes'
                    ? warnings.map(
                        ({ words }) => html`<p><strong>At ${fixed(this.bpm, 0)} bpm:</strong> ${words}</p>`,
                      )
                    : nothing
                }
              </td>
              <td class="end">
                <button
                  aria-label="${known.length === 0 ? 'Teach' : 'Teach again'}: ${taskTitles[task]}"
                  @click=${() => fire(this, { kind: 'begin step', task })}
                >
                  ${known.length === 0 ? 'Teach' : 'Again'}
                </button>
              </td>
            </tr>`;
          })}
        </tbody>
      </table>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-rig-finer': RigFiner;
  }
}
