import type { afterAccent, crosstalk, delays, echo, forerunner, heights, spots } from './rig-schema';
import type { Stored } from './stored';

/** What a rig may have learned. Everything is optional in a file: a rig that hasn't learned it works by defaults. */

export type Heights = Stored<typeof heights>;

/** The three heights of a player's strokes. */
export type HeightName = keyof Heights;
export const heightNames: readonly HeightName[] = ['low', 'half', 'full'];

export type SpotTrims = Stored<typeof spots>;
export type ForerunnerWindow = Stored<typeof forerunner>;
export type EchoWindow = Stored<typeof echo>;
export type CrosstalkWindow = Stored<typeof crosstalk>;
export type AfterAccent = Stored<typeof afterAccent>;
export type LearnedDelays = Stored<typeof delays>;
