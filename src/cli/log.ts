import type { InputError } from '../errors';

/** What a command says beside its results, on standard error. */
export interface Log {
  /** One of several files is bad and the others go on: a line, and exit 3 at the end. */
  readonly bad: (error: InputError) => void;
  /** Something to know that stops nothing. */
  readonly warn: (line: string) => void;
}

/** Where nothing goes on after a bad file. */
export const strict: Log = {
  bad(error) {
    throw error;
  },
  warn: () => undefined,
};
