import { parseArgs } from 'node:util';
import { bundledGroups, type BundledPhrase } from '../exercises/bundled-phrases';
import { alsoCalled, bundledPhrases, phraseNamed } from '../exercises/phrase';
import { rudiments } from '../exercises/rudiments';
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
  const row = ({ name, phrase }: BundledPhrase): string => {
    const [first] = phrase.bars;
    const sticking = phrase.bars.length === 1 ? first.variation : bars(phrase.bars.length);
    return `  ${name.padEnd(width)}   ${sticking}\n`;
  };
  const groups = bundledGroups.map((group) => {
    const members = bundledPhrases.filter((bundled) => bundled.group === group);
    return `${group[0].toUpperCase()}${group.slice(1)}\n${members.map(row).join('')}`;
  });
  const left = rudiments.flatMap((row) =>
    row.kind === 'unmeasured' ? [`  ${row.name}: ${row.reason}\n`] : [],
  );
  return `${groups.join('\n')}\nNot to be had over MIDI\n${left.join('')}`;
}

const json = (value: unknown): string => `${JSON.stringify(value, undefined, 2)}\n`;
