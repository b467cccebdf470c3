#!/usr/bin/env node
import { InputError } from '../errors';
import type { Log } from './log';
import { check } from './check';
import { convert } from './convert';
import { grade } from './grade';
import { printable, shownName } from './shown';
import { UsageError } from './usage';
import { help, helpOf, nearestCommand, nearestOption, USAGE, type CommandName } from './help';
import { model, MODEL_HELP } from './model';
import { note } from './note';
import { phrases } from './phrases';

/**
 * A command: its arguments in, its standard output out, what goes beside it into the log. Throws UsageError or InputError, and
 * writes nothing then.
 */
type Command = (args: readonly string[], log: Log) => string;

const commands: Readonly<Record<CommandName, Command>> = { grade, phrases, convert, note, model, check };

const EXIT = { done: 0, other: 1, usage: 2, input: 3 } as const;

function main(argv: readonly string[]): number {
  const [name, ...args] = argv;
  if (name === '--help' || name === 'help') {
    process.stdout.write(USAGE);
    return EXIT.done;
  }
  let isBad = false;
  const tell = (line: string): void => void process.stderr.write(`${shownName(line)}\n`);
  const log: Log = {
    bad(error) {
      isBad = true;
      tell(error.message.trim());
    },
    warn: tell,
  };
  try {
    if (!isCommand(name)) throw new UsageError(noCommand(name));
    if (asksHelp(args)) {
      process.stdout.write(name === 'model' ? MODEL_HELP : helpOf(name));
      return EXIT.done;
    }
    process.stdout.write(printable(commands[name](args, log)));
    return isBad ? EXIT.input : EXIT.done;
  } catch (error) {
    if (error instanceof UsageError || isParseArgsError(error)) {
      process.stderr.write(`evenhand: ${shownName(usageWords(error, name))}\n\n${USAGE}`);
      return EXIT.usage;
    }
    if (error instanceof InputError) {
      log.bad(error);
      return EXIT.input;
    }
    process.stderr.write(`evenhand: ${shownName(error instanceof Error ? error.message : String(error))}\n`);
    return EXIT.other;
  }
}

const isCommand = (name: string | undefined): name is CommandName =>
  name !== undefined && Object.hasOwn(commands, name);

function noCommand(name: string | undefined): string {
  if (name === undefined) return 'a command is wanted';
  const meant = nearestCommand(name);
  return `there is no command "${name}"${meant === undefined ? '' : `; is "${meant}" meant?`}`;
}

/** Behind `--` nothing is an option. */
function asksHelp(args: readonly string[]): boolean {
  const end = args.indexOf('--');
  return (end < 0 ? args : args.slice(0, end)).some((arg) => arg === '--help' || arg === '-h');
}

/** What was wrong, with the option that was most likely meant. */
function usageWords(error: Error, name: string | undefined): string {
  const unknown = /Unknown option '(--?[^']+)'/.exec(error.message)?.[1];
  if (unknown === undefined || !isCommand(name)) return error.message;
  const meant = nearestOption(name === 'model' ? MODEL_HELP : help[name], unknown);
  const [said] = error.message.split('. ');
  return meant === undefined ? said : `${said}; is ${meant} meant?`;
}

/** Node's own parser of arguments names what it did not know. */
function isParseArgsError(error: unknown): error is Error {
  return error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS');
}

process.stdout.on('error', () => process.exit(EXIT.other));
process.exitCode = main(process.argv.slice(2));
