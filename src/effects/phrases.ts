import type { On } from '../state/commands';
import { tempoOf } from '../state/pace';
import { phraseFileFrom, readPhraseFile, writePhraseFile, type PhraseFile } from '../sessions/phrase-file';
import type { Desk } from './page-effects';
import { fileNameOf, saveFile } from './save-file';

/** The player's own phrases: kept in the store, out and in as files. */
export interface PhraseDesk {
  /** Shows those that were kept. */
  open(): Promise<void>;
  /** Keeps the phrase on the desk under a name; one of the same name is replaced. */
  save(name: string): Promise<void>;
  remove(name: string): Promise<void>;
  /** Gives the phrase on the desk as a file. */
  share(): void;
  /** Keeps and opens the phrase of a file. */
  take(file: File): Promise<void>;
}

export function phraseDesk({ sitting, say, store }: Desk): PhraseDesk {
  function onDesk(name: string): PhraseFile {
    const { phrase, bpm, pace } = sitting();
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
    say({ kind: 'saved', saved: newestFirst });
  }

  async function keep(file: PhraseFile): Promise<void> {
    await store().place('phrases', { ...file, changedAt: new Date().toISOString() });
    await show();
  }

  return {
    open: show,
    save: (name) => keep(onDesk(name)),
    async remove(name) {
      await store().remove('phrases', name);
      await show();
    },
    share() {
      const file = onDesk(sitting().phrase.title);
      saveFile(`${fileNameOf(file.name)}.phrase.json`, writePhraseFile(file));
    },
    async take(file) {
      const phrase = readPhraseFile(await file.text());
      await keep(phrase);
      say({ kind: 'open phrase', file: phrase });
    },
  };
}

/** What the Phrase screen may ask for. */
export function phraseWires(on: On, { say, attempt }: Desk, phrases: PhraseDesk): void {
  on('phrase', ({ name }) => say({ kind: 'phrase', name }));
  on('build', ({ change }) => say({ kind: 'build', change }));
  on('bars', (change) => say({ kind: 'bars', change }));
  on('sticking', ({ text }) => say({ kind: 'typed', text }));
  on('pace', ({ change }) => say({ kind: 'pace', change }));
  on('manner', ({ change }) => say({ kind: 'manner', change }));
  on('tempo', ({ bpm }) => say({ kind: 'tempo', bpm }));
  on('cycles', ({ cycles }) => say({ kind: 'cycles', cycles }));
  on('limits', ({ limits }) => say({ kind: 'limits', limits }));
  on('save-phrase', ({ name }) => attempt(() => phrases.save(name)));
  on('delete-phrase', ({ name }) => attempt(() => phrases.remove(name)));
  on('open-phrase', ({ name }) => say({ kind: 'phrase', name }));
  on('share-phrase', () => phrases.share());
  on('sheet', () => say({ kind: 'sheet', open: true }));
  on('sheet-close', () => say({ kind: 'sheet', open: false }));
}
