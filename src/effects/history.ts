import type { Effects } from '../state/dispatcher';
import { currentPlayer } from '../state/selectors/library';
import type { Context } from './context';
import { fileNameOf, saveFile } from './save-file';

const eastMinutes = (): number => -new Date().getTimezoneOffset();
const termPapers = () => import('../insight/history/term');

/** A term report: what is in it is fetched when it is first asked for. */
export function historyEffects({ state, dispatch, attempt }: Context) {
  async function begin(): Promise<void> {
    const { firstTerm } = await termPapers();
    const { library } = state();
    const term = firstTerm(library.takes, currentPlayer(library)?.name ?? '', eastMinutes());
    dispatch({ kind: 'term begun', term });
  }

  async function give(): Promise<void> {
    const [{ termOf }, { termReportHtml }] = await Promise.all([
      termPapers(),
      import('../sessions/paper/term-report'),
    ]);
    const { history, library } = state();
    const { term } = history;
    if (term === null) return;
    const page = termReportHtml(term, termOf(library.takes, term, eastMinutes()));
    const who = library.namesInFiles && term.student !== '' ? `-${term.student}` : '';
    saveFile(`${fileNameOf(`${term.toDay}${who}`)}.term.html`, new Blob([page], { type: 'text/html' }));
  }

  const on = {
    'write term': () => attempt(begin),
    'export term': () => attempt(give),
  } satisfies Effects['on'];
  return { on };
}
