#!/usr/bin/env node
import { InputError } from '../errors';
import { check } from './check';
import { convert } from './convert';
import { grade } from './grade';
import { printable, shownName } from './shown';
import { UsageError } from './usage';
import { model } from './model';
import { note } from './note';
import { phrases } from './phrases';

/** A command: its arguments in, its standard output out. Throws UsageError or InputError, and writes nothing then. */
type Command = (args: readonly string[]) => string;

const commands: Readonly<Record<string, Command>> = { grade, phrases, convert, note, model, check };

const USAGE = `evenhand COMMAND …

  grade FILE… [--json [--advice]] grades takes (.take.json, or .mid that carries its phrase): the sentence, a table,
                                  what to play next, what gives a variation away; over several files the ceilings;
                                  --json the report or an array of them; --json --advice an object with reports,
                                  advice (file, remedy, giveaway, identification) and ceilings
  grade FILE.mid --phrase NAME --bpm N, or --sticking TEXT --partials N --bpm N
                                  the same for a foreign MIDI file; --notes N,… takes some notes only,
                                  --right N,… --left N,… where each hand has its own
  phrases [NAME] [--json]         lists the bundled phrases and rudiments, or prints one;
                                  --midi OUT, --musicxml OUT, --bpm N, --force write it as a file
  convert FILE OUT                a take as .mid, .csv or .take.json, by the ending of OUT
  note FILE… --out OUT.html or .md [--student NAME] [--words TEXT] [--target TEXT] [--date DAY]
                                  a lesson note; --term a page for parents (.html)
  model --phrase NAME --bpm N --out FILE [--seed N] [--fault FAULT]…
                                  a model player's take; 'model --help' lists the faults
  check FILE…                     says whether each file is sound, and where not

Results go to standard output, all else to standard error.
Exit 0 done, 2 wrong usage, 3 bad input, 1 anything else.
`;

const EXIT = { done: 0, other: 1, usage: 2, input: 3 } as const;

function main(argv: readonly string[]): number {
  const [name, ...args] = argv;
  if (name === '--help' || name === 'help') {
    process.stdout.write(USAGE);
    return EXIT.done;
  }
  try {
    if (name === undefined || !Object.hasOwn(commands, name)) {
      throw new UsageError(name === undefined ? 'a command is wanted' : `there is no command "${name}"`);
    }
    process.stdout.write(printable(commands[name](args)));
    return EXIT.done;
  } catch (error) {
    if (error instanceof UsageError || isParseArgsError(error)) {
      process.stderr.write(`evenhand: ${shownName(error.message)}\n\n${USAGE}`);
      return EXIT.usage;
    }
    if (error instanceof InputError) {
      process.stderr.write(`${shownName(error.message)}\n`);
      return EXIT.input;
    }
    process.stderr.write(`evenhand: ${shownName(error instanceof Error ? error.message : String(error))}\n`);
    return EXIT.other;
  }
}

/** Node's own parser of arguments names what it did not know. */
function isParseArgsError(error: unknown): error is Error {
  return error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS');
}

process.stdout.on('error', () => process.exit(EXIT.other));
process.exitCode = main(process.argv.slice(2));
