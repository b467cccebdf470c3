import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { rigStyles } from './rig-styles';
import type { OutputChoice } from '../shared/types';

/**
 * Where the click sounds, a paragraph for each way, and a bar of it to test.
 * @fires action output {output} @fires action test click {output}
 */
@customElement('evenhand-rig-click')
export class RigClick extends LitElement {
  /** Outputs of the kit. */
  @property({ attribute: false }) outputs: readonly OutputChoice[] = [];
  @property() chosen = '';

  static override styles = [
    look,
    rigStyles,
    css`
      .way {
        margin-top: 12px;
      }
      .way p {
        max-width: 46em;
      }
    `,
  ];

  override render() {
    return html`<section aria-label="Click">
      <h2>The click in your ears</h2>
      <div class="way">
        <p>
          <strong>From this computer.</strong> Headphones on the computer, the kit’s own sound beside them or
          off. Wireless headphones are late by a tenth of a second and more: use a wire.
        </p>
        ${this.#row('', 'this computer’s sound')}
      </div>
      <div class="way">
        <p>
          <strong>As a note on the kit.</strong> The click is sent to the module as a side stick (note 37 on
          channel 10), so kit and click are in the same headphones. Where the module sends notes back, turn
          its MIDI through off. ${this.outputs.length === 0 ? 'No output of a kit is there now.' : ''}
        </p>
        ${this.outputs.map(({ id, name }) => this.#row(id, name))}
      </div>
      <div class="way">
        <p>
          <strong>By a cable into the module.</strong> From the computer’s headphone socket to the module’s
          mix or auxiliary input; set the computer’s sound above and turn it up at the module. Kit and click
          are then in one pair of headphones, and the click is as steady as the computer’s.
        </p>
      </div>
    </section>`;
  }

  #row(output: string, name: string) {
    return html`<div class="row">
      <button @click=${() => fire(this, { kind: 'test click', output })}>Test ${name}</button>
      <button
        class=${this.chosen === output ? 'strong' : ''}
        aria-pressed=${this.chosen === output ? 'true' : 'false'}
        @click=${() => fire(this, { kind: 'output', output })}
      >
        ${this.chosen === output ? 'In use' : 'Use it'}
      </button>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-rig-click': RigClick;
  }
}
