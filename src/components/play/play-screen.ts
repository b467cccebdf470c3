import { html, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { FootSlot, GridBar, Slot } from '../../exercises/types';
import type { MidiStatus } from '../../midi/types';
import type { LiveState, Position, Strikes } from '../../take/types';
import { settingsOf, type Settings } from '../../settings';
import type { HeightLines } from '../../sessions/paper/strip/axis';
import './bar-view';
import { fire } from '../shared/events';
import { figureUnder } from './figure-words';
import { nextStep, type NextStep } from './next-step';
import { FramePaced } from '../shared/frame-paced';
import { look } from '../shared/look';
import { PageKeys } from '../shared/page-keys';
import { midiWords, strikeWords } from '../shared/midi-words';
import { capital, fixed } from '../shared/numbers';
import { playStyles } from './play-styles';
import { positionWords, shownAt, timeWords, type Shown } from '../shared/position-words';
import type { InputChoice, LiveFigure, OutputChoice } from '../shared/types';

/**
 * Play: the bar view, one number with its aim, and under them what is needed to begin: input, click, strikes, start.
 * Give it states as they come; it draws at most once a frame. Space starts and stops.
 * @slot options - what the bar view shows
 * @fires action connect asks for MIDI
 * @fires action input {input} input chosen
 * @fires action output {output} where the click sounds
 * @fires action clear strikes the two strikes are to be taken again
 * @slot next how the next take is played
 * @slot last the take before
 * @fires action teacher plays {on} the next take is the teacher's, or not after all
 * @fires action start @fires action stop
 */
@customElement('evenhand-play-screen')
export class PlayScreen extends FramePaced {
  /** Bars and slots of one cycle. */
  @property({ attribute: false }) bars: readonly GridBar[] = [];
  @property({ attribute: false }) slots: readonly Slot[] = [];
  /** What the feet do, cycle by cycle until it comes round again. */
  @property({ attribute: false }) feet: readonly (readonly FootSlot[])[] = [];
  /** What is wrong with a phrase that was typed: until it is mended nothing is played in its place. */
  @property() phraseError = '';
  @property({ type: Number }) cycles = 0;
  @property({ attribute: false }) live: LiveState | null = null;
  @property({ attribute: false }) position: Position | null = null;
  @property({ attribute: false }) settings: Settings = settingsOf('working');
  @property({ attribute: false }) heights: HeightLines | null = null;
  @property({ attribute: false }) figure: LiveFigure | null = null;
  @property({ attribute: false }) midi: MidiStatus = { kind: 'off' };
  @property({ attribute: false }) inputs: readonly InputChoice[] = [];
  /** Id of the chosen input, empty where none is. */
  @property({ attribute: 'chosen-input' }) chosenInput = '';
  @property({ attribute: false }) outputs: readonly OutputChoice[] = [];
  @property({ attribute: 'chosen-output' }) chosenOutput = '';
  /** The two strikes; null where none are needed, as with a model player's take. */
  @property({ attribute: false }) strikes: Strikes | null = null;
  /** What to know of the rig before a take. */
  @property({ attribute: 'rig-hint' }) rigHint = '';
  /** That the click won't be heard; empty where it will. */
  @property({ attribute: 'sound-hint' }) soundHint = '';
  @property({ type: Boolean }) running = false;
  /** Whether a teacher may play; and whether this take, or else the next, is theirs. */
  @property({ type: Boolean, attribute: 'teacher-may' }) teacherMay = false;
  @property({ type: Boolean, attribute: 'teacher-plays' }) teacherPlays = false;
  /** True in a bar without a click: then nothing on the screen counts for the player either. */
  @property({ type: Boolean }) bare = false;
  /** True where the click is seen and not heard: the beat that is on is shown large. */
  @property({ type: Boolean, attribute: 'seen-click' }) seenClick = false;
  @property({ type: Boolean, attribute: 'show-timing' }) showTiming = true;
  /** True without a click: the time the player keeps is shown in its place. */
  @property({ type: Boolean }) free = false;
  /** The two hands mirrored about a line. */
  @property({ type: Boolean }) mirrored = false;

  static override styles = [look, playStyles];

  protected readonly keys = new PageKeys(this, (event) => {
    if (event.key === 'Escape' && this.running) fire(this, { kind: 'stop' });
    if (event.key !== ' ' || event.repeat || isControl(event.composedPath()[0])) return;
    event.preventDefault();
    this.#startOrStop();
  });

  override render() {
    const shown = shownAt(this.position, newestCycle(this.live));
    return html`
      ${this.#top(shown)}
      <evenhand-bar-view
        .bars=${this.bars}
        .slots=${this.slots}
        .feet=${this.feet}
        .live=${this.live}
        .settings=${this.settings}
        .heights=${this.heights}
        .barInCycle=${shown.barInCycle}
        .cycle=${shown.cycle}
        .beat=${this.bare ? null : shown.beat}
        .showTiming=${this.showTiming}
        .mirrored=${this.mirrored}
      ></evenhand-bar-view>
      ${this.#bottom()}
    `;
  }

  #top(shown: Shown) {
    const bar = this.bars[shown.barInCycle];
    const counting =
      this.position?.phase === 'count-in' || this.position?.phase === 'say' ? this.position : null;
    const beat = counting?.beat ?? (this.seenClick && !this.bare ? shown.beat : null);
    const figure = this.figure;
    const value = figure === null ? '' : figure.value === null ? '–' : fixed(figure.value, 1);
    const number = beat === null ? value : String(beat + 1);
    const step = this.running ? undefined : this.#step();
    return html`<div class="top">
      <div class="where">
        <h1>${bar === undefined ? 'No phrase yet' : capital(bar.variation)}</h1>
        <p class="quiet">${bar === undefined ? 'Choose one first.' : this.#where(shown)}</p>
        ${this.free ? html`<p class="tempo">${timeWords(this.live?.freeTime ?? null)}</p>` : nothing}
      </div>
      ${this.#go(step)}
      ${
        step !== undefined
          ? stepFigure(step, () => fire(this, { kind: 'connect' }))
          : html`<div class="figure">
              <p class="number">${number}</p>
              <p class="quiet">
                ${
                  counting !== null
                    ? counting.phase === 'say'
                      ? 'say it aloud, then play'
                      : `count-in of ${counting.beats}`
                    : beat !== null
                      ? 'the click, seen'
                      : figure === null
                        ? nothing
                        : figureUnder(figure)
                }
              </p>
            </div>`
      }
    </div>`;
  }

  /** Beside what is looked at, so that it is in the window however high the bar view is. */
  #go(step: NextStep | undefined) {
    return html`<div class="go">
      <button
        class="strong"
        aria-keyshortcuts="Space"
        ?disabled=${step !== undefined}
        @click=${this.#startOrStop}
      >
        ${this.running ? 'Stop' : 'Start'}
      </button>
      <p class="small quiet" role="status">
        ${this.running ? 'Space or Escape stops.' : startWords(step, this.free)}
      </p>
    </div>`;
  }

  #where(shown: Shown): string {
    if (this.position?.phase === 'first stroke') return 'Your first stroke is the downbeat.';
    return positionWords(shown, this.bars, this.cycles);
  }

  #bottom() {
    return html`<section class="bottom" aria-label="Set-up">
      <p class="unheard out" role="status">${this.soundHint}</p>
      ${this.#teacher()}
      ${
        this.running
          ? nothing
          : html`<slot class="last" name="last"></slot> ${this.#choices()}
              <slot class="next-take" name="next"></slot> ${this.#midi()} <slot name="options"></slot>`
      }
    </section>`;
  }

  /** One press makes the next take the teacher's; while it is on, it is said in the same place. */
  #teacher() {
    if (!this.teacherMay && !this.teacherPlays) return nothing;
    const says = this.running
      ? 'The teacher’s take.'
      : 'The next take is the teacher’s: it counts in nobody’s history.';
    return html`<p class="teacher" role="status">
      ${this.teacherPlays ? html`<strong>${says}</strong>` : nothing}
      ${
        this.running
          ? nothing
          : html`<button
              class="plain"
              title="For the teacher: the next take is yours, and counts in nobody’s history"
              @click=${() => fire(this, { kind: 'teacher plays', on: !this.teacherPlays })}
            >
              ${this.teacherPlays ? 'Not after all' : 'I play this one'}
            </button>`
      }
    </p>`;
  }

  #choices() {
    const ports = this.inputs.filter((input) => input.kind === 'midi');
    const takes = this.inputs.filter((input) => input.kind === 'take');
    const option = ({ id, name }: { readonly id: string; readonly name: string }) =>
      html`<option value=${id} ?selected=${id === this.chosenInput}>${name}</option>`;
    return html`<div class="choices">
      <label>
        <span>Input</span>
        <select
          .value=${this.chosenInput}
          @change=${(event: Event) => chosen(event, (input) => fire(this, { kind: 'input', input }))}
        >
          <option value="" ?selected=${this.chosenInput === ''}>Choose an input</option>
          ${ports.length === 0 ? nothing : html`<optgroup label="MIDI">${ports.map(option)}</optgroup>`}
          ${
            takes.length === 0
              ? nothing
              : html`<optgroup label="Model player (bundled takes)">${takes.map(option)}</optgroup>`
          }
        </select>
      </label>
      <label>
        <span>Click</span>
        <select
          .value=${this.chosenOutput}
          @change=${(event: Event) => chosen(event, (output) => fire(this, { kind: 'output', output }))}
        >
          ${this.outputs.map(
            ({ id, name }) =>
              html`<option value=${id} ?selected=${id === this.chosenOutput}>${name}</option>`,
          )}
        </select>
      </label>
      ${this.#strikes()}
    </div>`;
  }

  #strikes() {
    if (this.strikes === null || this.strikes.first === null) return nothing;
    const { says, done } = strikeWords(this.strikes);
    return html`<div class="strikes">
      <span class="label">Hands</span>
      <p>
        ${done ? says : nothing}
        <button class="plain" @click=${() => fire(this, { kind: 'clear strikes' })}>Strike anew</button>
      </p>
    </div>`;
  }

  #midi() {
    const { says, todo, ask } = midiWords(this.midi);
    // Where it is the next step it stands where the number will.
    if (this.#step()?.about === 'midi') return nothing;
    return html`<div class="midi">
      <p role="status"><strong>${says}</strong> ${todo} ${this.rigHint}</p>
      ${ask === null ? nothing : html`<button @click=${() => fire(this, { kind: 'connect' })}>${ask}</button>`}
    </div>`;
  }

  /** What to do before a take can begin; undefined where it can. */
  #step(): NextStep | undefined {
    const { phraseError, midi, inputs, chosenInput, strikes } = this;
    return nextStep({ hasPhrase: this.bars.length > 0, phraseError, midi, inputs, chosenInput, strikes });
  }

  #startOrStop(): void {
    if (this.running) fire(this, { kind: 'stop' });
    else if (this.#step() === undefined) fire(this, { kind: 'start' });
  }
}

/** The next step, where the number will stand. */
const stepFigure = ({ says, todo, ask }: NextStep, connect: () => void): TemplateResult =>
  html`<div class="figure step" role="status">
    <p class="says">${says}</p>
    ${ask === null ? nothing : html`<button class="strong" @click=${connect}>${ask}</button>`}
    <p class="quiet">${todo}</p>
  </div>`;

function startWords(step: NextStep | undefined, free: boolean): string {
  if (step !== undefined) return 'Starts when that is done.';
  return free ? 'Space starts. No click.' : 'Space starts, after a count-in.';
}

/** Keys pressed in a control are the control's own. */
function isControl(target: EventTarget | undefined): boolean {
  return target instanceof Element && target.closest('input, select, textarea, button, summary, a') !== null;
}

function newestCycle(live: LiveState | null): number {
  const cycles = live?.passes.flatMap((passes) => passes.slice(-1).map((pass) => pass.cycle)) ?? [];
  return Math.max(0, ...cycles);
}

/** What a list was set to. */
function chosen({ target }: Event, put: (value: string) => void): void {
  if (target instanceof HTMLSelectElement) put(target.value);
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-play-screen': PlayScreen;
  }
}
