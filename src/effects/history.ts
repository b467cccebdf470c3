import type { On } from '../state/commands';
import { playerInTurn } from '../state/library';
import type { Desk } from './page-effects';
import { fileNameOf, saveFile } from './save-file';

/** What History may ask for: another phrase or rig, and a term report. */
export function historyWires(on: On, { sitting, say, attempt }: Desk): void {
  const termPapers = () => import('../insight/history/term');
  const eastMinutes = (): number => -new Date().getTimezoneOffset();
  on('history', (said) => say({ kind: 'history', said }));
  on('term-report', () =>
    attempt(async () => {
      const { firstTerm } = await termPapers();
      const { keeping } = sitting();
      const term = firstTerm(keeping.takes, playerInTurn(keeping)?.name ?? '', eastMinutes());
      say({ kind: 'history', said: { kind: 'term', term } });
    }),
  );
  on('term-export', () =>
    attempt(async () => {
      const [{ termTakes }, { termReportHtml }] = await Promise.all([
        termPapers(),
        import('../sessions/paper/term-report'),
      ]);
      const { history, keeping } = sitting();
      const { term } = history;
      if (term === null) return;
      const page = termReportHtml(term, termTakes(keeping.takes, term, eastMinutes()));
      const who = keeping.namesInFiles && term.student !== '' ? `-${term.student}` : '';
      saveFile(`${fileNameOf(`${term.toDay}${who}`)}.term.html`, new Blob([page], { type: 'text/html' }));
    }),
  );
}
