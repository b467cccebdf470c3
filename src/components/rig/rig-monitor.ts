import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { monitorLines, noMessages, type MonitorState } from '../../midi/monitor';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { rigStyles } from './rig-styles';

/** The newest messages shown; all that are kept go to the clipboard. */
const SHOWN = 40;

/**
 * Raw messages with their times, and how many of what became no stroke.
 * @fires action copy monitor
 */
@customElement('evenhand-rig-monitor')
export class RigMonitor extends LitElement {
  @property({ attribute: false }) monitor: MonitorState | null = null;

  static override styles = [
    look,
    rigStyles,
    css`
      pre {
        overflow: auto;
        max-height: 300px;
        margin: 10px 0 0;
        font:
          14px/1.5 ui-monospace,
          'DejaVu Sans Mono',
          monospace;
      }
    `,
  ];

  override render() {
    const { noteOns, unheeded, messages } = this.monitor ?? noMessages;
    return html`<section aria-label="Monitor">
      <details>
        <summary>Monitor: what comes in, and what is left out</summary>
        <p class="words">
          ${noteOns} note-ons since this page opened.
          ${
            unheeded.size === 0
              ? 'Nothing was left out.'
              : html`Left out: ${[...unheeded].map(([why, count]) => `${count} ${why}`).join(', ')}.`
          }
        </p>
        <div class="row">
          <button @click=${() => fire(this, { kind: 'copy monitor' })}>Copy for a bug report</button>
        </div>
        ${
          messages.length === 0
            ? html`<p class="quiet">No messages yet.</p>`
            : html`<pre tabindex="0" aria-label="The newest messages">
${monitorLines(this.monitor ?? noMessages)
                  .slice(-SHOWN)
                  .reverse()
                  .join('\n')}</pre>`
        }
      </details>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-rig-monitor': RigMonitor;
  }
}
