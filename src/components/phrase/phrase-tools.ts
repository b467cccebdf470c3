import { css, html, LitElement } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ActionNamed } from '../../state/actions';
import { fire, fireParent } from '../shared/events';
import { look } from '../shared/look';

/** How the bars of a phrase are shown. */
export type PhraseView = 'sticking' | 'notation';

type Hear = ActionNamed['hear phrase'];

const hands: readonly (readonly [Hear['hand'], string])[] = [
  ['both', 'both hands'],
  ['R', 'right alone'],
  ['L', 'left alone'],
];
const speeds: readonly (readonly [Hear['speed'], string])[] = [
  ['full', 'full speed'],
  ['half', 'half speed'],
];
const views: readonly PhraseView[] = ['sticking', 'notation'];

/**
 * What can be done with the bars of a phrase: see them as sticking or in notation, hear them, print them, take them to other programs.
 * @fires view {view} @fires action hear phrase {hand, speed} @fires action stop sound @fires action phrase sheet @fires action export phrase {as}
 */
@customElement('evenhand-phrase-tools')
export class PhraseTools extends LitElement {
  @property() view: PhraseView = 'sticking';
  /** True while the phrase sounds. */
  @property({ type: Boolean }) hearing = false;
  @property({ type: Boolean }) disabled = false;

  @state() private hand: Hear['hand'] = 'both';
  @state() private speed: Hear['speed'] = 'full';

  static override styles = [
    look,
    css`
      :host {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 10px 24px;
        padding-bottom: 18px;
      }
      .group {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 8px;
        margin: 0;
        padding: 0;
        border: 0;
      }
      .view label {
        display: flex;
        align-items: center;
        gap: 8px;
        min-height: 44px;
        padding-right: 8px;
        cursor: pointer;
      }
      .view label:has(:checked) {
        font-weight: 700;
      }
      .view input {
        width: 18px;
        height: 18px;
        min-height: 0;
        margin: 0;
        accent-color: var(--ink);
      }
      .hear button {
        min-width: 104px;
      }
    `,
  ];

  override render() {
    const { hearing, disabled } = this;
    return html`
      <fieldset class="group view" aria-label="Show the bars as">
        ${views.map(
          (view) =>
            html`<label
              ><input
                type="radio"
                name="view"
                .checked=${view === this.view}
                @change=${() => fireParent(this, 'view', { view })}
              />${view}</label
            >`,
        )}
      </fieldset>
      <div class="group hear">
        <button ?disabled=${disabled} @click=${this.#hear}>${hearing ? 'Stop' : 'Hear it'}</button>
        ${choice('Hands to hear', hands, this.hand, (hand) => (this.hand = hand))}
        ${choice('Speed to hear', speeds, this.speed, (speed) => (this.speed = speed))}
      </div>
      <button ?disabled=${disabled} @click=${() => fire(this, { kind: 'phrase sheet', open: true })}>
        Print a sheet
      </button>
      <div class="group">
        <button ?disabled=${disabled} @click=${() => fire(this, { kind: 'export phrase', as: 'midi' })}>
          MIDI file
        </button>
        <button ?disabled=${disabled} @click=${() => fire(this, { kind: 'export phrase', as: 'musicxml' })}>
          MusicXML
        </button>
      </div>
    `;
  }

  #hear(): void {
    if (this.hearing) fire(this, { kind: 'stop sound' });
    else fire(this, { kind: 'hear phrase', hand: this.hand, speed: this.speed });
  }
}

function choice<Value extends string>(
  label: string,
  values: readonly (readonly [Value, string])[],
  chosen: Value,
  choose: (value: Value) => void,
) {
  const change = (event: Event): void => {
    const { target } = event;
    const found = values.find(([value]) => target instanceof HTMLSelectElement && value === target.value);
    if (found !== undefined) choose(found[0]);
  };
  return html`<select aria-label=${label} @change=${change}>
    ${values.map(([value, words]) => html`<option value=${value} ?selected=${value === chosen}>${words}</option>`)}
  </select>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-phrase-tools': PhraseTools;
  }
}
