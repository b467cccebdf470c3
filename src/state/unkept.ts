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

/** Those that the player has not as a file: they are shown. */
export const withoutFile = (unkept: readonly UnkeptTake[]): readonly UnkeptTake[] =>
  unkept.filter(({ downloaded }) => !downloaded);

interface AtRisk {
  readonly unkept: readonly UnkeptTake[];
  readonly recordingFails: string;
}

/** Whether a take is lost when the page is left now. */
export const wouldLose = ({ unkept, recordingFails }: AtRisk): boolean =>
  recordingFails !== '' || unkept.some(({ from, downloaded }) => from === 'played' && !downloaded);
