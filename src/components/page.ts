import { html, type TemplateResult } from 'lit';
import { paceOf } from '../practice/pace';
import { isFree, NO_CLICK, SEEN_CLICK, type Sitting } from '../practice/sitting';
import type { Take } from '../sessions/types';
import './app';
import { historyPage } from './pages/history';
import { libraryPage } from './pages/library';
import { phrasePage } from './pages/phrase';
import { playPage } from './pages/play';
import { reviewPage } from './pages/review';
import { todayPage } from './pages/today';
import { rigPage } from './pages/rig';
import { tempoWords } from './phrase-words';

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
