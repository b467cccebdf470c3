import { audioPlayer } from '../click/hear-audio';
import { heard, type Heard, type HearChoice } from '../click/hear';
import { kitPlayer, type HearPlayer } from '../click/hear-player';
import type { AudioOut } from '../click/web-audio';
import type { MidiDoor } from '../midi/types';
import { tempoOf } from '../state/pace';
import { kitOutputOf } from '../state/reducer';
import type { Desk } from './page-effects';

/** The phrase on the desk as sound: through the computer, or on the kit where the click goes there too. */
export interface Hearing {
  /** Begins anew where something sounds already. Call it first thing in the handler of a key or pointer. */
  start(choice: HearChoice): void;
  /** Sounds what is given; the same, for notes that are no phrase’s. */
  sound(notes: () => Heard): void;
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

  function sound(notes: () => Heard): void {
    stop();
    const kit = kitOutputOf(sitting().output);
    try {
      const made = notes();
      out.wake().catch(trouble);
      current =
        kit === null ? audioPlayer(out, ended) : kitPlayer((...note) => door.send(kit, ...note), ended);
      current.start(made);
      say({ kind: 'hearing', hearing: true });
    } catch (error) {
      trouble(error);
    }
  }

  return {
    stop,
    sound,
    start(choice) {
      const { phrase, bpm, pace } = sitting();
      sound(() => heard(phrase, tempoOf(phrase, bpm, pace), choice));
    },
  };
}
