import { html, type TemplateResult } from 'lit';
import type { State } from '../../state/state';

/** The History screen, or the term report that is being written; their elements are fetched when first shown. */
export function historyPage({ library, history, limits }: State): TemplateResult {
  if (history.term !== null) {
    void import('../papers/term-report-screen');
    return html`<evenhand-term-report-screen
      .term=${history.term}
      .takes=${library.takes}
    ></evenhand-term-report-screen>`;
  }
  void import('./history-screen');
  return html`<evenhand-history-screen
    .takes=${library.takes}
    .sheets=${library.sheets}
    .view=${history}
    .limits=${limits}
  ></evenhand-history-screen>`;
}
