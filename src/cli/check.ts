import { parseArgs } from 'node:util';
import { InputError } from '../errors';
import { gridOf } from '../exercises/grid';
import { readTake } from '../sessions/take';
import { onBehalfOf, readText, UsageError } from './io';

/** `check FILE…`: a line a file; exit 3 where one is not sound, with every bad one named. */
export function check(args: readonly string[]): string {
  const { positionals } = parseArgs({ args: [...args], options: {}, allowPositionals: true });
  if (positionals.length === 0) throw new UsageError('check wants a file');
  const bad: string[] = [];
  const good: string[] = [];
  for (const file of positionals) {
    try {
      const text = readText(file);
      good.push(`${file}: sound, ${onBehalfOf(file, () => described(text))}\n`);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      bad.push(error.message.trim());
    }
  }
  if (bad.length > 0) throw new InputError(bad.join(' · '), '');
  return good.join('');
}

function described(text: string): string {
  const { phrase, tempo, hits, downbeatMs, source } = readTake(text);
  gridOf(phrase, tempo, downbeatMs ?? 0, phrase.bars.length);
  const pace = 'bpm' in tempo ? `${tempo.bpm} bpm` : 'tempo by a ramp';
  return `${source} take of "${phrase.title}", ${pace}, ${hits.length} hits`;
}
