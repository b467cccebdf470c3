import { html, type TemplateResult } from 'lit';
import type { HistoryView, TermDraft } from '../../practice/history';
import { historyShown } from '../../practice/history/shown';
import { termTakes } from '../../practice/history/term';
import type { SheetShown } from '../../practice/sheets';
import type { Sitting } from '../../practice/sitting';
import type { TakeSummary } from '../../sessions/take-record';
import { remembered } from './remembered';

/** The History screen; its element is fetched when it is first shown. */
export function historyPage({ keeping, history, limits }: Sitting): TemplateResult {
  if (history.term !== null) return termPage(keeping.takes, history.term);
  void import('../history-screen');
  return html`<evenhand-history-screen
    .shown=${shownOf(keeping.takes, history, keeping.sheets)}
    .limits=${limits}
  ></evenhand-history-screen>`;
}

function termPage(takes: readonly TakeSummary[], term: TermDraft): TemplateResult {
  void import('../term-report-screen');
  return html`<evenhand-term-report-screen
    .term=${term}
    .takes=${termTakes(takes, term, eastMinutes())}
  ></evenhand-term-report-screen>`;
}

const eastMinutes = (): number => -new Date().getTimezoneOffset();

const shownOf = remembered(
  (takes: readonly TakeSummary[], view: HistoryView, sheets: readonly SheetShown[]) => {
    const sheetWords = (sheetId: string): string => {
      const sheet = sheets.find((one) => one.sheet.id === sheetId)?.sheet;
      return sheet === undefined ? 'one that was put away' : `${sheet.phrase.title}, ${sheet.bpm} bpm`;
    };
    return historyShown(takes, view, sheetWords, eastMinutes()) ?? null;
  },
);
