import { tempoOf } from '../state/pace';
import { phraseFileFrom, writePhraseFile, type PhraseFile } from '../sessions/phrase-file';
import type { Effects } from '../state/dispatcher';
import type { Context } from './context';
import { saveFile } from './save-file';
import { fileName } from '../sessions/file-name';

/** The player's own phrases: kept in the store, out and in as files. */
export function phraseEffects({ state, dispatch, store, attempt }: Context) {
  /** The chosen phrase under a name. */
  function chosenAs(name: string): PhraseFile {
    const { phrase, bpm, pace } = state();
    const tempo = tempoOf(phrase, bpm, pace);
    return {
      format: 'evenhand-phrase',
      version: 1,
      name,
      phrase: { ...phrase, title: name },
      bpm,
      ...('ramp' in tempo ? { tempo } : {}),
    };
  }

  async function show(): Promise<void> {
    const files = (await store().all('phrases')).map(phraseFileFrom);
    const newestFirst = files.sort((a, b) => ((a.changedAt ?? '') < (b.changedAt ?? '') ? 1 : -1));
    dispatch({ kind: 'phrases saved', saved: newestFirst });
  }

  async function keep(file: PhraseFile): Promise<void> {
    await store().place('phrases', { ...file, changedAt: new Date().toISOString() });
    await show();
  }

  function share(): void {
    const file = chosenAs(state().phrase.title);
    saveFile(nameOf(file.name, 'phrase.json'), writePhraseFile(file));
  }

  /** For other programs; what writes it is fetched when it is first asked for. */
  async function give(as: 'midi' | 'musicxml'): Promise<void> {
    const { phrase, bpm, pace } = state();
    if (as === 'midi') {
      const { writePhraseMidi } = await import('../midi/standard-midi-file');
      const bytes = Uint8Array.from(writePhraseMidi(phrase, tempoOf(phrase, bpm, pace)));
      saveFile(nameOf(phrase.title, 'mid'), new Blob([bytes], { type: 'audio/midi' }));
      return;
    }
    const { musicXmlOf } = await import('../sessions/musicxml');
    const type = 'application/vnd.recordare.musicxml+xml';
    saveFile(nameOf(phrase.title, 'musicxml'), new Blob([musicXmlOf(phrase, bpm)], { type }));
  }

  async function remove(name: string): Promise<void> {
    await store().remove('phrases', name);
    await show();
  }

  const on = {
    // One of the same name is replaced.
    'save phrase': ({ name }) => attempt(() => keep(chosenAs(name))),
    'delete phrase': ({ name }) => attempt(() => remove(name)),
    'share phrase': share,
    'export phrase': ({ as }) => attempt(() => give(as)),
  } satisfies Effects['on'];
  return {
    on,
    /** Shows those that were kept. */
    open: show,
    /** Keeps and opens the phrase of a file. */
    async add(phrase: PhraseFile): Promise<void> {
      await keep(phrase);
      dispatch({ kind: 'phrase added', file: phrase });
    },
  };
}

const nameOf = (about: string, ending: string): string => fileName({ kind: 'phrase', about, ending });
