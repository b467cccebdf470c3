import type { MidiGateway } from '../midi/types';
import { midiAllowed } from '../midi/web-midi';
import type { Effects } from '../state/dispatcher';
import type { Context } from './context';

/** MIDI is asked for, and what comes from it is reported. A page that may use it already has no question to ask. */
export function midiEffects({ attempt, dispatch }: Context, midi: MidiGateway) {
  return {
    on: { connect: () => attempt(() => midi.connect()) } satisfies Effects['on'],
    open(): void {
      midi.status$.subscribe((status) => dispatch({ kind: 'midi', status }));
      midi.hits$.subscribe((hit) => dispatch({ kind: 'struck', hit, newId: crypto.randomUUID() }));
      attempt(async () => {
        if (await midiAllowed()) await midi.connect();
      });
    },
  };
}
