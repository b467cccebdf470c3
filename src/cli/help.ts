import { nearest } from '../exercises/nearest';

/** What each command is for: the first line of `--help`, and what `COMMAND --help` prints. */
export const help = {
  grade: `grade FILE… [--json [--advice]]   grades takes (.take.json, or .mid that carries its phrase; a folder means its
                                  takes, - standard input): the sentence, a table, what to play next, what gives a
                                  variation away; over several files by player and phrase, with the ceilings;
                                  --json the report or an array of them; --json --advice an object with reports,
                                  advice (file, remedy, giveaway, identification) and ceilings
  grade FILE… --summary           one line a take; --csv the same, --csv strokes every stroke, for a spreadsheet;
                                  --decimal comma where it wants commas; --swung for who meant to swing
  grade FILE.mid --phrase NAME --bpm N, or --sticking TEXT --partials N --bpm N
                                  the same for a foreign MIDI file; --notes N,… takes some notes only,
                                  --right N,… --left N,… where each hand has its own; --free without a click`,
  phrases: `phrases [NAME] [--json]         lists the bundled phrases and rudiments, or prints one;
                                  --midi OUT, --musicxml OUT, --bpm N, --force write it as a file`,
  convert: `convert FILE OUT [--force]      a take as .mid, .csv or .take.json, by the ending of OUT`,
  note: `note FILE… --out OUT.html or .md [--student NAME] [--words TEXT] [--target TEXT] [--date DAY]
                                  a lesson note of one player; --term a page for parents (.html);
                                  --by-student one each, into the folder OUT; --force overwrites`,
  model: `model --phrase NAME --bpm N --out FILE [--seed N] [--fault FAULT]…
                                  a model player's take; 'model --help' lists the faults`,
  check: `check FILE…                     says whether each file is sound, and where not`,
} as const;

export type CommandName = keyof typeof help;

/** Of the whole command line. */
export const USAGE = `evenhand COMMAND …

${Object.values(help)
  .map((text) => `  ${text}\n`)
  .join('')}
Results go to standard output, all else to standard error. COMMAND --help tells of one command.
Exit 0 done, 2 wrong usage, 3 bad input (the sound files are done all the same), 1 anything else.
`;

/** Of one command. */
export const helpOf = (name: CommandName): string =>
  `evenhand ${help[name].replaceAll('\n  grade', '\n\nevenhand grade')}\n`;

/** The command most likely meant. */
export const nearestCommand = (typed: string): string | undefined => nearest(typed, Object.keys(help));

/** The option of a command that was most likely meant; its help names them all. */
export function nearestOption(text: string, typed: string): string | undefined {
  const options = [...new Set(text.match(/--[a-z][a-z-]*/g))];
  return nearest(typed, options);
}
