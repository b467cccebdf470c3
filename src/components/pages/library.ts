import { html, type TemplateResult } from 'lit';
import type { Sitting } from '../../practice/sitting';
import '../library-screen';

/** The Library screen. */
export function libraryPage({ keeping }: Sitting): TemplateResult {
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
