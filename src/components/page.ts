import { html, type TemplateResult } from 'lit';
import { paceOf } from '../state/pace';
import { isFree, NO_CLICK, SEEN_CLICK, type Sitting } from '../state/reducer';
import type { Take } from '../sessions/types';
import './shared/app';
import { historyPage } from './history/history-page';
import { libraryPage } from './library/library-page';
import { phrasePage } from './phrase/phrase-page';
import { playPage } from './play/play-page';
import { reviewPage } from './review/review-page';
import { todayPage } from './today/today-page';
import { rigPage } from './rig/rig-page';
import { tempoWords } from './phrase/phrase-words';

/** The whole page as a picture of the sitting. */
export function page(sitting: Sitting): TemplateResult {
  return html`<evenhand-app
    .screen=${sitting.screen}
    .line=${lineOf(sitting)}
    .message=${sitting.message}
    .problem=${sitting.problem}
    .players=${sitting.keeping.players}
    .playerId=${sitting.keeping.playerId}
    .files=${sitting.keeping.files}
    .updateWaits=${sitting.keeping.update === 'waiting' && sitting.running === null}
    >${screenOf(sitting)}</evenhand-app
  >`;
}

function screenOf(sitting: Sitting): TemplateResult {
  switch (sitting.screen) {
    case 'today':
      return todayPage(sitting);
    case 'rig':
      return rigPage(sitting);
    case 'phrase':
      return phrasePage(sitting);
    case 'play':
      return playPage(sitting);
    case 'review':
      return reviewPage(sitting);
    case 'history':
      return historyPage(sitting);
    case 'library':
      return libraryPage(sitting);
  }
}

/** Phrase · tempo · click, for the top line; in Review phrase, tempo and cycles of the open take. */
function lineOf(sitting: Sitting): string {
  if (sitting.screen === 'review' && sitting.reviewed !== null) return takeLine(sitting.reviewed.take);
  const { phrase, bpm, pace, output } = sitting;
  // Without a click the tempo is the player's.
  if (isFree(sitting)) return [phrase.title, clickWords(NO_CLICK)].join(' · ');
  return [phrase.title, tempoWords(bpm, pace), clickWords(output)].join(' · ');
}

function clickWords(output: string): string {
  if (output === '') return 'click on';
  if (output === NO_CLICK) return 'free time, no click';
  return output === SEEN_CLICK ? 'click seen' : 'click on the kit';
}

function takeLine({ phrase, tempo, click }: Take): string {
  const { bpm, pace } = paceOf(tempo);
  const without = click === 'none' ? ['without a click'] : [];
  return [phrase.title, tempoWords(bpm, pace), ...without, `${phrase.cycles} cycles`].join(' · ');
}
