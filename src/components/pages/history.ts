import { html, type TemplateResult } from 'lit';
import type { Sitting } from '../../practice/sitting';
import '../history-screen';

/** The History screen. */
export function historyPage({ keeping, history }: Sitting): TemplateResult {
  return html`<evenhand-history-screen .takes=${keeping.takes} .view=${history}></evenhand-history-screen>`;
}
