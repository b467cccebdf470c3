import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { FigureChoice } from '../../state/view';
import {
  type FarFrame,
  type FarScene,
  type FarState,
  isStale,
  noFarState,
  staleWords,
} from '../../state/far';
import { figureNames, isOut, type FigureName } from '../../take/live/figures';
import type { LivePass, LiveState } from '../../take/types';
import { settingsOf } from '../../settings';
import type { Hand } from '../../stroke';
import '../play/bar-view';
import { fireParent } from '../shared/events';
import { aimWords, figureNumber, figureTitles, handWords } from '../play/figure-words';
import { look } from '../shared/look';
import { capital } from '../shared/numbers';
import { timeWords } from '../shared/position-words';
import { counted } from '../../text';

/**
 * The far view: the bar that is on, for a teacher across the room. Half the ink of the bar view: sticking, strokes, one number
 * a hand. What it is told is old where nothing has come for a while, and it says so.
 * @fires mark {cycle, barInCycle} the bar on the screen is to be remembered
 * @fires figure {figure} the one number
 */
@customElement('evenhand-far-view')
export class FarView extends LitElement {
  @property({ attribute: false }) state: FarState = noFarState;
  /** The teacher's own choice: the player's numbers are the player's. */
  @state() private numbers = true;

  static override styles = [
    look,
    css`
      :host {
        --far: max(27px, 3.6vh);
        box-sizing: border-box;
        display: flex;
        flex-direction: column;
        gap: 1.2vh;
        min-height: 100vh;
        padding: 2vh var(--edge);
        font-size: var(--far);
        line-height: 1.2;
      }
      .top,
      .hands,
      .tools {
        display: flex;
        flex-wrap: wrap;
        justify-content: space-between;
        align-items: baseline;
        gap: 0 3vw;
      }
      h1 {
        font-size: calc(var(--far) * 1.3);
      }
      evenhand-bar-view {
        --plot: 27vh;
        --most-letter: max(27px, 3.1vh, min(5vw, 7.5vh));
      }
      .stale evenhand-bar-view,
      .stale .hands {
        opacity: 0.35;
      }
      .old {
        font-weight: 800;
      }
      .hands {
        justify-content: flex-start;
        gap: 0 6vw;
      }
      .hand {
        font-size: calc(var(--far) * 1.6);
        font-weight: 800;
        white-space: nowrap;
      }
      .number {
        display: inline-block;
        min-width: 3.4em;
        font-size: max(54px, min(13vh, 18vw));
        font-weight: 800;
        line-height: 1;
        letter-spacing: -0.03em;
      }
      .number.out {
        text-decoration: underline;
        text-decoration-thickness: 0.06em;
      }
      .tools {
        margin-top: auto;
        justify-content: flex-start;
        gap: 12px 24px;
      }
      .tools button,
      .tools select {
        max-width: 100%;
        font-size: inherit;
      }
      .tick {
        display: flex;
        align-items: center;
        gap: 10px;
        min-height: 44px;
      }
      .tick input {
        width: 27px;
        height: 27px;
        min-height: 0;
        accent-color: var(--ink);
      }
      .body {
        display: contents;
      }
    `,
  ];

  override render() {
    const { scene, frame } = this.state;
    const old = staleWords(this.state);
    if (scene === null || frame === null)
      return html`<h1>Far view</h1>
        <p role="status">${old}</p>`;
    return html`<div class="body ${isStale(this.state) ? 'stale' : ''}">
      ${top(scene.of, frame, old)} ${bar(scene.of, frame)} ${this.numbers ? hands(frame) : nothing}
      ${this.#tools(frame)}
    </div>`;
  }

  #tools({ cycle, barInCycle, marks, choice, running }: FarFrame) {
    const option = (value: FigureChoice, words: string) =>
      html`<option value=${value} ?selected=${value === choice}>${words}</option>`;
    const chosen = (event: Event): void => {
      if (!(event.target instanceof HTMLSelectElement)) return;
      const { value } = event.target;
      const figure = figureNames.find((name) => name === value) ?? 'report';
      fireParent(this, 'figure', { figure });
    };
    return html`<div class="tools">
      <button ?disabled=${!running} @click=${() => fireParent(this, 'mark', { cycle, barInCycle })}>
        Mark this bar
      </button>
      <select aria-label="One number" .value=${choice} @change=${chosen}>
        ${option('report', 'As the last report asks')}
        ${figureNames.map((name) => option(name, figureTitles[name]))}
      </select>
      <label class="tick">
        <input
          type="checkbox"
          .checked=${this.numbers}
          @change=${(event: Event) => {
            if (event.target instanceof HTMLInputElement) this.numbers = event.target.checked;
          }}
        />numbers
      </label>
      <span role="status">${marks === 0 ? nothing : `${counted(marks, 'bar')} marked`}</span>
    </div>`;
  }
}

function top({ title, bars, cycles }: FarScene, frame: FarFrame, old: string) {
  const { barInCycle, cycle, counting, beat, running, freeTime } = frame;
  const where = counting
    ? `count-in: ${(beat ?? 0) + 1}`
    : running
      ? `bar ${barInCycle + 1} of ${bars.length}, cycle ${cycle + 1}${cycle < cycles ? ` of ${cycles}` : ''}`
      : 'not playing';
  return html`<div class="top">
    <h1>${capital(bars[barInCycle]?.variation ?? title)}</h1>
    ${freeTime === undefined || old !== '' ? nothing : html`<strong>${timeWords(freeTime)}</strong>`}
    <span class=${old === '' ? 'quiet' : 'old'} role=${old === '' ? nothing : 'status'}
      >${old === '' ? where : old}</span
    >
  </div>`;
}

function bar({ bars, slots, limits, heights }: FarScene, frame: FarFrame) {
  return html`<evenhand-bar-view
    far
    .bars=${bars}
    .slots=${slots}
    .live=${liveOf(slots.length, bars[frame.barInCycle]?.firstSlot ?? 0, frame)}
    .settings=${settingsOf(limits)}
    .heights=${heights}
    .barInCycle=${frame.barInCycle}
    .cycle=${frame.cycle}
    .beat=${frame.beat}
    .showTiming=${false}
  ></evenhand-bar-view>`;
}

/** What was sent of one bar, where the bar view looks for it. */
function liveOf(slots: number, firstSlot: number, frame: FarFrame): LiveState {
  const passes = Array.from({ length: slots }, (): readonly LivePass[] => []);
  frame.passes.forEach((one, index) => (passes[firstSlot + index] = one));
  return {
    strokes: 0,
    offsetMs: 0,
    lateMs: 0,
    told: 'all',
    passes,
    extras: frame.extras,
    contrastDb: null,
    unmapped: 0,
  };
}

function hands({ name, figure }: FarFrame) {
  const aim = figure === null || name === 'balance' ? '' : ` · ${aimWords(figure)}`;
  const unit = name === 'early or late' || name === 'scatter' ? 'ms' : 'dB';
  return html`<div class="hands">${(['R', 'L'] as const).map((hand) => handNumber(hand, name, figure))}</div>
    <p>${unit}, ${handWords(name)}${aim}</p>`;
}

function handNumber(hand: Hand, name: FigureName, figure: FarFrame['figure']) {
  const value = figure === null ? null : figure[hand];
  const out = figure !== null && name !== 'balance' && isOut(figure, value);
  return html`<span class="hand"
    >${hand} <span class="number ${out ? 'out' : ''}">${figureNumber(name, value)}</span></span
  >`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-far-view': FarView;
  }
}
