import { html, type TemplateResult } from 'lit';
import type { Sitting } from '../../state/reducer';

/** The History screen, or the term report that is being written; their elements are fetched when first shown. */
export function historyPage({ keeping, history, limits }: Sitting): TemplateResult {
  if (history.term !== null) {
    void import('../papers/term-report-screen');
    return html`<evenhand-term-report-screen
      .term=${history.term}
      .takes=${keeping.takes}
    ></evenhand-term-report-screen>`;
  }
  void import('./history-screen');
  return html`<evenhand-history-screen
    .takes=${keeping.takes}
    .sheets=${keeping.sheets}
    .view=${history}
    .limits=${limits}
  ></evenhand-history-screen>`;
}
