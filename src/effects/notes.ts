import type { On } from '../state/commands';
import { sayingsFrom, withSaying } from '../state/note';
import type { NotedTake } from '../sessions/paper/lesson-note';
import type { WeekSheet } from '../sessions/week-sheet';
import type { Desk } from './page-effects';
import { fileNameOf, saveFile } from './save-file';

const SAYINGS = 'sayings';

/** What Review may ask for of a lesson note. What writes it is fetched when it is first asked for. */
export function noteWires(on: On, { sitting, say, store, attempt }: Desk): void {
  const paper = () => import('../sessions/paper/lesson-note');
  const student = (): string => {
    const { players, playerId } = sitting().keeping;
    return players.find(({ id }) => id === playerId)?.name ?? '';
  };

  async function open(noted: NotedTake): Promise<void> {
    const { proposedTarget } = await paper();
    const text = {
      student: student(),
      date: noted.take.recordedAt.slice(0, 10),
      words: '',
      target: proposedTarget(noted),
    };
    say({ kind: 'note', said: { kind: 'open', text, sayings: sayingsFrom(await store().kept(SAYINGS)) } });
  }

  async function keepSayings(sayings: readonly string[]): Promise<void> {
    await store().keep(SAYINGS, sayings);
    say({ kind: 'note', said: { kind: 'sayings', sayings } });
  }

  /** No student's name goes into a file's name unless it is wished. */
  function nameOf(ending: string): string {
    const { noting, keeping } = sitting();
    const who =
      keeping.namesInFiles && noting !== null && noting.text.student !== '' ? `-${noting.text.student}` : '';
    return `${fileNameOf(`${noting?.text.date ?? ''}${who}`)}.${ending}`;
  }

  async function give(as: 'html' | 'md' | 'week', noted: NotedTake): Promise<void> {
    const { noting } = sitting();
    if (noting === null) return;
    const { noteHtml, noteMarkdown } = await paper();
    if (as === 'html')
      saveFile(nameOf('note.html'), new Blob([noteHtml(noting.text, [noted])], { type: 'text/html' }));
    if (as === 'md')
      saveFile(nameOf('note.md'), new Blob([noteMarkdown(noting.text, [noted])], { type: 'text/markdown' }));
    if (as === 'week') await giveWeek(noted);
  }

  async function giveWeek({ take, report }: NotedTake): Promise<void> {
    const { proposedTargets } = await import('../sessions/week/proposed-targets');
    const { proposedTarget } = await paper();
    const { noting } = sitting();
    if (noting === null || !('bpm' in take.tempo)) return;
    const { bpm } = take.tempo;
    const { student: of, words, target } = noting.text;
    const sheet: WeekSheet = {
      format: 'evenhand-week',
      version: 1,
      id: crypto.randomUUID(),
      student: of,
      phrase: take.phrase,
      bpm,
      limits: take.limits,
      targets: proposedTargets(report, bpm),
      // A target that is as it was proposed stands among the sheet's own.
      words: [words, target === proposedTarget({ take, report }) ? '' : target]
        .map((one) => one.trim())
        .filter((one) => one !== '')
        .join('\n'),
      due: null,
      changedAt: new Date().toISOString(),
    };
    say({ kind: 'week draft', said: { kind: 'open', sheet } });
  }

  const withNoted = (work: (noted: NotedTake) => Promise<void>): void => {
    const { reviewed } = sitting();
    if (reviewed !== null) attempt(() => work(reviewed));
  };
  on('note', () => withNoted(open));
  on('note-close', () => say({ kind: 'note', said: { kind: 'close' } }));
  on('note-change', ({ change }) => say({ kind: 'note', said: { kind: 'change', change } }));
  on('note-export', ({ as }) => withNoted((noted) => give(as, noted)));
  on('saying', ({ saying }) => say({ kind: 'note', said: { kind: 'add', saying } }));
  on('keep-saying', ({ saying }) =>
    attempt(() => keepSayings(withSaying(sitting().noting?.sayings ?? [], saying))),
  );
  on('drop-saying', ({ saying }) =>
    attempt(() => keepSayings((sitting().noting?.sayings ?? []).filter((one) => one !== saying))),
  );
}
