import { InputError } from '../errors';
import { fileRead, type FileFacts, type FileRead } from '../take/read-file';

/** What is asked of the worker. */
export interface FileAsked {
  readonly file: Blob;
  readonly facts: FileFacts;
}

/** Its answer: an error loses its kind between the two, so what it is made of is sent. */
export type FileAnswer =
  | { readonly kind: 'read'; readonly read: FileRead }
  | {
      readonly kind: 'refused';
      readonly place: string;
      readonly rule: string;
      readonly value: unknown;
      readonly hint: string | undefined;
    };

// A worker of its own: a file of years, or one made to hang a page, never holds the page up, and can be stopped.
self.addEventListener('message', ({ data }: MessageEvent<FileAsked>) => {
  void answer(data).then((it) => self.postMessage(it));
});

async function answer({ file, facts }: FileAsked): Promise<FileAnswer> {
  try {
    return { kind: 'read', read: fileRead(new Uint8Array(await file.arrayBuffer()), facts) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const { place, rule, value, hint } = error;
    return { kind: 'refused', place, rule, value, hint };
  }
}
