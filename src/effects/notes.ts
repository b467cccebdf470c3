import { notedBeside } from '../insight/noted';
import { draftFrom, noteDraftId } from '../sessions/draft';
import { fileName } from '../sessions/file-name';
import type { NotedTake, NoteText } from '../sessions/paper/lesson-note';
import type { KeptFile } from '../sessions/store-types';
import type { WeekSheet } from '../sessions/week-sheet';
import type { Effects } from '../state/dispatcher';
import type { Library } from '../state/library';
import { sayingsFrom, withSaying, type NoteDraft } from '../state/note-draft';
import { whoInFileName } from '../state/selectors/library';
import type { Context } from './context';
import { saveFile } from './save-file';

const SAYINGS = 'sayings';

/** A lesson note: begun, given as a file, and the teacher's own phrases. What writes it is fetched when it is first asked for. */
export function noteEffects({ state, dispatch, store, attempt }: Context) {
  const paper = () => import('../sessions/paper/lesson-note');

  /** A note is its take's player's, whoever has the turn by now; of one that is not kept, theirs who has it. */
  async function open(noted: NotedTake): Promise<void> {
    const { library } = state();
    const { take } = noted;
    const playerId = (await store().record(take.id))?.playerId ?? library.playerId;
    const { proposedTarget, targetsThatLead } = await paper();
    const begun = textBegun(await store().filesOf('notes', playerId), take.id);
    const student = library.players.find(({ id }) => id === playerId)?.name ?? '';
    const date = take.recordedAt.slice(0, 10);
    const fresh = { student, date, words: '', target: proposedTarget(noted) };
    const sayings = sayingsFrom(await store().kept(SAYINGS));
    const text = goneOn(begun, fresh, targetsThatLead(noted));
    dispatch({ kind: 'note begun', note: { takeId: take.id, playerId, text, sayings } });
  }

  async function keepSayings(sayings: readonly string[]): Promise<void> {
    await store().keep(SAYINGS, sayings);
    dispatch({ kind: 'sayings kept', sayings });
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
      saveFile(
        nameOf(note, state().library, 'html'),
        new Blob([noteHtml(note.text, [standing])], { type: 'text/html' }),
      );
    if (as === 'md')
      saveFile(
        nameOf(note, state().library, 'md'),
        new Blob([noteMarkdown(note.text, [standing])], { type: 'text/markdown' }),
      );
    if (as === 'week') await giveWeek(noted);
  }

  async function giveWeek({ take, report }: NotedTake): Promise<void> {
    const { note } = state();
    if (note === null || !('bpm' in take.tempo)) return;
    const { proposedTargets } = await import('../sessions/week/proposed-targets');
    const { proposedTarget } = await paper();
    const { student, words, target } = note.text;
    // A target that is as it was proposed stands among the sheet's own.
    const own = target === proposedTarget({ take, report }) ? '' : target;
    const sheet: WeekSheet = {
      format: 'evenhand-week',
      version: 1,
      id: crypto.randomUUID(),
      student,
      phrase: take.phrase,
      bpm: take.tempo.bpm,
      limits: state().library.players.find(({ id }) => id === note.playerId)?.limits ?? take.limits,
      targets: proposedTargets({ take, report }, take.tempo.bpm),
      words: linesOf([words, own]),
      due: null,
      changedAt: new Date().toISOString(),
    };
    dispatch({ kind: 'edit sheet', sheet, playerId: note.playerId });
  }

  const withNoted = (work: (noted: NotedTake) => Promise<void>): void =>
    attempt(async () => {
      const { reviewed } = state();
      if (reviewed !== null) await work(reviewed);
    });
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

/** A note that is gone on with. A target that was proposed before something else came first is proposed anew. */
function goneOn(begun: NoteText | undefined, fresh: NoteText, proposed: readonly string[]): NoteText {
  if (begun === undefined) return fresh;
  return proposed.includes(begun.target) ? { ...begun, target: fresh.target } : begun;
}

function nameOf({ playerId, text }: NoteDraft, library: Library, ending: string): string {
  const who = whoInFileName(library, playerId, text.student);
  return fileName({ kind: 'note', who, day: text.date, ending });
}

/** The note on a take as far as it is written; undefined where none is begun. */
function textBegun(notes: readonly KeptFile[], takeId: string): NoteText | undefined {
  const begun = notes.find(({ id }) => id === noteDraftId(takeId));
  const draft = begun === undefined ? undefined : draftFrom(begun)?.draft;
  if (draft?.of !== 'note') return undefined;
  const { student, date, words, target } = draft;
  return { student, date, words, target };
}

const linesOf = (texts: readonly string[]): string =>
  texts
    .map((one) => one.trim())
    .filter((one) => one !== '')
    .join('\n');
