import type { TermDraft } from '../insight/history/view';
import type { DraftOf } from '../sessions/draft';
import { fileName } from '../sessions/file-name';
import type { Effects } from '../state/dispatcher';
import { currentPlayer, whoInFileName } from '../state/selectors/library';
import type { Context } from './context';
import { saveFile } from './save-file';

const eastMinutes = (): number => -new Date().getTimezoneOffset();
const termPapers = () => import('../insight/history/term');

/** A term report: what is in it is fetched when it is first asked for. */
export function historyEffects({ state, dispatch, attempt }: Context) {
  async function begin(): Promise<void> {
    const { library } = state();
    const begun = library.begun.map(({ draft }) => draft).find(({ of }) => of === 'term report');
    const { firstTerm } = await termPapers();
    const fresh = firstTerm(library.takes, currentPlayer(library)?.name ?? '', eastMinutes());
    const term = begun?.of === 'term report' ? termFrom(begun) : fresh;
    // Another may have the turn by now.
    dispatch({ kind: 'term begun', term, playerId: library.playerId });
  }

  async function give(): Promise<void> {
    const { history, library } = state();
    const { term } = history;
    if (term === null) return;
    const [{ termOf }, { termReportHtml }] = await Promise.all([
      termPapers(),
      import('../sessions/paper/term-report'),
    ]);
    const page = termReportHtml(term, termOf(library.takes, term, eastMinutes()));
    const who = whoInFileName(library, library.playerId, term.student);
    const name = fileName({ kind: 'term', who, day: term.toDay, ending: 'html' });
    saveFile(name, new Blob([page], { type: 'text/html' }));
  }

  const on = {
    'write term': () => attempt(begin),
    'export term': () => attempt(give),
  } satisfies Effects['on'];
  return { on };
}

const termFrom = ({ student, fromDay, toDay, words }: DraftOf<'term report'>): TermDraft => ({
  student,
  fromDay,
  toDay,
  words,
});
