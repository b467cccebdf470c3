/** What a file is: the first word of its name, so that no two kinds have one name. */
type FileKind =
  | 'backup'
  | 'student'
  | 'note'
  | 'sheet'
  | 'term'
  | 'take'
  | 'back'
  | 'phrase'
  | 'rig'
  | 'picture'
  | 'strokes'
  | 'unread';

/** Who stands in names of files: the player's short code, their whole name, nobody. */
export type WhoInNames = 'code' | 'name' | 'nobody';
export const whoInNames: readonly WhoInNames[] = ['code', 'name', 'nobody'];

interface NamedFile {
  readonly kind: FileKind;
  /** Whose it is; empty for nobody's, and where nobody is to be named. */
  readonly who?: string;
  /** A day, or a moment, ISO 8601. */
  readonly day?: string;
  /** What else tells it from others of its kind. */
  readonly about?: string;
  /** Without its first dot. */
  readonly ending: string;
}

const LONGEST_PART = 60;

/**
 * The name of every file that is given out, by the page and by the command line.
 * @example fileName({ kind: 'note', who: 'AB', day: '2026-11-30', ending: 'html' }) // => 'note-AB-2026-11-30.html'
 */
export function fileName({ kind, who = '', day = '', about = '', ending }: NamedFile): string {
  const parts = [kind, who, day.slice(0, 10), about].map(partOf).filter((part) => part !== '');
  return `${parts.join('-')}.${ending}`;
}

/** Letters and figures stay, all else is a hyphen: every system takes that. */
function partOf(text: string): string {
  const part = text.replaceAll(/[^\p{L}\p{N}]+/gu, '-').replaceAll(/^-|-$/g, '');
  return [...part].slice(0, LONGEST_PART).join('');
}

/**
 * Who stands in the name of a player's file.
 * @param code their short code
 * @example whoNamed('code', { code: 'AB', name: 'A. Bell' }) // => 'AB'
 */
export function whoNamed(
  as: WhoInNames,
  { code, name }: { readonly code: string; readonly name: string },
): string {
  if (as === 'nobody') return '';
  return as === 'name' && name.trim() !== '' ? name : code;
}
