import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { MidiStatus } from '../../midi/types';
import type { Action } from '../../state/actions';
import type { Rigging } from '../../state/rig/state';
import type { Rig } from '../../sessions/types';
import type { Bpm } from '../../units';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { PageKeys } from '../shared/page-keys';
import { midiWords } from '../shared/midi-words';
import '../shared/number-field';
import './rig-click';
import './rig-finer';
import './rig-heights';
import './rig-monitor';
import './rig-ports';
import './kept-rigs';
import { rigStyles } from './rig-styles';
import './rig-surfaces';
import { askingWords, gestureWords } from './rig-words';
import type { OutputChoice } from '../shared/types';

/**
 * Rig: what to strike next in big words, and under them all that the rig knows: ports, surfaces, heights, and what else it
 * can be taught. Keys: A again, S skip.
 * @fires action begin step, step again, skip step, leave steps and whatever else is done with the rig
 * @fires action connect asks for MIDI
 * @fires action go {screen}
 */
@customElement('evenhand-rig-screen')
export class RigScreen extends LitElement {
  @property({ attribute: false }) rigging: Rigging | null = null;
  @property({ attribute: false }) rig: Rig | null = null;
  @property({ attribute: false }) midi: MidiStatus = { kind: 'off' };
  @property({ attribute: false }) outputs: readonly OutputChoice[] = [];
  @property() output = '';
  @property({ type: Number }) bpm: Bpm = 84;
  @property({ type: Number, attribute: 'partials-per-beat' }) partialsPerBeat = 4;

  static override styles = [
    look,
    rigStyles,
    css`
      .asked {
        display: grid;
        grid-template-columns: 1fr auto;
        gap: 6px 24px;
        grid-template-rows: 1fr auto;
        align-items: start;
        /* Space for two lines of heading and two of words: what is under it stays still from step to step. */
        min-height: 264px;
      }
      h1 {
        font-size: clamp(34px, 4.6vw, 60px);
        line-height: 1.1;
        text-wrap: balance;
      }
      .detail {
        max-width: 46em;
        margin-top: 8px;
        font-size: 19px;
      }
      .found {
        font-weight: 600;
      }
      .number {
        font-size: 84px;
        font-weight: 800;
        line-height: 0.95;
        letter-spacing: -0.03em;
        text-align: right;
      }
      .count p:last-child {
        text-align: right;
      }
      .acts {
        grid-column: 1 / -1;
      }
      @media (max-width: 560px) {
        .asked {
          grid-template-columns: 1fr;
          grid-template-rows: 1fr auto auto;
        }
        .count {
          display: flex;
          gap: 10px;
          align-items: baseline;
        }
        .number {
          font-size: 56px;
        }
      }
    `,
  ];

  protected readonly keys = new PageKeys(this, (event) => {
    const key = event.key.toLowerCase();
    if (key === 'a') fire(this, { kind: 'step again' });
    else if (key === 's') fire(this, { kind: 'skip step' });
    else if (key === 'escape') fire(this, { kind: 'leave steps' });
  });

  override render() {
    const { rigging, rig } = this;
    if (rigging === null) return nothing;
    const newest = rigging.surfaces.found.find(({ id }) => id === rigging.surfaces.newest)?.name ?? null;
    return html`
      ${this.#asked(rigging, newest)}
      <evenhand-rig-ports
        .midi=${this.midi}
        .activity=${rigging.activity}
        .ignoredPorts=${rigging.ignoredPorts}
        .rig=${rig}
      ></evenhand-rig-ports>
      <evenhand-rig-surfaces
        .rig=${rig}
        .newest=${rigging.task.kind === 'surfaces' ? rigging.surfaces.newest : null}
      ></evenhand-rig-surfaces>
      <evenhand-rig-heights
        .rig=${rig}
        .task=${rigging.task}
        .advice=${rigging.task.kind === 'rest' ? [] : (rigging.results.heights ?? [])}
      ></evenhand-rig-heights>
      <evenhand-rig-finer
        .rig=${rig}
        .results=${rigging.results}
        .bpm=${this.bpm}
        .partialsPerBeat=${this.partialsPerBeat}
      ></evenhand-rig-finer>
      <evenhand-rig-click .outputs=${this.outputs} .chosen=${this.output}></evenhand-rig-click>
      <evenhand-kept-rigs .rigs=${rigging.rigs} .rig=${rig}></evenhand-kept-rigs>
      <evenhand-rig-monitor .monitor=${rigging.monitor}></evenhand-rig-monitor>
    `;
  }

  #asked({ task, uncertain, results }: Rigging, newest: string | null) {
    if (this.midi.kind !== 'on' || !this.midi.inputs.some(({ connected }) => connected)) return this.#cable();
    if (uncertain.length > 0) return this.#uncertain(uncertain[0]);
    const { says, detail, count } = askingWords(task, this.rig, newest);
    const gestures = gestureWords(task, this.rig);
    const found =
      task.kind === 'between' ? results[task.done] : task.kind === 'rest' ? results.heights : undefined;
    return html`<div class="asked">
      <div role="status">
        <h1>${says}</h1>
        ${(found ?? []).map((line) => html`<p class="detail found">${line}</p>`)}
        ${detail.map((line) => html`<p class="detail">${line}</p>`)}
        ${gestures === null ? nothing : html`<p class="detail quiet">${gestures}</p>`}
      </div>
      ${
        count === null
          ? nothing
          : html`<div class="count">
              <p class="number">${count.number}</p>
              <p class="quiet">${count.words}</p>
            </div>`
      }
      <div class="acts row">${this.#acts(task)}</div>
    </div>`;
  }

  /** Nothing to strike yet: what is the matter with MIDI, and what to do about it. */
  #cable() {
    const { says, todo, ask } = midiWords(this.midi);
    const isFirst = this.midi.kind === 'off';
    return html`<div class="asked">
      <div role="status">
        <h1>${isFirst ? 'First the cable.' : says}</h1>
        ${
          isFirst
            ? html`<p class="detail">
                Plug the kit or pad into this computer by USB or a MIDI interface and switch it on, then let
                this page use it. From then on sticks in hand: two minutes, and the rig is learned.
              </p>`
            : html`<p class="detail">${todo}</p>`
        }
      </div>
      ${
        ask === null
          ? nothing
          : html`<div class="acts row">
              <button class="strong" @click=${() => fire(this, { kind: 'connect' })}>${ask}</button>
            </div>`
      }
    </div>`;
  }

  #uncertain(port: string) {
    const surface = this.rig?.surfaces.find((one) => one.port === port);
    return html`<div class="asked">
      <div role="status">
        <h1>Strike ${surface?.name ?? port} once.</h1>
        <p class="detail">
          More than one input is called ${port.replace(/ \(\d+\)$/, '')}, and they were plugged in anew: the
          strike tells which is which.
        </p>
      </div>
    </div>`;
  }

  #acts(task: Rigging['task']) {
    const button = (action: Action, words: string, strong = false) =>
      html`<button class=${strong ? 'strong' : ''} @click=${() => fire(this, action)}>${words}</button>`;
    switch (task.kind) {
      case 'rest':
        return this.rig === null
          ? nothing
          : html`<button class="strong" @click=${() => fire(this, { kind: 'go', screen: 'play' })}>
                Play
              </button>
              ${this.rig.start === undefined ? nothing : html`<span class="quiet">${this.#startWords()}</span>`}`;
      case 'surfaces':
      case 'hands':
        return this.rig === null
          ? nothing
          : html`${button({ kind: 'skip step' }, 'Go on')}${button({ kind: 'leave steps' }, 'Leave it')}`;
      case 'delays found':
        return html`${button({ kind: 'accept delays' }, 'Take it into the rig', true)}
          ${button({ kind: 'step again' }, 'Play along again')} ${button({ kind: 'skip step' }, 'Leave it')}
          <evenhand-number-field
            label="Sound’s own delay, if you know it"
            unit="ms"
            .value=${task.found.outputMs}
            .least=${0}
            .most=${500}
            @number=${(event: CustomEvent<{ value: number }>) =>
              fire(this, { kind: 'output delay', ms: event.detail.value })}
          ></evenhand-number-field>`;
      case 'between':
        return html`${task.next === null ? nothing : button({ kind: 'begin step', task: task.next }, 'Go on', true)}
        ${button({ kind: 'begin step', task: task.done }, 'Once more')}
        ${button({ kind: 'leave steps' }, 'Enough')}`;
      default:
        return html`${button({ kind: 'step again' }, 'Again (A)')}
        ${button({ kind: 'skip step' }, 'Skip (S)')} ${button({ kind: 'leave steps' }, 'Stop')}`;
    }
  }

  #startWords(): string {
    const start = this.rig?.surfaces.find(({ id }) => id === this.rig?.start?.surface);
    return start === undefined
      ? ''
      : `${start.name} starts and stops. After a stop 1, 2 or 3 strikes there: again, slower, faster.`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-rig-screen': RigScreen;
  }
}
