import { parseArgs } from 'node:util';
import { alsoCalled, bundledPhrases, phraseNamed } from '../exercises/phrase';
import { UsageError } from './io';

/** `phrases [NAME] [--json]` */
export function phrases(args: readonly string[]): string {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: { json: { type: 'boolean' } },
    allowPositionals: true,
  });
  if (positionals.length > 1) throw new UsageError('phrases takes one name; put it in quotes');
  const [name] = positionals;
  if (name === undefined) return values.json === true ? json(bundledPhrases) : list();
  const phrase = phraseNamed(name);
  if (values.json === true) return json(phrase);
  const width = Math.max(...phrase.bars.map((bar) => bar.variation.length));
  const rows = phrase.bars.map((bar) => {
    const also = Object.hasOwn(alsoCalled, bar.variation)
      ? `   also called ${alsoCalled[bar.variation]}`
      : '';
    return `  ${bar.variation.padEnd(width)}   ${bar.sticking}${also}`;
  });
  return `${phrase.title}: ${phrase.beatsPerBar} beats a bar, ${phrase.cycles} cycles\n${rows.join('\n')}\n`;
}

function list(): string {
  const bars = (count: number): string => `${count} ${count === 1 ? 'bar' : 'bars'}`;
  const width = Math.max(...bundledPhrases.map(({ name }) => name.length));
  return bundledPhrases
    .map(({ name, phrase }) => `${name.padEnd(width)}   ${bars(phrase.bars.length)}\n`)
    .join('');
}

const json = (value: unknown): string => `${JSON.stringify(value, undefined, 2)}\n`;
