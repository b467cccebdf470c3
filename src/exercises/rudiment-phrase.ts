import { InputError } from '../errors';
import { rudiments, type MeasuredRudiment, type Rudiment } from './rudiments';
import { parseSticking, stickingText } from './sticking';
import type { Phrase, PhraseBar } from './types';
import { filled, mirror } from './variations';

const CYCLES = 8;

/**
 * A rudiment by its number, or by its name whatever the case of its letters; undefined where there is none such.
 * @example rudiment('flam accent').number // => 21
 */
export function rudiment(which: number | string): Rudiment | undefined {
  if (typeof which === 'number') return rudiments.find(({ number }) => number === which);
  const wanted = which.trim().toLowerCase();
  return rudiments.find(({ name }) => name.toLowerCase() === wanted);
}

/**
 * A rudiment as a phrase of eight cycles: its sticking repeated until the bar is full, the bar named by the sticking.
 * @param lead 'left' gives the mirror
 * @throws InputError for no such rudiment, and for the one that MIDI can't show, with the reason
 * @example rudimentPhrase('flam tap').bars[0].variation // => {l}Rr{r}Ll
 */
export function rudimentPhrase(which: number | string, lead: 'right' | 'left' = 'right'): Phrase {
  const found = rudiment(which);
  if (found === undefined) {
    throw new InputError('rudiment', `must be a number from 1 to ${rudiments.length} or a name`, which);
  }
  if (found.kind === 'unmeasured') {
    throw new InputError('rudiment', `must be one that MIDI can show: ${found.reason}`, found.name);
  }
  return {
    title: lead === 'right' ? found.name : `${found.name}, left lead`,
    beatsPerBar: found.beatsPerBar,
    partialsPerBeat: found.partialsPerBeat,
    cycles: CYCLES,
    bars: barsOf(found, lead),
  };
}

function barsOf(found: MeasuredRudiment, lead: 'right' | 'left'): PhraseBar[] {
  const beats = [found.partialsPerBeat];
  return parseSticking(found.sticking).map((pattern) => {
    const led = lead === 'right' ? pattern : mirror(pattern);
    return {
      variation: stickingText(led, beats),
      sticking: stickingText(filled(led, found.partialsPerBeat * found.beatsPerBar), beats),
    };
  });
}
