import { InputError } from '../errors';
import type { FileFacts, FileRead } from '../take/read-file';
import type { FileAnswer, FileAsked } from './read-file-worker';

/** Larger files than this are read beside the page; to start a worker for a small one takes longer than to read it. */
const SMALL_BYTES = 200_000;

/** Reads files, one at a time, so that the page goes on meanwhile. */
export interface FileReader {
  /** @throws InputError where it is not sound, or was stopped */
  read(file: File, facts: FileFacts): Promise<FileRead>;
  /** Gives up the file that is being read. */
  stop(): void;
}

export function fileReader(): FileReader {
  let giveUp: () => void = () => undefined;

  function beside(file: File, facts: FileFacts): Promise<FileRead> {
    const worker = new Worker(new URL('./read-file-worker.ts', import.meta.url), { type: 'module' });
    const reading = new Promise<FileRead>((done, fail) => {
      giveUp = () => fail(new InputError('', 'was not read: you stopped it'));
      worker.addEventListener('message', ({ data }: MessageEvent<FileAnswer>) => {
        if (data.kind === 'read') done(data.read);
        else fail(new InputError(data.place, data.rule, data.value, data.hint));
      });
      // Out of memory, say.
      worker.addEventListener('error', ({ message }) => {
        fail(new InputError('file', `can’t be read by this browser: ${message || 'it gave up'}`));
      });
    });
    const question: FileAsked = { file, facts };
    worker.postMessage(question);
    return reading.finally(() => worker.terminate());
  }

  return {
    async read(file, facts) {
      if (file.size > SMALL_BYTES) return beside(file, facts);
      const { fileRead } = await import('../take/read-file');
      return fileRead(new Uint8Array(await file.arrayBuffer()), facts);
    },
    stop: () => giveUp(),
  };
}
