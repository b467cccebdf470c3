import { bundledPhrases } from '../../exercises/phrase';
import { chosen, ofHand } from '../phrase-choice';
import { openWorkOf, isPhraseTheirs, withOpenWork } from '../open-work';
import { firstHistory, firstState, type State } from '../state';
import { firstTakesView } from '../takes';
import { firstReviewing } from '../reviewing';
import type { Library } from '../library';
import type { NoteDraft } from '../note-draft';
import type { Begun } from '../../sessions/draft';
import type { Player } from '../../sessions/player';
import { TEACHER } from '../../sessions/teacher';
import type { Reducers } from './reducers';
import { currentPlayer, leadOf } from '../selectors/library';
import { ownInput, withChoice } from './chosen';

/** The library of this browser, as far as the page shows it. */
export const libraryReducers = {
  library: (state, { change }) => withLibrary(state, change),
  'names in files': (state, { as }) => withLibrary(state, { inFileNames: as }),
  'archive keeps': (state, { months }) => withLibrary(state, { archiveMonths: months }),
  'dismiss files': (state) => withLibrary(state, { files: [] }),
  filed: (state, { ids, playerId }) => givenAway(withFiled(state, ids, playerId), ids, playerId),
} satisfies Reducers;

/** The library changed, and with it perhaps whose turn it is. */
function withLibrary(state: State, change: Partial<Library>): State {
  const before = state.library.playerId;
  const isTurn = change.playerId !== undefined && change.playerId !== before;
  const words = isTurn ? { listWords: listWordsIn(change.begun ?? []) } : {};
  const library = { ...state.library, ...change, ...words };
  if (library.playerId === before) return { ...state, library };
  // What was begun before the library was open is theirs: nobody else had the turn.
  if (before === '') return handed(limited({ ...state, library, history: firstHistory }));
  return turned(state, library);
}

function listWordsIn(begun: readonly Begun[]): string {
  return begun.flatMap(({ draft }) => (draft.of === 'list' ? [draft.words] : [])).at(0) ?? '';
}

/** With another player's turn come their limits and what they have open; what the one before has open is put by. */
function turned(state: State, library: Library): State {
  const isHere = (id: string): boolean => library.players.some((one) => one.id === id);
  const all = [...state.openWork, [state.library.playerId, openWorkOf(state)] as const];
  const openWork = new Map(all.filter(([id]) => isHere(id)));
  const theirs = openWork.get(library.playerId);
  const next = { ...state, library, openWork, teacherPlays: false, takesView: firstTakesView };
  return theirs === undefined ? handed(limited(cleared(state, next))) : withOpenWork(next, theirs);
}

/** Nothing is open. A phrase by its name is everybody's; one of a take or a sheet stays with whose that was. */
function cleared(before: State, next: State): State {
  const empty: State = {
    ...next,
    last: null,
    climb: null,
    rest: '',
    reviewed: null,
    reviewing: { ...firstReviewing, guesses: next.reviewing.guesses },
    note: null,
    history: firstHistory,
    library: { ...next.library, draft: null, sheetId: '', warmedUp: false },
    today: { ...next.today, clock: null },
  };
  if (!isPhraseTheirs(before)) return empty;
  const [{ phrase, name }] = bundledPhrases;
  const { bpm, pace } = firstState;
  return { ...withChoice(ownInput(empty), chosen(phrase, name)), bpm, pace };
}

/** What the app brings along is led by their own hand. */
function handed(state: State): State {
  const led = ofHand(state, leadOf(state.library));
  return led === state ? state : { ...state, ...withChoice(state, led) };
}

const limited = (state: State): State => ({
  ...state,
  limits: currentPlayer(state.library)?.limits ?? state.limits,
});

/** What the list of the last files says of whose they are. */
function withFiled(state: State, ids: readonly string[], playerId: string): State {
  const files = state.library.files.map((file) =>
    file.filed !== undefined && ids.includes(file.filed.id)
      ? { ...file, filed: { ...file.filed, playerId, by: 'said' as const } }
      : file,
  );
  return { ...state, library: { ...state.library, files } };
}

/** The words stay, the name is theirs. */
function noteFor(note: NoteDraft, owner: Player | undefined): NoteDraft {
  if (owner === undefined) return note;
  return { ...note, playerId: owner.id, text: { ...note.text, student: owner.name } };
}

/** A take that is open stands open with whose it is now, with the note on it; the teacher's is looked at by all. */
function givenAway(state: State, ids: readonly string[], playerId: string): State {
  const { reviewed, note, library } = state;
  const isTheirs = playerId === library.playerId || playerId === TEACHER;
  if (reviewed === null || isTheirs || !ids.includes(reviewed.take.id)) return state;
  const owner = library.players.find(({ id }) => id === playerId);
  const limits = owner?.limits ?? state.limits;
  const theirs = state.openWork.get(playerId) ?? openWorkOf({ ...cleared(state, state), limits });
  const page = { ...theirs.page, reviewed, reviewing: firstReviewing, note: note && noteFor(note, owner) };
  return {
    ...state,
    reviewed: null,
    reviewing: { ...firstReviewing, guesses: state.reviewing.guesses },
    note: null,
    openWork: new Map([...state.openWork, [playerId, { ...theirs, page }]]),
  };
}
