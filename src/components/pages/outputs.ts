import type { MidiStatus } from '../../midi/types';
import { SEEN_CLICK } from '../../practice/sitting';
import type { OutputChoice } from '../types';
import { remembered } from './remembered';

/** Where the click may sound. */
export const outputsOf = remembered((midi: MidiStatus): readonly OutputChoice[] => {
  const outputs = midi.kind === 'on' ? midi.outputs.filter(({ connected }) => connected) : [];
  return [
    { id: '', name: 'This computer’s sound' },
    { id: SEEN_CLICK, name: 'Seen, not heard' },
    ...outputs.map(({ id, name }) => ({ id, name: `A note on ${name}` })),
  ];
});
