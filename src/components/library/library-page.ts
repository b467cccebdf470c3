import { html, type TemplateResult } from 'lit';
import { bundledPhrases } from '../../exercises/phrase';
import type { Sitting } from '../../state/reducer';
import type { PhraseFile } from '../../sessions/phrase-file';
import './library-screen';
import { remembered } from '../../state/remembered';

/** The Library screen, or the week sheet that is being written. */
export function libraryPage({ keeping, saved }: Sitting): TemplateResult {
  if (keeping.draft !== null) {
    void import('../papers/week-sheet-screen');
    return html`<evenhand-week-sheet-screen
      .sheet=${keeping.draft}
      .phrases=${phrasesOf(saved)}
    ></evenhand-week-sheet-screen>`;
  }
  return html`<evenhand-library-screen
    .players=${keeping.players}
    .playerId=${keeping.playerId}
    .takes=${keeping.takes.length}
    .sheets=${keeping.sheets}
    .sheetId=${keeping.sheetId}
    .room=${keeping.room}
    .otherTab=${keeping.otherTab}
    .namesInFiles=${keeping.namesInFiles}
  ></evenhand-library-screen>`;
}

const phrasesOf = remembered((saved: readonly PhraseFile[]) => [
  ...saved.map(({ name, phrase }) => ({ name, group: 'saved here', phrase })),
  ...bundledPhrases.map(({ name, group, phrase }) => ({ name, group, phrase })),
]);
