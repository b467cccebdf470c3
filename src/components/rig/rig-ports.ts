import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { MidiStatus, Port } from '../../midi/types';
import type { PortActivity } from '../../state/rig/state';
import type { Rig } from '../../sessions/types';
import { clumpedWords } from '../../midi/learning/clumped';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { rigStyles } from './rig-styles';
import { counted } from '../../text';

/**
 * The inputs by name, each with a tick at every strike.
 * @fires action hear port {port, counts} a port is to count, or not
 */
@customElement('evenhand-rig-ports')
export class RigPorts extends LitElement {
  @property({ attribute: false }) midi: MidiStatus = { kind: 'off' };
  @property({ attribute: false }) activity: ReadonlyMap<string, PortActivity> = new Map();
  /** Names of ports whose strikes are not to count. */
  @property({ attribute: false }) ignoredPorts: readonly string[] = [];
  @property({ attribute: false }) rig: Rig | null = null;

  static override styles = [
    look,
    rigStyles,
    css`
      .level {
        width: 40%;
        min-width: 130px;
      }
      .track {
        position: relative;
        height: 22px;
        /* Half a tick's space at the loud end. */
        margin-right: 3px;
        border-bottom: 1px solid var(--line);
      }
      .tick {
        position: absolute;
        bottom: 0;
        width: 6px;
        height: 20px;
        margin-left: -3px;
        border-radius: 3px;
        background: var(--ink);
        animation: fade 1.6s ease-out forwards;
      }
      @keyframes fade {
        to {
          opacity: var(--faint);
        }
      }
      @media (prefers-reduced-motion: reduce) {
        .tick {
          animation: none;
        }
      }
      label {
        display: inline-flex;
        align-items: center;
        gap: 8px;
        min-height: 44px;
        cursor: pointer;
      }
      input[type='checkbox'] {
        width: 20px;
        min-height: 20px;
        height: 20px;
        accent-color: var(--ink);
      }
    `,
  ];

  override render() {
    const inputs = this.midi.kind === 'on' ? this.midi.inputs : [];
    return html`<section aria-label="Ports">
      <h2>Ports</h2>
      ${
        inputs.length === 0
          ? html`<p class="quiet">None yet.</p>`
          : html`<div class="scroll">
              <table class="stacked">
                <thead>
                  <tr>
                    <th>Input</th>
                    <th>State</th>
                    <th class="level">Last strike</th>
                    <th>Its strikes</th>
                  </tr>
                </thead>
                <tbody>
                  ${inputs.map((port) => this.#row(port))}
                </tbody>
              </table>
            </div>`
      }
      ${(this.rig?.clumpedPorts ?? []).map((port) => html`<p class="words">${clumpedWords(port)}</p>`)}
    </section>`;
  }

  #row({ name, connected }: Port) {
    const last = this.activity.get(name);
    const used = this.rig?.surfaces.filter(({ port }) => port === name).length ?? 0;
    return html`<tr>
      <th scope="row">${name}</th>
      <td>
        ${
          connected
            ? used === 0
              ? 'connected'
              : `connected, ${counted(used, 'surface')}`
            : 'not connected: plug it in, or close the program that holds it'
        }
      </td>
      <td class="level">
        <div class="track" aria-hidden="true">
          ${
            last === undefined
              ? nothing
              : html`<span class="tick" style="left:${(100 * last.velocity) / 127}%"></span>`
          }
        </div>
        <span class="small quiet">${last === undefined ? 'none yet' : `velocity ${last.velocity}`}</span>
      </td>
      <td data-column="its strikes">
        <label
          ><input
            type="checkbox"
            .checked=${!this.ignoredPorts.includes(name)}
            @change=${(event: Event) => {
              if (event.target instanceof HTMLInputElement)
                fire(this, { kind: 'hear port', port: name, counts: event.target.checked });
            }}
          />count</label
        >
      </td>
    </tr>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-rig-ports': RigPorts;
  }
}
