import { parseArgs } from 'node:util';
import { bundledGroups, type BundledPhrase } from '../exercises/bundled-phrases';
import { alsoCalled, bundledPhrases, phraseNamed } from '../exercises/phrase';
import { rudiment } from '../exercises/rudiment-phrase';
import { rudiments } from '../exercises/rudiments';
import { seamWords } from '../exercises/seams';
import { checkedBpm } from '../exercises/tempo';
import { writePhraseMidi } from '../midi/standard-midi-file';
import { musicXmlOf } from '../sessions/musicxml';
import { shownName } from './shown';
import { UsageError } from './usage';
import { writeWhole } from './whole-files';
import { capital, counted } from '../text';

/** `phrases [NAME] [--json] [--midi OUT] [--musicxml OUT] [--bpm N] [--force]` */
export function phrases(args: readonly string[]): string {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: {
      json: { type: 'boolean' },
      midi: { type: 'string' },
      musicxml: { type: 'string' },
      bpm: { type: 'string', default: '84' },
      force: { type: 'boolean', default: false },
    },
    allowPositionals: true,
  });
  if (positionals.length > 1) throw new UsageError('phrases takes one name; put it in quotes');
  const [name] = positionals;
  if (name === undefined && (values.midi ?? values.musicxml) !== undefined)
    throw new UsageError(`--${values.midi === undefined ? 'musicxml' : 'midi'} wants the name of a phrase`);
  if (name === undefined)
    return values.json === true ? json([...bundledPhrases.map(withRudiment), ...missing]) : list();
  const phrase = phraseNamed(name);
  if ((values.midi ?? values.musicxml) !== undefined) {
    const bpm = checkedBpm(Number(values.bpm), '--bpm');
    const outs = [
      ...(values.midi === undefined
        ? []
        : [{ file: values.midi, content: writePhraseMidi(phrase, { bpm }) }]),
      ...(values.musicxml === undefined ? [] : [{ file: values.musicxml, content: musicXmlOf(phrase, bpm) }]),
    ];
    writeWhole(outs, values.force);
    return outs.map(({ file }) => `${shownName(file)}: ${phrase.title}, ${bpm} bpm\n`).join('');
  }
  if (values.json === true) return json(phrase);
  const width = Math.max(...phrase.bars.map((bar) => bar.variation.length));
  const rows = phrase.bars.map((bar) => {
    const also = Object.hasOwn(alsoCalled, bar.variation)
      ? `   also called ${alsoCalled[bar.variation]}`
      : '';
    return `  ${bar.variation.padEnd(width)}   ${bar.sticking}${also}`;
  });
  const row = rudiment(name);
  const notes = [
    ...(row === undefined ? [] : [`rudiment ${row.number}; source: ${row.source}`]),
    ...seamWords(phrase),
  ];
  return [
    `${phrase.title}: ${phrase.beatsPerBar} beats a bar, ${phrase.cycles} cycles`,
    ...rows,
    ...notes.map((note) => `  ${note}`),
    '',
  ].join('\n');
}

function list(): string {
  const bars = (count: number): string => counted(count, 'bar');
  const width = Math.max(...bundledPhrases.map(({ name }) => name.length));
  const row = ({ name, phrase }: BundledPhrase): string => {
    const [first] = phrase.bars;
    const sticking = phrase.bars.length === 1 ? first.variation : bars(phrase.bars.length);
    return `  ${name.padEnd(width)}   ${sticking}\n`;
  };
  const groups = bundledGroups.map((group) => {
    const members = bundledPhrases.filter((bundled) => bundled.group === group);
    return `${capital(group)}\n${members.map(row).join('')}`;
  });
  const left = missing.map(({ name, reason }) => `  ${name}: ${reason}\n`);
  return `${groups.join('\n')}\nNot to be had over MIDI\n${left.join('')}`;
}

/** With its row of the table, where it is a rudiment. */
function withRudiment(bundled: BundledPhrase): unknown {
  const row = rudiment(bundled.name);
  if (row?.kind !== 'measured') return bundled;
  const { number, family, lead, weekly, source } = row;
  return { ...bundled, rudiment: { number, family, lead, weekly, source } };
}

/** Rudiments that can't be phrases, each with its reason. */
const missing = rudiments.flatMap((row) =>
  row.kind === 'unmeasured'
    ? [{ name: row.name, group: 'not to be had over MIDI', phrase: null, reason: row.reason }]
    : [],
);

const json = (value: unknown): string => `${JSON.stringify(value, undefined, 2)}\n`;
