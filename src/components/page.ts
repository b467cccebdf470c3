import { html, type TemplateResult } from 'lit';
import type { State } from '../state/state';
import { NO_CLICK, SEEN_CLICK } from '../state/outputs';
import { limitsWords } from '../state/selectors/library';
import { isFree } from '../state/selectors/run';
import { paceOf } from '../state/pace';
import { withoutFile, type UnkeptTake } from '../state/unkept';
import { calledPlayers, everybodyCalled } from '../sessions/player-code';
import { remembered } from '../state/remembered';
import type { Take } from '../sessions/types';
import './shared/app';
import { historyPage } from './history/history-page';
import { libraryPage } from './library/library-page';
import { phrasePage } from './phrase/phrase-page';
import { playPage } from './play/play-page';
import { reviewPage } from './review/review-page';
import { takesPage } from './takes/takes-page';
import { todayPage } from './today/today-page';
import { rigPage } from './rig/rig-page';
import { tempoWords } from './phrase/phrase-words';

/** The whole page as a picture of the state. */
export function page(state: State): TemplateResult {
  return html`<evenhand-app
    .screen=${state.screen}
    .line=${lineOf(state)}
    .message=${state.message}
    .problem=${state.problem}
    .unkept=${elsewhere(state)}
    .recordingFails=${state.recordingFails}
    .players=${called(state.library.players)}
    .everybody=${everybody(state.library.players)}
    .playerId=${state.library.playerId}
    .playing=${state.running !== null}
    .files=${state.library.files}
    .reading=${state.library.reading}
    .limits=${limitsWords(state)}
    .updateWaits=${state.library.update === 'waiting' && state.running === null}
    >${screenOf(state)}</evenhand-app
  >`;
}

const called = remembered(calledPlayers);
const everybody = remembered(everybodyCalled);

/** Takes that could not be kept, save the one whose sentence Review shows: it is said there. */
function elsewhere({ unkept, screen, reviewed, note }: State): readonly UnkeptTake[] {
  const open = screen === 'review' && note === null ? reviewed?.take.id : undefined;
  return withoutFile(unkept).filter(({ take }) => take.id !== open);
}

function screenOf(state: State): TemplateResult {
  switch (state.screen) {
    case 'today':
      return todayPage(state);
    case 'rig':
      return rigPage(state);
    case 'phrase':
      return phrasePage(state);
    case 'play':
      return playPage(state);
    case 'review':
      return reviewPage(state);
    case 'takes':
      return takesPage(state);
    case 'history':
      return historyPage(state);
    case 'library':
      return libraryPage(state);
  }
}

/** Phrase · tempo · click, for the top line; in Review phrase, tempo and cycles of the open take. */
function lineOf(state: State): string {
  if (state.screen === 'review' && state.reviewed !== null) return takeLine(state.reviewed.take);
  const { phrase, bpm, pace, output } = state;
  // Without a click the tempo is the player's.
  if (isFree(state)) return [phrase.title, clickWords(NO_CLICK)].join(' · ');
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
