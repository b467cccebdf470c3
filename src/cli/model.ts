import { parseArgs } from 'node:util';
import { InputError } from '../errors';
import { parseFeet } from '../exercises/feet';
import { phraseNamed } from '../exercises/phrase';
import { checkedBpm } from '../exercises/tempo';
import type { Phrase } from '../exercises/types';
import { bundledVoicings, voiced } from '../exercises/voicings';
import { faultHelp, parseFault } from '../model/faults';
import { modelTake } from '../model/model-player';
import type { Take } from '../sessions/types';
import type { Bpm } from '../units';
import { convertedTake } from './convert';
import { wholeNumber } from './io';
import { shownName } from './shown';
import { UsageError } from './usage';
import { writeWhole } from './whole-files';

/** What `model --help` prints. */
export const MODEL_HELP = `evenhand model --phrase NAME --bpm N --out FILE

  --seed N       a number; the same seed gives the same take (default 1)
  --cycles N     how often the phrase is played (default: as the phrase says)
  --surfaces N   1 pad for both hands (default), or 2, one a hand
  --voicing NAME to the kit: ${bundledVoicings.map(({ name }) => name).join(', ')}
  --feet LINE    under everything: K bass drum foot, H hi-hat foot, [KH] both, lower case soft, - rest
  --swing N      0.50 to 0.70: where the second of two partials falls
  --free         as played without a click: nothing says where the downbeat is
  --ramp BPM     from --bpm to this tempo, straight in ms a beat over the whole take
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
      voicing: { type: 'string' },
      feet: { type: 'string' },
      swing: { type: 'string' },
      free: { type: 'boolean', default: false },
      ramp: { type: 'string' },
      fault: { type: 'string', multiple: true, default: [] },
      force: { type: 'boolean', default: false },
      help: { type: 'boolean', default: false },
    },
  });
  if (values.help) return MODEL_HELP;
  if (values.phrase === undefined || values.bpm === undefined || values.out === undefined) {
    throw new UsageError('model wants --phrase, --bpm and --out');
  }
  const phrase = asPlayed(phraseNamed(values.phrase), values);
  const faults = values.fault.map(parseFault);
  for (const fault of faults) {
    if ('variation' in fault && !phrase.bars.some((bar) => bar.variation === fault.variation)) {
      throw new InputError('--fault', 'must name a variation of the phrase', fault.variation);
    }
  }
  const surfaces = wholeNumber('--surfaces', values.surfaces, 1, 2) === 1 ? 1 : 2;
  const bpm = checkedBpm(Number(values.bpm), '--bpm');
  const cycles =
    values.cycles === undefined ? phrase.cycles : wholeNumber('--cycles', values.cycles, 1, 10_000);
  const { take } = modelTake({
    phrase,
    bpm,
    seed: wholeNumber('--seed', values.seed, 0, 2 ** 31),
    cycles,
    surfaces,
    faults,
    ...(values.ramp === undefined
      ? {}
      : {
          ramp: [
            { bar: 0, bpm },
            { bar: cycles * phrase.bars.length, bpm: checkedBpm(Number(values.ramp), '--ramp') },
          ],
        }),
  });
  const content = convertedTake(values.free ? withoutClick(take, bpm) : take, '.take.json');
  writeWhole([{ file: values.out, content }], values.force);
  return `${shownName(values.out)}: ${take.hits.length} hits\n`;
}

/** The same strokes, and nothing that tells their tempo but themselves. */
function withoutClick(take: Take, bpm: Bpm): Take {
  return { ...take, click: 'none', downbeatMs: null, tempo: { bpm } };
}

interface Playing {
  readonly voicing?: string | undefined;
  readonly feet?: string | undefined;
  readonly swing?: string | undefined;
}

/** The phrase to the kit, over feet and swung, as asked. */
function asPlayed(phrase: Phrase, { voicing, feet, swing }: Playing): Phrase {
  const toKit = voicing === undefined ? phrase : voiced(phrase, voicing);
  if (feet !== undefined) parseFeet(feet);
  const share = swing === undefined ? undefined : Number(swing);
  if (share !== undefined && !(share >= 0.5 && share <= 0.7)) {
    throw new InputError('--swing', 'must be 0.50–0.70', swing);
  }
  return {
    ...toKit,
    ...(feet === undefined ? {} : { feet }),
    ...(share === undefined ? {} : { swing: share }),
  };
}
