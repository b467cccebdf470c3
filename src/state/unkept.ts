import type { Take } from '../sessions/types';

/** A take that could not be kept. */
export interface UnkeptTake {
  readonly take: Take;
  readonly sentence: string;
  /** What the browser said of its storage. */
  readonly why: string;
  /** A file has its file still; one that was played is nowhere else. */
  readonly from: 'played' | 'file';
  /** True once the player has it as a file; it is still tried to be kept. */
  readonly downloaded: boolean;
}

/** Those to be told of: no file of the player's has them. */
export const untold = (unkept: readonly UnkeptTake[]): readonly UnkeptTake[] =>
  unkept.filter(({ downloaded }) => !downloaded);

interface Keeping {
  readonly unkept: readonly UnkeptTake[];
  readonly keepingFails: string;
}

/** Whether a take is lost when the page is left now. */
export const wouldLose = ({ unkept, keepingFails }: Keeping): boolean =>
  keepingFails !== '' || unkept.some(({ from, downloaded }) => from === 'played' && !downloaded);
