import type { Take } from '../../sessions/types';
import type { BundledTake } from '../takes';
import type { Reducers } from './reducers';
import { ownInput, withTakeOf } from './chosen';
import { currentPlayer } from '../selectors/library';
import { reviewAgain } from './review';

/** Takes that were played. */
export const takesReducers = {
  reviewed: (state, { take, report, stay }) => ({
    ...state,
    reviewed: { take, report },
    reviewing: reviewAgain(state.reviewing, { take, report }),
    note: state.note?.takeId === take.id ? state.note : null,
    screen: stay === true ? state.screen : 'review',
    opened: state.opened + (stay === true ? 0 : 1),
    problem: '',
  }),
  'take at hand': (state, { take }) => ({
    ...withTakeOf(ownInput(state), take),
    // It is they who play it now.
    limits: currentPlayer(state.library)?.limits ?? take.limits,
    screen: 'play',
  }),
  'takes listed': (state, { kept }) => ({ ...state, kept }),
  // Another list begins at its first page.
  'list takes': (state, { change }) => ({ ...state, takesView: { ...state.takesView, page: 0, ...change } }),
  'bundled take': (state, { name, take }) => ({ ...state, bundled: withTake(state.bundled, name, take) }),
} satisfies Reducers;

function withTake(bundled: readonly BundledTake[], name: string, take: Take): readonly BundledTake[] {
  return bundled.map((one) => (one.name === name ? { ...one, take } : one));
}
