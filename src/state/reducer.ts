import { InputError } from '../errors';
import { bundledPhrases } from '../exercises/phrase';
import type { Bpm } from '../units';
import { steadyPace } from './pace';
import { chosen } from './phrase-choice';
import { firstHistory, historyHeard } from './history';
import { nothingKept, withKeeping } from './library';
import { firstRigging } from './rig/state';
import { inputHeard } from './input';
import { phraseHeard } from './phrase';
import { reviewPartHeard } from './review';
import { plainView, roomHeard } from './live-view';
import { firstPlan, planHeard, tappedAt } from './plan';
import { runHeard } from './run';
import { firstReviewing } from './reviewing';
import type { Said, Sitting } from './state';
import { takesHeard } from './takes';
import { draftHeard, type DraftSaid } from './sheet-draft';
import { firstToday, todayHeard } from './today';
import { noStrikes } from './struck-hands';

export { kitOutputOf, NO_CLICK, SEEN_CLICK } from './plan-state';
export type { BundledTake, LastTake, Said, Screen, Sitting } from './state';
export { bundledNameOf, inputOfTake, takeAsInput } from './bundled-input';
export { portsCounted, rigInUse, strikesAsked } from './input';
export { figureInUse, figureTold, keptView } from './live-view';
export { isFree, planInUse, planOf } from './run';
export { screenNamed } from './state';

const PRACTICE_BPM: Bpm = 84;

export const firstSitting: Sitting = {
  ...chosen(bundledPhrases[0].phrase, bundledPhrases[0].name),
  screen: 'today',
  saved: [],
  bpm: PRACTICE_BPM,
  pace: steadyPace,
  limits: 'working',
  midi: { kind: 'off' },
  input: '',
  output: '',
  strikes: noStrikes,
  rig: null,
  rigging: firstRigging,
  running: null,
  live: null,
  liveAtBeat: null,
  figureNow: null,
  figureChoice: 'report',
  view: plainView,
  position: null,
  reviewed: null,
  reviewing: firstReviewing,
  noting: null,
  kept: [],
  keeping: nothingKept,
  today: firstToday,
  history: firstHistory,
  bundled: [],
  hearing: false,
  sheetOpen: false,
  ...firstPlan,
  message: '',
  problem: '',
};

/** The sitting after something was said. Bad input becomes the problem line and changes nothing else. */
export function next(sitting: Sitting, said: Said): Sitting {
  try {
    return heard(sitting, said);
  } catch (error) {
    if (error instanceof InputError) return { ...sitting, problem: error.message };
    throw error;
  }
}

/** Each area has its own step. */
function heard(sitting: Sitting, said: Said): Sitting {
  switch (said.kind) {
    case 'go':
      return {
        ...sitting,
        screen: said.screen,
        sheetOpen: false,
        noting: null,
        keeping: { ...sitting.keeping, draft: null },
        history: { ...sitting.history, term: null },
        problem: '',
        message: '',
      };
    case 'message':
      return { ...sitting, message: said.message };
    case 'problem':
      return { ...sitting, problem: said.problem };
    case 'phrase':
    case 'typed':
    case 'build':
    case 'bars':
    case 'saved':
    case 'open phrase':
    case 'tempo':
    case 'pace':
    case 'manner':
    case 'cycles':
    case 'limits':
    case 'hearing':
    case 'sheet':
      return phraseHeard(sitting, said);
    case 'struck':
      return sitting.tapOnPad && sitting.running === null && said.hit.port === sitting.input
        ? tappedAt(sitting, said.hit.atMs)
        : inputHeard(sitting, said);
    case 'midi':
    case 'input':
    case 'output':
    case 'strike anew':
    case 'rig':
    case 'rigging':
      return inputHeard(sitting, said);
    case 'started':
    case 'live':
    case 'position':
    case 'ended':
      return runHeard(sitting, said);
    case 'figure':
    case 'view':
      return roomHeard(sitting, said);
    case 'reviewed':
    case 'again':
    case 'kept':
    case 'bundled':
      return takesHeard(sitting, said);
    case 'review':
    case 'note':
    case 'next step':
      return reviewPartHeard(sitting, said);
    case 'keeping':
      return withKeeping(sitting, said.change);
    case 'week draft':
      return draftSaid(sitting, said.said);
    case 'today':
      return todayHeard(sitting, said.said);
    case 'history':
      return { ...sitting, history: historyHeard(sitting.history, said.said) };
    case 'plan':
    case 'click':
    case 'kept plan':
    case 'tap':
    case 'tap on pad':
    case 'climb':
    case 'last':
    case 'rest':
      return planHeard(sitting, said);
  }
}

/** A week sheet is written on the Library screen. */
function draftSaid(sitting: Sitting, said: DraftSaid): Sitting {
  const { keeping } = sitting;
  const open = said.kind === 'open' ? ({ screen: 'library', noting: null, message: '' } as const) : {};
  return { ...sitting, ...open, keeping: { ...keeping, draft: draftHeard(keeping.draft, said) } };
}
