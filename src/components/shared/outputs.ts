import type { MidiStatus } from '../../midi/types';
import { NO_CLICK, SEEN_CLICK } from '../../state/outputs';
import { remembered } from '../../state/remembered';
import type { OutputChoice } from './types';

/** Outputs of the kit that are there now. */
export const kitOutputs = remembered((midi: MidiStatus): readonly OutputChoice[] =>
  midi.kind === 'on' ? midi.outputs.filter(({ connected }) => connected) : [],
);

/** Where the click may go: to the ears by the computer or the kit, to the eyes, or nowhere. */
export const outputsOf = remembered((midi: MidiStatus): readonly OutputChoice[] => [
  { id: '', name: 'This computer’s sound' },
  { id: SEEN_CLICK, name: 'Seen, not heard' },
  { id: NO_CLICK, name: 'None: free time' },
  ...kitOutputs(midi).map(({ id, name }) => ({ id, name: `A note on ${name}` })),
]);
