import { audioPlayer } from '../click/hear-audio';
import { heard, type Heard } from '../click/hear';
import { kitPlayer, type HearPlayer } from '../click/hear-player';
import type { AudioOut } from '../click/web-audio';
import type { MidiGateway } from '../midi/types';
import type { Effects } from '../state/dispatcher';
import { kitOutputOf } from '../state/outputs';
import { tempoOf } from '../state/pace';
import { nextBlind } from '../insight/telling-apart';
import { heardTake } from '../state/sounded-take';
import type { Context } from './context';

/** Phrases and takes as sound: through the computer, or on the kit where the click goes there too. One sounds at a time. */
export function soundEffects({ state, dispatch, trouble }: Context, midi: MidiGateway, out: AudioOut) {
  const ended = (): void => dispatch({ kind: 'sounding', on: false });
  let current: HearPlayer | null = null;

  function stop(): void {
    if (current === null) return;
    current.stop();
    current = null;
    ended();
  }

  out.now$.subscribe((now) => dispatch({ kind: 'sound', now }));

  /** Before a take it can be said whether its click will be heard; a page that nobody has touched may not sound at all. */
  function look(): void {
    const isTouched = (navigator as Partial<Navigator>).userActivation?.hasBeenActive ?? true;
    if (isTouched && state().output === '') void out.wake();
  }

  /** Called first thing in the handler of a key or pointer, as browsers ask of whoever makes sound. */
  function sound(notes: () => Heard): void {
    stop();
    const kit = kitOutputOf(state().output);
    try {
      const made = notes();
      void out.wake();
      current =
        kit === null ? audioPlayer(out, ended) : kitPlayer((...note) => midi.send(kit, ...note), ended);
      current.start(made);
      dispatch({ kind: 'sounding', on: true });
    } catch (error) {
      trouble(error);
    }
  }

  function soundBlind(): void {
    const { reviewed, reviewing } = state();
    const bar = reviewing.listening === null ? undefined : nextBlind(reviewing.listening);
    if (reviewed === null || bar === undefined) stop();
    else {
      const from = bar.take === 0 ? reviewed : (reviewing.beside ?? reviewed);
      sound(() => heardTake(from, { bars: [bar.bar], hand: 'both', speed: 'full' }));
    }
  }

  const on = {
    go: ({ screen }) => {
      stop();
      if (screen === 'play') look();
    },
    'stop sound': stop,
    'stop listening': stop,
    'hear phrase': (choice) => {
      const { phrase, bpm, pace } = state();
      sound(() => heard(phrase, tempoOf(phrase, bpm, pace), choice));
    },
    'hear bars': (choice) => {
      const { reviewed } = state();
      if (reviewed !== null) sound(() => heardTake(reviewed, choice));
    },
    'listen blind': soundBlind,
    'blind answer': soundBlind,
    'blind again': soundBlind,
  } satisfies Effects['on'];
  return { on };
}
