import type { On } from '../practice/commands';
import type { Desk } from './desk';
import { saveFile } from './save-file';

/** What Review may ask for beside its takes. */
export function reviewWires(on: On, { say }: Desk): void {
  on('review', (said) => say({ kind: 'review', said }));
  on('save-file', ({ name, blob }) => saveFile(name, blob));
}
