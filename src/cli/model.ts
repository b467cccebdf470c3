import { parseArgs } from 'node:util';
import { InputError } from '../errors';
import { phraseNamed } from '../exercises/phrase';
import { checkedBpm } from '../exercises/tempo';
import { faultHelp, parseFault } from '../practice/faults';
import { modelTake } from '../practice/model-player';
import { writeTake } from '../sessions/take';
import { UsageError, wholeNumber, writeOut } from './io';

const HELP = `evenhand model --phrase NAME --bpm N --out FILE

  --seed N       a number; the same seed gives the same take (default 1)
  --cycles N     how often the phrase is played (default: as the phrase says)
  --surfaces N   1 pad for both hands (default), or 2, one a hand
  --force        overwrites FILE
  --fault FAULT  may be given several times; levels in dB, times in ms:

${Object.values(faultHelp)
  .map((line) => `    ${line}\n`)
  .join('')}`;

/** `model`: a model player's take, written to a file. */
export function model(args: readonly string[]): string {
  const { values } = parseArgs({
    args: [...args],
    options: {
      phrase: { type: 'string' },
      bpm: { type: 'string' },
      out: { type: 'string' },
      seed: { type: 'string', default: '1' },
      cycles: { type: 'string' },
      surfaces: { type: 'string', default: '1' },
      fault: { type: 'string', multiple: true, default: [] },
      force: { type: 'boolean', default: false },
      help: { type: 'boolean', default: false },
    },
  });
  if (values.help) return HELP;
  if (values.phrase === undefined || values.bpm === undefined || values.out === undefined) {
    throw new UsageError('model wants --phrase, --bpm and --out');
  }
  const phrase = phraseNamed(values.phrase);
  const faults = values.fault.map(parseFault);
  for (const fault of faults) {
    if ('variation' in fault && !phrase.bars.some((bar) => bar.variation === fault.variation)) {
      throw new InputError('--fault', 'must name a variation of the phrase', fault.variation);
    }
  }
  const surfaces = wholeNumber('--surfaces', values.surfaces, 1, 2) === 1 ? 1 : 2;
  const { take } = modelTake({
    phrase,
    bpm: checkedBpm(Number(values.bpm), '--bpm'),
    seed: wholeNumber('--seed', values.seed, 0, 2 ** 31),
    cycles: values.cycles === undefined ? phrase.cycles : wholeNumber('--cycles', values.cycles, 1, 10_000),
    surfaces,
    faults,
  });
  writeOut(values.out, writeTake(take), values.force);
  return `${values.out}: ${take.hits.length} hits\n`;
}
