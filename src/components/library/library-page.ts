import { html, type TemplateResult } from 'lit';
import { bundledPhrases } from '../../exercises/phrase';
import { playerLabels } from '../../sessions/player-code';
import type { Library } from '../../state/library';
import { currentPlayer } from '../../state/selectors/library';
import type { State } from '../../state/state';
import { remembered } from '../../state/remembered';
import type { PhraseFile } from '../../sessions/phrase-file';
import './library-screen';

/** The Library screen, or the week sheet that is being written. */
export function libraryPage({ library, saved }: State): TemplateResult {
  if (library.draft !== null) {
    void import('../papers/week-sheet-screen');
    return html`<evenhand-week-sheet-screen
      .sheet=${library.draft}
      .at=${library.draftAt}
      .phrases=${phrasesOf(saved)}
    ></evenhand-week-sheet-screen>`;
  }
  return html`<evenhand-library-screen
    .players=${library.players}
    .playerId=${library.playerId}
    .takes=${library.takes.length}
    .sheets=${library.sheets}
    .sheetId=${library.sheetId}
    .begun=${library.begun}
    .given=${library.given}
    .whose=${whoseOf(library)}
    .unreadable=${library.unreadable}
    .storage=${library.storage}
    .otherTab=${library.otherTab}
    .archiveMonths=${library.archiveMonths}
    .inFileNames=${library.inFileNames}
  ></evenhand-library-screen>`;
}

/** With one player nobody has to be named. */
function whoseOf(library: Library): string {
  const player = library.players.length < 2 ? undefined : currentPlayer(library);
  return player === undefined ? '' : (playerLabels(library.players).get(player.id) ?? '');
}

const phrasesOf = remembered((saved: readonly PhraseFile[]) => [
  ...saved.map(({ name, phrase }) => ({ name, group: 'saved here', phrase })),
  ...bundledPhrases.map(({ name, group, phrase }) => ({ name, group, phrase })),
]);
