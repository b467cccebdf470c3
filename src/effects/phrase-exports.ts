import type { On } from '../state/commands';
import { tempoOf } from '../state/pace';
import type { Desk } from './page-effects';
import { fileNameOf, saveFile } from './save-file';

/** The phrase on the desk as a file for other programs; what writes it is fetched when it is first asked for. */
export function phraseExportWires(on: On, { sitting, attempt }: Desk): void {
  on('export-phrase', ({ as }) =>
    attempt(async () => {
      const { phrase, bpm, pace } = sitting();
      const name = fileNameOf(phrase.title);
      if (as === 'midi') {
        const { writePhraseMidi } = await import('../midi/standard-midi-file');
        const bytes = Uint8Array.from(writePhraseMidi(phrase, tempoOf(phrase, bpm, pace)));
        saveFile(`${name}.mid`, new Blob([bytes], { type: 'audio/midi' }));
        return;
      }
      const { musicXmlOf } = await import('../sessions/musicxml');
      const type = 'application/vnd.recordare.musicxml+xml';
      saveFile(`${name}.musicxml`, new Blob([musicXmlOf(phrase, bpm)], { type }));
    }),
  );
}
