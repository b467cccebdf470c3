import { audioPlayer } from '../click/hear-audio';
import { heard, type HearChoice } from '../click/hear';
import { kitPlayer, type HearPlayer } from '../click/hear-player';
import type { AudioOut } from '../click/web-audio';
import type { MidiDoor } from '../midi/types';
import { tempoOf } from '../practice/pace';
import type { Desk } from './desk';

/** The phrase on the desk as sound: through the computer, or on the kit where the click goes there too. */
export interface Hearing {
  /** Begins anew where something sounds already. Call it first thing in the handler of a key or pointer. */
  start(choice: HearChoice): void;
  stop(): void;
}

export function hearing({ sitting, say, trouble }: Desk, door: MidiDoor, out: AudioOut): Hearing {
  const ended = (): void => say({ kind: 'hearing', hearing: false });
  let current: HearPlayer | null = null;

  function stop(): void {
    if (current === null) return;
    current.stop();
    current = null;
    ended();
  }

  return {
    stop,
    start(choice) {
      stop();
      const { phrase, bpm, pace, output } = sitting();
      try {
        const notes = heard(phrase, tempoOf(phrase, bpm, pace), choice);
        out.wake().catch(trouble);
        current =
          output === '' ? audioPlayer(out, ended) : kitPlayer((...note) => door.send(output, ...note), ended);
        current.start(notes);
        say({ kind: 'hearing', hearing: true });
      } catch (error) {
        trouble(error);
      }
    },
  };
}
