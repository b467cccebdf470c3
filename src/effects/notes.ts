import { notedBeside } from '../insight/noted';
import type { NotedTake } from '../sessions/paper/lesson-note';
import type { WeekSheet } from '../sessions/week-sheet';
import type { Effects } from '../state/dispatcher';
import { sayingsFrom, withSaying } from '../state/note-draft';
import { currentPlayer } from '../state/selectors/library';
import type { Context } from './context';
import { fileNameOf, saveFile } from './save-file';

const SAYINGS = 'sayings';

/** A lesson note: begun, given as a file, and the teacher's own phrases. What writes it is fetched when it is first asked for. */
export function noteEffects({ state, dispatch, store, attempt }: Context) {
  const paper = () => import('../sessions/paper/lesson-note');

  async function open(noted: NotedTake): Promise<void> {
    const { proposedTarget } = await paper();
    const text = {
      student: currentPlayer(state().library)?.name ?? '',
      date: noted.take.recordedAt.slice(0, 10),
      words: '',
      target: proposedTarget(noted),
    };
    dispatch({ kind: 'note begun', text, sayings: sayingsFrom(await store().kept(SAYINGS)) });
  }

  async function keepSayings(sayings: readonly string[]): Promise<void> {
    await store().keep(SAYINGS, sayings);
    dispatch({ kind: 'sayings kept', sayings });
  }

  /** No student's name goes into a file's name unless it is wished. */
  function nameOf(ending: string): string {
    const { note, library } = state();
    const who =
      library.namesInFiles && note !== null && note.text.student !== '' ? `-${note.text.student}` : '';
    return `${fileNameOf(`${note?.text.date ?? ''}${who}`)}.${ending}`;
  }

  async function give(as: 'html' | 'md' | 'week', noted: NotedTake): Promise<void> {
    const { note } = state();
    if (note === null) return;
    const { noteHtml, noteMarkdown } = await paper();
    const standing = notedBeside(
      noted,
      state().library.takes,
      note.text.date,
      -new Date().getTimezoneOffset(),
    );
    if (as === 'html')
      saveFile(nameOf('note.html'), new Blob([noteHtml(note.text, [standing])], { type: 'text/html' }));
    if (as === 'md')
      saveFile(nameOf('note.md'), new Blob([noteMarkdown(note.text, [standing])], { type: 'text/markdown' }));
    if (as === 'week') await giveWeek(noted);
  }

  async function giveWeek({ take, report }: NotedTake): Promise<void> {
    const { proposedTargets } = await import('../sessions/week/proposed-targets');
    const { proposedTarget } = await paper();
    const { note } = state();
    if (note === null || !('bpm' in take.tempo)) return;
    const { bpm } = take.tempo;
    const { student: of, words, target } = note.text;
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
    dispatch({ kind: 'edit sheet', sheet });
  }

  const withNoted = (work: (noted: NotedTake) => Promise<void>): void => {
    const { reviewed } = state();
    if (reviewed !== null) attempt(() => work(reviewed));
  };
  const on = {
    'write note': () => withNoted(open),
    'export note': ({ as }) => withNoted((noted) => give(as, noted)),
    'keep saying': ({ saying }) =>
      attempt(() => keepSayings(withSaying(state().note?.sayings ?? [], saying))),
    'drop saying': ({ saying }) =>
      attempt(() => keepSayings((state().note?.sayings ?? []).filter((one) => one !== saying))),
  } satisfies Effects['on'];
  return { on };
}
