import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Climbing } from '../../state/climb';
import type { Bpm } from '../../units';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { fixed } from '../shared/numbers';
import '../pictures/element';
import { climbPicture } from '../pictures/climb';

/**
 * A climb: where it can be begun, what comes next and when, and after its last take the picture of it.
 * @fires action begin climb {today} @fires action end climb
 */
@customElement('evenhand-climb')
export class ClimbLine extends LitElement {
  @property({ attribute: false }) climb: Climbing | null = null;
  @property({ type: Number }) bpm: Bpm = 84;

  static override styles = [
    look,
    css`
      .row {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 6px 18px;
      }
      .next {
        font-size: 19px;
        font-weight: 600;
      }
    `,
  ];

  override render() {
    const { climb } = this;
    if (climb === null)
      return html`<p class="row">
        <button
          class="plain"
          @click=${() => fire(this, { kind: 'begin climb', today: new Date().toISOString().slice(0, 10) })}
        >
          Climb from ${fixed(this.bpm, 0)} bpm
        </button>
        <span class="quiet"
          >Take after take by itself: faster after two that were clean, slower after two that weren’t, the
          last one bare.</span
        >
      </p>`;
    return html`<div class="row">
        <p class="next" role="status">${nextWords(climb)}</p>
        <button class="plain" @click=${() => fire(this, { kind: 'end climb' })}>
          ${climb.step.kind === 'done' ? 'Close the climb' : 'End the climb'}
        </button>
      </div>
      ${climb.step.kind === 'done' ? nothing : html`<p class="quiet">${climb.step.words}</p>`}
      ${climb.takes.length === 0 ? nothing : html`<evenhand-picture .picture=${climbPicture(climb)} fileName="climb"></evenhand-picture>`}`;
  }
}

function nextWords({ step, secondsLeft, takes, cutShort }: Climbing): string {
  if (step.kind === 'done') return step.words;
  const what = `Take ${takes.length + 1}${step.last ? ', the last, bare' : ''}: ${fixed(step.bpm, 0)} bpm`;
  const short = cutShort ? 'That take was cut short and doesn’t count. ' : '';
  if (secondsLeft === null) return `${short}${what}. Start when you are ready.`;
  return `${what} in ${secondsLeft} s.`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-climb': ClimbLine;
  }
}
